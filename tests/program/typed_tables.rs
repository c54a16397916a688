//! Tables of answers that were typed from paper: columns that no paper has, rows that stand
//! twice, numbers whose noughts a spreadsheet took. Nothing is dropped without a word.

use crate::papers::Class;

/// Marks with a table of this text; the code, what is noted, and what is printed.
fn marked(class: &Class, table: &str) -> (i32, String, String) {
    class.write("t.csv", table);
    let run = class.mark(&["--answers", &class.at("t.csv")]);
    (run.code, class.plain(&run.err), run.out)
}

#[test]
fn wrong_columns_are_refused_or_told() {
    let class = Class::new("typed-columns");
    class.assigned();
    let there = "1.1, 2.1 to 2.4, 3.1";
    let (code, err, out) = marked(&class, "paper,1.1,1.9,7.1\n001,100,1,2\n");
    assert_eq!(
        err,
        format!(
            "note: HERE/t.csv: line 1 has \"1.9\" over column 3, a line that no paper here has; the papers have {there}: item and line\n\
             note: HERE/t.csv: line 1 has \"7.1\" over column 4, a line that no paper here has; the papers have {there}: item and line\n\
             note: HERE/t.csv is left out\n"
        )
    );
    assert!(code == 1 && out.contains("\n0 of 3 marked\n"), "{out}");
    let (code, err, out) = marked(&class, "paper,name,1.1,banana\n001,Ash,100,1\n");
    assert_eq!(
        (code, err),
        (
            0,
            format!(
                "note: HERE/t.csv: column 4, \"banana\", is no line of an item and is passed over; lines are {there}\n"
            )
        )
    );
    assert!(out.contains("\n1 of 3 marked\n"), "{out}");
}

#[test]
fn a_paper_that_stands_twice_is_told_and_the_first_counts() {
    let class = Class::new("typed-twice");
    class.assigned();
    let (code, err, out) = marked(&class, "paper,1.1\n001,100\n002,7\n001,200\n");
    assert_eq!(
        (code, err.as_str()),
        (
            1,
            "note: HERE/t.csv, paper 001, has the row in line 2, which counts, and another in line 4; it is left out\n"
        )
    );
    assert!(out.contains("\n2 of 3 marked\n"), "{out}");
    let files = class.files().into_iter().map(|(path, _)| path);
    let came: Vec<String> = files.filter(|path| path.contains("handed-in")).collect();
    assert!(
        came.len() == 2 && came[0].ends_with("001.json") && came[1].ends_with("002.json"),
        "{came:?}"
    );
    assert!(
        class
            .text("class/week-6/handed-in/001.json")
            .contains("\"100\"")
    );
}

#[test]
fn a_number_without_its_noughts_is_taken_where_one_paper_fits() {
    let class = Class::new("typed-noughts");
    class.assigned();
    let (code, err, out) = marked(&class, "paper,1.1\n2,100\n8,7\n");
    assert_eq!(
        (code, err.as_str()),
        (
            1,
            "note: HERE/t.csv, paper 2, is taken as paper 002\n\
             note: HERE/t.csv, paper 8, is none of the 3 papers in this folder, 001 to 003; it is left out\n"
        )
    );
    assert!(out.contains("\n1 of 3 marked\n"), "{out}");
}

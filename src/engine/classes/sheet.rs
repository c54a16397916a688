//! The mark sheet of a class as a spreadsheet has it, and answers that were typed into
//! one.
//!
//! The table of answers has a column `paper` and one for each line, named by item and
//! line: `3.2` is line 2 of the third item on the paper. Other columns are passed over.

use csv::ReaderBuilder;

use super::day::day_of;
use super::marks::{ClassMarks, HandIn, PersonMarks, State, Way};
use crate::cells;
use crate::marking::Marks;
use crate::quantities::DecimalSign;

/// How a mark sheet is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SheetForm {
    /// The sign between cells.
    pub separator: char,
    /// The sign that parts the decimals.
    pub decimal: DecimalSign,
}

impl Default for SheetForm {
    fn default() -> Self {
        Self {
            separator: ',',
            decimal: DecimalSign::Point,
        }
    }
}

/// What a mark sheet begins with: the mark tells a spreadsheet that accents are UTF-8.
pub const BEGINS: &str = "\u{feff}id";

/// The mark sheet: a row a person in the order of the list, a column an item of the plan.
pub fn mark_sheet(class: &ClassMarks, items: usize, form: SheetForm) -> String {
    let head = ["id", "name", "came in"].map(str::to_owned).into_iter();
    let head = head.chain((1..=items).map(|item| format!("item {item}")));
    let head = head.chain(["marks", "out of", "notes"].map(str::to_owned));
    let mut text = String::from("\u{feff}");
    text.push_str(&cells::row(head, form.separator));
    for person in &class.people {
        text.push_str(&cells::row(row(person, items, form), form.separator));
    }
    text
}

fn row(person: &PersonMarks, items: usize, form: SheetForm) -> Vec<String> {
    let marks = |marks: Marks| match form.decimal {
        DecimalSign::Point => marks.to_string(),
        DecimalSign::Comma => marks.to_string().replace('.', ","),
    };
    let came = match person.came {
        None => "not in".to_owned(),
        Some((_, Some(at), zone)) => day_of(at, zone),
        Some((Way::Pen, None, _)) => "marked with the pen".to_owned(),
        Some((_, None, _)) => "typed in".to_owned(),
    };
    let mut row = vec![person.person.id.clone(), person.person.name.clone(), came];
    let own = match &person.state {
        State::Marked(own) => own.as_slice(),
        State::NotIn => &[],
    };
    for item in 1..=items {
        let of_item = own.iter().find(|own| own.item == item);
        // A dropped item has no mark; a nought would be one.
        let counts = of_item.filter(|own| own.out_of > Marks::default());
        row.push(counts.map_or_else(String::new, |own| marks(own.score)));
    }
    let (score, out_of) = match person.total() {
        Some((score, out_of)) => (marks(score), marks(out_of)),
        None => (String::new(), String::new()),
    };
    row.extend([score, out_of]);
    let of_items = own.iter().flat_map(|item| {
        let notes = item.notes.iter();
        notes.map(|note| format!("item {}: {note}", item.item))
    });
    let notes: Vec<String> = person.notes.iter().cloned().chain(of_items).collect();
    row.push(notes.join("; "));
    row
}

/// Reads a table of answers that were typed in from paper.
///
/// # Errors
/// A sentence for each fault, with its line.
pub fn read_typed(text: &str) -> Result<Vec<HandIn>, Vec<String>> {
    let text = text.trim_start_matches('\u{feff}');
    let mut reader = ReaderBuilder::new()
        .delimiter(cells::separator(text.trim_start()))
        .flexible(true)
        .from_reader(text.as_bytes());
    let head = reader.headers().cloned().unwrap_or_default();
    let named = |cell: &str| matches!(cell.trim().to_lowercase().as_str(), "paper" | "id");
    let paper = head.iter().position(named);
    let place = |cell: &str| {
        let (item, line) = cell.trim().split_once('.')?;
        let number = |text: &str| text.parse::<usize>().ok().filter(|n| (1..=100).contains(n));
        Some((number(item)?, number(line)?))
    };
    let columns: Vec<(usize, (usize, usize))> = head
        .iter()
        .enumerate()
        .filter_map(|(at, cell)| Some((at, place(cell)?)))
        .collect();
    let Some(paper) = paper.filter(|_| !columns.is_empty()) else {
        return Err(vec![
            "line 1 names no column paper, or none for an answer; write paper,1.1,1.2,2.1: item and line"
                .to_owned(),
        ]);
    };
    let mut found = Vec::new();
    let mut faults = Vec::new();
    for (at, record) in reader.records().enumerate() {
        let Ok(record) = record else { continue };
        let line = record.position().map_or(at as u64 + 2, csv::Position::line);
        if record.iter().any(|cell| cell.trim().contains('\n')) {
            faults.push(format!(
                "line {line} begins a cell in quotes that runs over the end of the line; close the quotes"
            ));
            continue;
        }
        // Else an answer with a comma would push every later one into the next column.
        if (record.iter().skip(head.len())).any(|cell| !cell.trim().is_empty()) {
            faults.push(format!(
                "line {line} has more cells than the first line has columns; put an answer with a comma in quotes: \"1,07\""
            ));
            continue;
        }
        let id = cells::text(record.get(paper).unwrap_or_default().trim());
        if id.is_empty() {
            if record.iter().any(|cell| !cell.trim().is_empty()) {
                faults.push(format!("line {line} has no paper; write its number"));
            }
            continue;
        }
        let mut items: Vec<Vec<String>> = Vec::new();
        for (column, (item, own)) in &columns {
            let cell = cells::text(record.get(*column).unwrap_or_default().trim());
            if items.len() < *item {
                items.resize(*item, Vec::new());
            }
            let Some(lines) = items.get_mut(*item - 1) else {
                continue;
            };
            if lines.len() < *own {
                lines.resize(*own, String::new());
            }
            if let Some(place) = lines.get_mut(*own - 1) {
                cell.clone_into(place);
            }
        }
        // Whose row is empty has handed nothing in yet.
        if items.iter().flatten().all(String::is_empty) {
            continue;
        }
        found.push(HandIn {
            paper: id.to_owned(),
            way: Way::Typed,
            at: None,
            zone: 0,
            items,
        });
    }
    if faults.is_empty() {
        Ok(found)
    } else {
        Err(faults)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::classes::roster::Person;

    #[test]
    fn a_typed_table_is_read_whatever_the_order_of_its_columns() {
        let text = "\u{feff}name;2.1;Paper;1.2;1.1\r\nAsh;'-5 ft;016;1,07;430\r\n;;;;\r\n";
        let read = read_typed(text).unwrap();
        assert_eq!(read.len(), 1);
        assert_eq!(read[0].paper, "016");
        assert_eq!(read[0].items, [vec!["430", "1,07"], vec!["-5 ft"]]);
        assert_eq!(
            read_typed("paper,1.1\n,430\n").unwrap_err(),
            ["line 2 has no paper; write its number"]
        );
        assert_eq!(
            read_typed("paper,1.1,1.2\n016,1,07,430\n017,\"5\n018,6,7\n").unwrap_err(),
            [
                "line 2 has more cells than the first line has columns; put an answer with a comma in quotes: \"1,07\"",
                "line 3 begins a cell in quotes that runs over the end of the line; close the quotes"
            ]
        );
        assert_eq!(read_typed("paper,1.1\n016,\n017,4\n").unwrap().len(), 1);
        assert_eq!(
            read_typed("name,answer\nAsh,1\n").unwrap_err(),
            [
                "line 1 names no column paper, or none for an answer; write paper,1.1,1.2,2.1: item and line"
            ]
        );
    }

    #[test]
    fn a_name_on_the_mark_sheet_runs_nothing_and_nobody_in_has_no_mark() {
        let class = ClassMarks {
            people: vec![PersonMarks {
                person: Person {
                    id: "001".into(),
                    name: "=1+1".into(),
                },
                came: None,
                state: State::NotIn,
                notes: Vec::new(),
            }],
            notes: Vec::new(),
        };
        let form = SheetForm {
            separator: ';',
            decimal: DecimalSign::Comma,
        };
        assert_eq!(
            mark_sheet(&class, 2, form),
            "\u{feff}id;name;came in;item 1;item 2;marks;out of;notes\r\n001;'=1+1;not in;;;;;\r\n"
        );
    }
}

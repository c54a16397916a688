//! Report, sheets, and answers from paper: what the commands write, keep and refuse.

use std::fs;
use std::path::Path;

use pumpwright::logbook::Logbook;
use pumpwright_engine::entries::{Entry, Place, Purpose};

use crate::inside::library;
use crate::logbook::{add, folder, handed_in, printed, run, text};

/// A code whose job the lessons have.
fn code(file: &Path) -> String {
    let problem = printed(file, &["problem", "cable-drop", "--draw", "7"]);
    problem.lines().nth(1).expect("the code").to_owned()
}

fn kept(file: &Path, person: &str) -> Vec<Entry> {
    let logbook = Logbook::there(file).expect("a logbook");
    let sheets = logbook.sheets(Some(person)).expect("its sheets");
    sheets.into_iter().map(|sheet| sheet.entry).collect()
}

#[test]
fn a_report_is_written_and_written_anew() {
    let folder = folder("report");
    let (file, page) = (folder.join("logbook.db"), folder.join("report.html"));
    add(&file, handed_in(&library(), "Ina", 40));
    let asked = ["logbook", "report", text(&page), "--as", "Ina"];
    let said = printed(&file, &asked);
    assert!(
        said.contains("report.html is written: 40 sheets of Ina\n"),
        "{said}"
    );
    assert!(said.contains("Foretold and seen, measured on "), "{said}");
    assert!(said.contains("Brier score 0."), "{said}");
    let first = fs::read_to_string(&page).expect("a page");
    assert!(first.starts_with("<!DOCTYPE html>\n<!-- pumpwright: report -->\n<html"));
    assert!(first.ends_with("</html>\n") && first.contains("logbook of Ina"));
    assert_eq!(printed(&file, &asked), said);
    let names = fs::read_dir(&folder).expect("a folder");
    let left = names.filter(|name| {
        let name = name.as_ref().expect("a name").file_name();
        name.to_string_lossy().ends_with(".new")
    });
    assert_eq!(left.count(), 0);
}

#[test]
fn what_is_not_ours_is_not_written_over() {
    let folder = folder("report-refused");
    let file = folder.join("logbook.db");
    let other = folder.join("other.html");
    let none = run(&file, &["logbook", "report", text(&other), "--as", "Ina"]);
    assert_eq!(none.code, 2, "{}", none.err);
    assert!(none.err.contains("there is no logbook "), "{}", none.err);
    add(&file, handed_in(&library(), "Ina", 2));
    let nobody = run(&file, &["logbook", "report", text(&other), "--as", "Zoe"]);
    assert_eq!(nobody.code, 2);
    assert!(
        nobody.err.contains("there is no sheet of Zoe in "),
        "{}",
        nobody.err
    );
    assert!(!other.exists());
    fs::write(&other, "<html>mine</html>").expect("a file");
    for asked in [
        ["logbook", "report", text(&other), "--as", "Ina"].as_slice(),
        &["sheet", text(&other), "--as", "Ina"],
    ] {
        let run = run(&file, asked);
        assert_eq!(run.code, 2, "{asked:?}");
        assert!(
            run.err.contains(" of this program; name another file"),
            "{}",
            run.err
        );
    }
    assert_eq!(fs::read_to_string(&other).expect("it"), "<html>mine</html>");
    // A sheet is no report.
    let page = folder.join("page.html");
    printed(
        &file,
        &[
            "sheet",
            text(&page),
            "--lesson",
            "drop-cable",
            "--draw",
            "7",
        ],
    );
    let run = run(&file, &["logbook", "report", text(&page), "--as", "Ina"]);
    assert!(
        run.err
            .contains("is there and is no report of this program"),
        "{}",
        run.err
    );
    assert_eq!(kept(&file, "Ina").len(), 2);
}

/// Before anything is made, and wherever a file of one sort is written.
#[test]
fn a_name_that_says_another_sort_of_file_is_refused() {
    let folder = folder("endings");
    let file = folder.join("logbook.db");
    add(&file, handed_in(&library(), "Ina", 2));
    let none = folder.join("no-class");
    let html_of = ["report", text(&none), "--html", "FILE"];
    let csv_of = ["report", text(&none), "--csv", "FILE"];
    let sheet = ["sheet", "FILE", "--lesson", "drop-cable"];
    let figure = ["figure", "drawdown", "--svg", "FILE"];
    let csv = ["logbook", "export", "--as", "Ina", "--csv", "FILE"];
    let jsonl = ["logbook", "export", "--as", "Ina", "--jsonl", "FILE"];
    let report = ["logbook", "report", "FILE", "--as", "Ina"];
    let mut asked = vec![
        (sheet.as_slice(), "page.pdf", "page.html"),
        (sheet.as_slice(), "page", "page.html"),
        (report.as_slice(), "logbook.db", "logbook.html"),
        (figure.as_slice(), "figure.png", "figure.svg"),
        (csv.as_slice(), "record.xlsx", "record.csv"),
        (jsonl.as_slice(), "record.csv", "record.jsonl"),
        (html_of.as_slice(), "r.csv", "r.html"),
        (csv_of.as_slice(), "r.html", "r.csv"),
    ];
    let page = folder.join("page.pdf");
    let handout = ["handout", "FILE", "--family", "cable-drop"];
    let key = [
        "handout",
        text(&page),
        "--family",
        "cable-drop",
        "--key",
        "FILE",
    ];
    if cfg!(feature = "pdf") {
        asked.push((handout.as_slice(), "h.docx", "h.pdf"));
        asked.push((key.as_slice(), "key", "key.pdf"));
    }
    let before = fs::read(&file).expect("the record");
    for (asked, name, right) in asked {
        let (path, right) = (folder.join(name), folder.join(right));
        let asked: Vec<&str> = asked
            .iter()
            .map(|word| if *word == "FILE" { text(&path) } else { *word })
            .collect();
        let run = run(&file, &asked);
        let ending = right.extension().expect("an ending").to_string_lossy();
        let sentence = format!(
            "error: {} does not end with .{ending}; name the file {}\n",
            path.display(),
            right.display()
        );
        assert_eq!((run.code, run.err), (2, sentence), "{asked:?}");
        assert!(path == file || !path.exists(), "{asked:?}");
        assert!(!right.exists() && !page.exists(), "{asked:?}");
    }
    assert!(fs::read(&file).expect("the record") == before);
    // Capital letters, and the short form that some systems have, are as good.
    for name in ["page.HTML", "page.htm"] {
        let path = folder.join(name);
        printed(&file, &["sheet", text(&path), "--lesson", "drop-cable"]);
        assert!(path.exists(), "{name}");
    }
}

#[test]
fn a_page_that_cannot_be_written_leaves_nothing() {
    let folder = folder("report-full");
    let file = folder.join("logbook.db");
    let nowhere = folder.join("none").join("page.html");
    let run = run(&file, &["sheet", text(&nowhere), "--lesson", "drop-cable"]);
    assert_eq!(run.code, 3);
    assert!(
        run.err.contains("page.html cannot be written: "),
        "{}",
        run.err
    );
}

/// A disk that is full, as a limit on the size of files has it.
#[cfg(unix)]
#[test]
fn a_full_disk_leaves_no_half_page() {
    use std::process::Command;

    use crate::started::{NO_SETTINGS, finish};

    let folder = folder("sheet-full");
    let page = folder.join("page.html");
    let program = env!("CARGO_BIN_EXE_pumpwright");
    let script = "trap '' XFSZ; ulimit -f 4; exec \"$0\" \"$@\"";
    let mut command = Command::new("sh");
    command
        .args([
            "-c",
            script,
            program,
            "sheet",
            text(&page),
            "--lesson",
            "drop-cable",
        ])
        .env_clear()
        .env("LC_ALL", "C.UTF-8")
        .env("PUMPWRIGHT_SETTINGS", NO_SETTINGS)
        .env("PUMPWRIGHT_LOGBOOK", folder.join("logbook.db"));
    let run = finish(&mut command);
    assert_eq!(run.code, 3, "{}", run.err);
    assert!(
        run.err.contains("page.html cannot be written: "),
        "{}",
        run.err
    );
    assert_eq!(fs::read_dir(&folder).expect("a folder").count(), 0);
}

#[test]
fn sheets_are_tonights_or_a_lessons() {
    let folder = folder("sheet");
    let (file, page) = (folder.join("logbook.db"), folder.join("page.html"));
    // Somebody new, and no logbook is made by looking.
    let said = printed(
        &file,
        &[
            "sheet",
            text(&page),
            "--as",
            "Ina",
            "--count",
            "3",
            "--draw",
            "7",
        ],
    );
    assert_eq!(said.lines().count(), 4, "{said}");
    assert!(!file.exists());
    let first = fs::read_to_string(&page).expect("a page");
    assert!(first.starts_with("<!DOCTYPE html>\n<!-- pumpwright: sheet -->\n"));
    assert_eq!(first.matches("<article").count(), 3);
    for code in said.lines().skip(1) {
        assert!(first.contains(code.trim()), "{code}");
        printed(&file, &["problem", code.trim()]);
    }
    printed(
        &file,
        &[
            "sheet",
            text(&page),
            "--as",
            "Ina",
            "--count",
            "3",
            "--draw",
            "7",
        ],
    );
    assert_eq!(fs::read_to_string(&page).expect("a page"), first);
    // What was done today is not asked again today.
    let done = said.lines().nth(1).expect("a code").trim();
    printed(&file, &["answer", done, "1=1", "--paper", "--as", "Ina"]);
    let said = printed(
        &file,
        &[
            "sheet",
            text(&page),
            "--as",
            "Ina",
            "--count",
            "3",
            "--draw",
            "7",
        ],
    );
    let family = done.split('.').next().expect("a family");
    assert!(!said.contains(&format!("  {family}.")), "{said}");
    assert_eq!(said.lines().count(), 4, "{said}");
    let metric = [
        "sheet",
        text(&page),
        "--lesson",
        "drop-cable",
        "--units",
        "si",
    ];
    let said = printed(&file, &metric);
    assert!(said.contains("  cable-drop.2si."), "{said}");
    assert!(
        fs::read_to_string(&page)
            .expect("a page")
            .contains("CAUTION: ")
    );
    for (asked, words) in [
        (
            ["--lesson", "dropcable"].as_slice(),
            "there is no lesson \"dropcable\"; near it: drop-cable",
        ),
        (
            &["--lesson", "drop-cable", "--count", "3"],
            "cannot be used with",
        ),
        (&["--count", "0"], "0 is not in 1..=40"),
        (&["--lesson", "drop-cable", "--level", "9"], "level"),
    ] {
        let run = run(&file, &[&["sheet", text(&page)], asked].concat());
        assert_eq!(run.code, 2, "{asked:?}: {}", run.err);
        assert!(run.err.contains(words), "{asked:?}: {}", run.err);
    }
}

#[test]
fn an_answer_from_paper_goes_into_the_logbook() {
    let folder = folder("paper");
    let file = folder.join("logbook.db");
    let code = code(&file);
    let plain = printed(&file, &["answer", &code, "run=354"]);
    assert!(!file.exists(), "without --paper nothing is kept");
    let paper = [
        "answer",
        &code,
        "run=354",
        "--paper",
        "--as",
        "Ina",
        "--minutes",
        "6",
    ];
    let said = printed(&file, &paper);
    assert_eq!(
        said,
        format!("{plain}Kept in the logbook, as done on paper.\n")
    );
    let entries = kept(&file, "Ina");
    let [entry] = entries.as_slice() else {
        panic!("{} entries", entries.len());
    };
    assert_eq!(
        (entry.place, entry.purpose),
        (Place::Paper, Purpose::Practice)
    );
    assert_eq!((entry.code.as_str(), entry.seconds), (code.as_str(), 360));
    assert_eq!(entry.lines[0].typed, "354");
    assert!(entry.lines.iter().all(|line| line.helped == 0));
    // Once more, with the solution open: kept too, and said that it does not count.
    let again = run(
        &file,
        &[
            "answer", &code, "run=354", "--paper", "--looked", "--as", "Ina",
        ],
    );
    assert_eq!(again.code, 0);
    assert!(
        again.err.contains("this problem was handed in before"),
        "{}",
        again.err
    );
    let entries = kept(&file, "Ina");
    assert!(entries[1].lines.iter().all(|line| line.helped == 4));
    for (asked, words) in [
        (
            ["--paper"].as_slice(),
            "nothing is answered, so nothing is kept",
        ),
        (
            &["run= ", "--paper"],
            "nothing is answered, so nothing is kept",
        ),
        (&["gone=3", "--paper"], "asks for no step \"gone\""),
        (&["run=354", "--looked"], "--paper"),
        (
            &["run=354", "--paper", "--minutes", "0"],
            "0 is not in 1..=600",
        ),
    ] {
        let run = run(&file, &[&["answer", &code, "--as", "Ina"], asked].concat());
        assert_eq!(run.code, 2, "{asked:?}: {}", run.err);
        assert!(run.err.contains(words), "{asked:?}: {}", run.err);
    }
    assert_eq!(kept(&file, "Ina").len(), 2);
    // A logbook that cannot be used: nothing is marked as kept.
    let blocked = folder.join("blocked");
    fs::create_dir(&blocked).expect("a folder");
    let run = run(&blocked, &["answer", &code, "run=354", "--paper"]);
    assert_ne!(run.code, 0);
    assert_eq!(run.out, "");
}

#[cfg(feature = "pdf")]
#[test]
fn a_handout_is_a_pdf_with_its_key() {
    let folder = folder("handout");
    let file = folder.join("logbook.db");
    let (page, key) = (folder.join("page.pdf"), folder.join("key.pdf"));
    let asked = |name: &str, to: &Path| {
        run(
            &file,
            &[
                "handout",
                text(to),
                "--family",
                "cable-drop",
                "--family",
                "box-parts",
                "--draw",
                "7",
                "--name",
                name,
                "--key",
                text(&key),
            ],
        )
    };
    let said = asked("D'Arcy, L.", &page);
    assert_eq!(said.code, 0, "{}", said.err);
    let lines: Vec<&str> = said.out.lines().collect();
    assert!(
        lines[0].ends_with("page.pdf is written: 2 problems"),
        "{}",
        lines[0]
    );
    assert!(
        lines[1].ends_with("key.pdf is written: the key"),
        "{}",
        lines[1]
    );
    assert!(lines[2].starts_with("  cable-drop."), "{}", lines[2]);
    let first = fs::read(&page).expect("a page");
    assert!(first.starts_with(b"%PDF-1.7"));
    assert!(fs::read(&key).expect("a key").starts_with(b"%PDF-1.7"));
    // One of ours is written anew, the same; another is left alone.
    assert_eq!(asked("D'Arcy, L.", &page).code, 0);
    assert!(
        fs::read(&page).expect("a page") == first,
        "other bytes the second time"
    );
    let other = folder.join("other.pdf");
    fs::write(&other, "%PDF-1.7 of somebody else").expect("written");
    let refused = asked("D'Arcy, L.", &other);
    assert_eq!(refused.code, 2);
    assert!(
        refused
            .err
            .contains("other.pdf is there and is no PDF of this program; name another file"),
        "{}",
        refused.err
    );
    let refused = asked("李", &page);
    assert_eq!(refused.code, 2);
    assert!(
        refused.err.contains("\"李\" cannot be printed"),
        "{}",
        refused.err
    );
    let before = fs::read(&key).expect("a key");
    let mut ways = vec![key.clone(), folder.join("in").join("..").join("key.pdf")];
    fs::create_dir(folder.join("in")).expect("a folder");
    #[cfg(unix)]
    {
        ways.push(folder.join("link.pdf"));
        std::os::unix::fs::symlink("key.pdf", folder.join("link.pdf")).expect("a link");
    }
    for way in ways.iter().rev() {
        let refused = asked("Ina", way);
        assert_eq!(refused.code, 2, "{}", way.display());
        assert!(
            refused.err.contains("name another one for the key"),
            "{}",
            refused.err
        );
    }
    assert!(
        fs::read(&key).expect("a key") == before,
        "the key is overwritten"
    );
}

/// The way to a file that is not there yet may lead over a link to it.
#[cfg(all(feature = "pdf", unix))]
#[test]
fn a_handout_and_a_key_that_are_one_new_file_are_refused() {
    let folder = folder("handout-new");
    let file = folder.join("logbook.db");
    std::os::unix::fs::symlink("page.pdf", folder.join("key.pdf")).expect("a link");
    let page = folder.join("page.pdf");
    let (page_text, key) = (text(&page), folder.join("key.pdf"));
    let asked = ["handout", page_text, "--family", "cable-drop", "--key"];
    let refused = run(&file, &[asked.as_slice(), &[text(&key)]].concat());
    assert_eq!(refused.code, 2, "{}", refused.out);
    assert!(
        refused.err.contains("name another one for the key"),
        "{}",
        refused.err
    );
    assert!(!page.exists(), "it is written all the same");
}

/// A draw that there is not is refused in the same words wherever one is named.
#[test]
fn a_draw_beyond_the_last_is_refused() {
    let folder = folder("beyond");
    let file = folder.join("logbook.db");
    let (to, page) = (folder.join("package"), folder.join("page.html"));
    let mut asked = vec![
        vec!["problem", "psi-to-feet"],
        vec!["board", "psi-to-feet"],
        vec!["export", "psi-to-feet", "--qti", text(&to), "--count", "2"],
        vec!["sheet", text(&page), "--lesson", "pressure-and-head"],
    ];
    let handout = folder.join("page.pdf");
    if cfg!(feature = "pdf") {
        asked.push(vec!["handout", text(&handout), "--family", "psi-to-feet"]);
    }
    for named in ["4294967295", "1073741824"] {
        for asked in &asked {
            let refused = run(&file, &[asked.as_slice(), &["--draw", named]].concat());
            assert_eq!(refused.code, 2, "{asked:?}: {}", refused.err);
            assert!(
                refused.err.contains(&format!("there is no draw {named}")),
                "{asked:?}: {}",
                refused.err
            );
        }
    }
    assert!(!to.exists() && !page.exists() && !handout.exists());
}

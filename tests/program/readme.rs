//! What the README and the contributors' guide show must still be so.

use std::iter::Peekable;
use std::str::Lines;

use pumpwright_engine::lessons::Library;
use pumpwright_engine::papers::{PaperCode, paper_again};
use pumpwright_engine::problems::{Code, again};

use crate::started::run;

const README: &str = include_str!("../../README.md");

/// Commands of these kinds write nothing, and print the same everywhere.
const PRINTS: [&str; 4] = ["answer", "calc", "lessons", "problem"];

/// The words of a command as a shell takes them; quotes hold words together.
fn words(command: &str) -> Vec<String> {
    let parts = command.split('"').enumerate();
    let mut words = vec![String::new()];
    for (at, part) in parts {
        let mut spaced = part.split(' ');
        if at % 2 == 1 {
            words.last_mut().expect("a word").push_str(part);
            continue;
        }
        words
            .last_mut()
            .expect("a word")
            .push_str(spaced.next().unwrap_or_default());
        words.extend(spaced.map(str::to_owned));
    }
    words
}

/// What the page shows below a command, to the end of its block or to the next command.
fn shown(lines: &mut Peekable<Lines>) -> Vec<String> {
    let mut shown = Vec::new();
    while let Some(line) = lines.next_if(|line| !line.starts_with("```") && !line.starts_with("$ "))
    {
        shown.push(line.to_owned());
    }
    while shown.last().is_some_and(String::is_empty) {
        shown.pop();
    }
    shown
}

/// A page that shows what the program no longer says is held against it by every reader.
#[test]
fn what_the_page_shows_of_a_command_is_printed() {
    let mut found = 0;
    let mut lines = README.lines().peekable();
    while let Some(line) = lines.next() {
        let Some(command) = line.strip_prefix("$ pumpwright ") else {
            continue;
        };
        let asked = words(command);
        if !PRINTS.contains(&asked[0].as_str()) {
            continue;
        }
        let mut page = shown(&mut lines);
        // A list that goes on ends so on the page.
        let goes_on = page.last().is_some_and(|last| last == "…");
        if goes_on {
            page.pop();
        }
        let arguments: Vec<&str> = asked.iter().map(String::as_str).collect();
        let printed = run(&arguments).out;
        let mut printed: Vec<&str> = printed.trim_end().lines().collect();
        if goes_on {
            printed.truncate(page.len());
        }
        assert_eq!(page, printed, "{command}");
        found += 1;
    }
    assert!(found >= 4, "the page shows {found} commands");
}

/// The sheet handed in on the page is the one in the picture, which is made from the program.
#[test]
fn the_sheet_on_the_page_is_the_one_in_the_picture() {
    let picture = include_str!("../../docs/pictures/handed-in.svg");
    let (_, page) = README
        .split_once("┌─ JOB SHEET, HANDED IN ")
        .expect("a sheet handed in");
    let (_, slip) = page.split_once("│ LINE 2 ").expect("a slip");
    let (slip, _) = slip.split_once("│ MARKS ").expect("its marks");
    let rows: Vec<&str> = slip
        .lines()
        .map(|row| row.trim_matches(|sign| matches!(sign, '│' | ' ')))
        .filter(|row| !row.is_empty())
        .collect();
    assert!(rows.len() >= 4, "{rows:?}");
    for row in &rows[1..] {
        assert!(picture.contains(&format!(">{row}<")), "{row}");
    }
}

/// A reader types the codes off the page: each must draw here.
#[test]
fn the_codes_on_the_page_draw() {
    let (library, _) = Library::read(&pumpwright::lesson_files::carried().files);
    let mut found = 0;
    for page in [README, include_str!("../../DEVELOPERS.md")] {
        let codes = page
            .split(|c: char| c.is_whitespace() || c == '`')
            .filter_map(|word| word.parse::<Code>().ok())
            .filter(|code| library.family(&code.family).is_some());
        for code in codes {
            found += 1;
            assert!(
                again(&library, &code).is_ok(),
                "{code}: draw it anew on the page"
            );
        }
    }
    assert!(found >= 3, "the pages show no codes");
    let papers = README
        .split(|c: char| c.is_whitespace() || "`()".contains(c))
        .filter_map(|word| word.parse::<PaperCode>().ok());
    let papers: Vec<PaperCode> = papers.collect();
    assert!(!papers.is_empty(), "the page shows no paper");
    for code in papers {
        assert!(
            paper_again(&library, &code).is_ok(),
            "{code}: draw it anew on the page"
        );
    }
}

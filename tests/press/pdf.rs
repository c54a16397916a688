//! Papers, keys, strips and slips as PDF. With `PUMPWRIGHT_PAPERS=FOLDER` the files are
//! kept, and 24 papers with their key beside them, to be looked at and held against
//! other programs.

use std::path::PathBuf;

use pumpwright_engine::formulas::Value;
use pumpwright_engine::lessons::Library;
use pumpwright_engine::problems::{Asks, Problem, Request, Settings, draw, draw_sealed};
use pumpwright_engine::quantities::System;
use pumpwright_press::pdf::{
    Answer, Format, Head, Item, Key, KeyItem, MOST_TOGETHER, Paper, PaperPages, PdfFault, Slip,
    SlipItem, Slips, Strip, StripItem, StripRow, Strips, key, paper, papers, slips, strips,
};

use crate::common::{draw_one, every_setting, faces, shipped};

/// Names as rosters have them.
const NAMES: [&str; 6] = [
    "D'Arcy-Muñoz, Łucja",
    "O’Brien \"Red\" #1",
    "Žák; *Ødegård*",
    "$x$ @me <b>",
    "Παπαδοπούλου, Ε.",
    "Юрий Ёлкин",
];

fn folder() -> Option<PathBuf> {
    std::env::var_os("PUMPWRIGHT_PAPERS").map(PathBuf::from)
}

fn keep(name: &str, bytes: &[u8]) {
    if let Some(folder) = folder() {
        std::fs::write(folder.join(name), bytes).expect("written");
    }
}

fn head(name: &str, number: usize, format: Format) -> Head {
    Head {
        title: "Week 6: cable, tank, relief".to_owned(),
        day: Some(20_784),
        name: name.to_owned(),
        number: format!("{number:03}"),
        format,
        tables: "All tables may be open.".to_owned(),
    }
}

/// One problem of each family of these systems, at its lowest level.
fn problems(library: &Library, system: System, draw: u32) -> Vec<Problem> {
    let mut found: Vec<Problem> = Vec::new();
    for face in faces(library) {
        let known = found.last().is_some_and(|last| last.family.id == face.0);
        if face.2 == system && !known {
            found.extend(draw_one(library, &face, draw, &Settings::default()));
        }
    }
    found
}

/// The first problem that is answered so.
fn answered(problems: &[Problem], so: impl Fn(&Answer) -> bool) -> &Problem {
    let has = |problem: &&Problem| {
        let item = Item::of(problem, 1, 1);
        item.asked.iter().any(|asked| so(&asked.answer))
    };
    problems.iter().find(has).expect("a problem of the kind")
}

fn items<'a>(problems: impl IntoIterator<Item = &'a Problem>) -> Vec<Item> {
    (1..)
        .zip(problems)
        .map(|(number, problem)| Item::of(problem, number, problem.marks()))
        .collect()
}

/// Whether the file is tagged, says its language, and embeds every font; by its own words,
/// for streams are packed.
fn is_sound(bytes: &[u8]) {
    let holds = |text: &str| {
        bytes
            .windows(text.len())
            .any(|part| part == text.as_bytes())
    };
    assert!(bytes.starts_with(b"%PDF-1.7"));
    for text in [
        "/Creator(pumpwright)",
        "<pdfuaid:part>1</pdfuaid:part>",
        "/StructTreeRoot",
        "/Marked true",
    ] {
        assert!(holds(text), "the file lacks {text}");
    }
}

#[test]
fn a_paper_holds_every_kind_and_is_the_same_each_time() {
    let library = shipped();
    let all = problems(&library, System::Us, 3);
    let kinds = [
        answered(&all, |answer| matches!(answer, Answer::Write { .. })),
        answered(&all, |answer| matches!(answer, Answer::Pick { .. })),
        answered(&all, |answer| matches!(answer, Answer::Order { .. })),
        answered(&all, |answer| matches!(answer, Answer::Match { .. })),
        all.iter()
            .find(|problem| problem.figure.is_some())
            .expect("a figure to be read"),
    ];
    let made = |name: &str, format| {
        paper(&Paper {
            head: head(name, 19, format),
            items: items(kinds),
        })
        .expect("set")
    };
    let letter = made(NAMES[0], Format::Letter);
    is_sound(&letter);
    assert!(
        letter == made(NAMES[0], Format::Letter),
        "other bytes the second time"
    );
    assert!(letter != made(NAMES[1], Format::Letter));
    is_sound(&made(NAMES[3], Format::A4));
    keep("kinds.pdf", &letter);
    // On the key the same problems, worked.
    let worked = key(&Key {
        head: head("", 0, Format::Letter),
        items: kinds
            .iter()
            .map(|problem| KeyItem::of(problem, "Paper 019, problem 1".to_owned()))
            .collect(),
    });
    let worked = worked.expect("set");
    is_sound(&worked);
    keep("kinds-key.pdf", &worked);
}

/// Families whose figure hides a given because it is what is asked: with another answer it is
/// none, and is shown. Of them all but the figure is held against each other.
const HIDES_A_GIVEN: [&str; 2] = ["breaker-size", "tank-precharge"];

/// A paper is given to whoever is to be tried by it: the same item comes of a problem
/// whose keys and mistakes are gone and whose answers are others, and no seed stands in it.
#[test]
fn an_item_has_nothing_of_its_answer() {
    let library = shipped();
    let all = System::BOTH.map(|system| problems(&library, system, 5));
    for problem in all.into_iter().flatten() {
        let mut item = Item::of(&problem, 1, 4);
        assert!(!format!("{item:?}").contains(&problem.code.to_string()));
        let mut blind = problem.clone();
        blind.mistakes.clear();
        for slot in problem.variant.steps.iter().filter_map(|step| step.slot) {
            if let Some(Value::Number(figure)) = &mut blind.values[slot] {
                figure.si *= 1.25;
            }
        }
        for line in &mut blind.lines {
            line.says.clear();
            match &mut line.asks {
                Asks::Nothing | Asks::Figure | Asks::Row => {}
                Asks::Pick { key, .. } => *key = 0,
                Asks::Order { cards } => cards.iter_mut().for_each(|card| {
                    card.place = None;
                    card.after.clear();
                }),
                Asks::Match { parts, .. } => parts.iter_mut().for_each(|(_, key)| *key = 0),
            }
        }
        let mut unseeing = Item::of(&blind, 1, 4);
        if HIDES_A_GIVEN.contains(&&*problem.family.id) {
            (item.drawing, unseeing.drawing) = (None, None);
        }
        assert_eq!(unseeing, item);
    }
}

/// A figure from a sheet goes out with the day of the sheet and what to mind, on the paper
/// and on the key.
#[test]
fn a_sheet_stands_on_the_paper_and_on_the_key() {
    let library = shipped();
    let all = System::BOTH.map(|system| problems(&library, system, 5));
    let (mut sheets, mut varying) = (0, 0);
    let line = |text: &str| text.replace('\n', " ");
    for problem in all.iter().flatten() {
        let item = Item::of(problem, 1, 4);
        let key = KeyItem::of(problem, String::new());
        for sheet in problem.sheets.iter().map(|sheet| line(sheet)) {
            sheets += 1;
            assert!(item.sheets.contains(&sheet), "{}", problem.code);
            assert!(key.varies.contains(&sheet), "{}", problem.code);
        }
        if let Some(varies) = problem.varies() {
            varying += 1;
            assert_eq!(key.varies, line(&varies), "{}", problem.code);
        }
    }
    assert!(sheets > 3 && varying > sheets, "{sheets} {varying}");
}

/// A key names the code that draws a problem again, and none where no code does: the code
/// of a sealed problem would draw another one. House rules stand on both.
#[test]
fn a_sealed_problem_has_no_code_on_its_key() {
    let library = shipped();
    let mut ruled = 0;
    for settings in every_setting(&library) {
        let request = Request {
            family: "tank-precharge",
            level: Some(1),
            system: System::Us,
            draw: 7,
            settings: &settings,
        };
        let open = draw(&library, &request).expect("drawn");
        let sealed = draw_sealed(&library, &request, &[7; 32]).expect("drawn");
        let face = open.code.face();
        ruled += usize::from(face.contains('+'));
        let key = |problem| KeyItem::of(problem, String::new()).code;
        assert_eq!(key(&open), open.code.to_string());
        assert_eq!(key(&sealed), face);
        assert_eq!(Item::of(&open, 1, 4).code, face);
        assert_eq!(Item::of(&sealed, 1, 4).code, face);
    }
    assert!(ruled > 1, "{ruled} under other house rules");
}

/// Each formula of each family is set once, as words and with numbers: what the printer
/// makes is a formula to the typesetter.
#[test]
fn the_formulas_of_every_family_can_be_set() {
    let library = shipped();
    let mut seen = std::collections::BTreeSet::new();
    let mut kept: Vec<KeyItem> = Vec::new();
    for system in System::BOTH {
        for problem in problems(&library, system, 7) {
            let mut item = KeyItem::of(&problem, String::new());
            item.story.clear();
            item.cautions.clear();
            for step in &item.steps {
                for (math, said) in step.formulas() {
                    assert!(!said.is_empty(), "{math} is not said");
                    let figure = |word: &str| word.parse::<f64>().is_ok();
                    assert!(!said.split(' ').any(figure), "{said}");
                }
            }
            // The same shape of formula twice tells nothing new.
            item.steps.retain(|step| {
                let shape: Vec<String> = step.formulas().map(|(math, _)| shape(math)).collect();
                !shape.is_empty() && seen.insert(shape)
            });
            if !item.steps.is_empty() {
                kept.push(item);
            }
        }
    }
    assert!(kept.len() > 30, "{} families with formulas", kept.len());
    let worked = key(&Key {
        head: head("", 0, Format::A4),
        items: kept,
    });
    is_sound(&worked.expect("set"));
}

/// A formula with its texts taken out.
fn shape(math: &str) -> String {
    let parts = math.split('"').enumerate();
    parts
        .map(|(at, part)| if at % 2 == 1 { "t" } else { part })
        .collect()
}

#[test]
fn several_papers_make_one_file() {
    let library = shipped();
    let all = problems(&library, System::Us, 1);
    let one = |number: usize| Paper {
        head: head(NAMES[number], number, Format::A4),
        items: items(all.iter().skip(number).take(1)),
    };
    let three = papers(&[one(0), one(1), one(2)]).expect("set");
    is_sound(&three);
    // Each begins on a leaf of its own: a page each, and two white ones between.
    let pages = b"/Type/Pages/Count 5/";
    assert!(three.windows(pages.len()).any(|part| part == pages));
    keep("three.pdf", &three);
    assert_eq!(papers(&[]), Err(PdfFault::TooMany(MOST_TOGETHER)));
    let many: Vec<Paper> = std::iter::repeat_with(|| one(0))
        .take(MOST_TOGETHER + 1)
        .collect();
    assert_eq!(papers(&many), Err(PdfFault::TooMany(MOST_TOGETHER)));
}

/// What a person gets does not hang on who else sits in the class.
#[test]
fn a_paper_of_a_class_is_the_paper_alone() {
    let library = shipped();
    let all = problems(&library, System::Us, 3);
    let class: Vec<Paper> = (0..4)
        .map(|number| Paper {
            head: head(NAMES[number], number, Format::Letter),
            // Long papers and short ones, some with the same problems.
            items: items(all.iter().skip(number * 9).take(2 + 5 * (number % 2))),
        })
        .collect();
    let pages = PaperPages::set(&class).expect("set");
    for (at, own) in class.iter().enumerate() {
        let cut = pages.alone(at).expect("made");
        is_sound(&cut);
        assert!(cut == paper(own).expect("set"), "paper {at} differs");
    }
    assert_eq!(pages.together(), papers(&class));
    let beyond = pages.alone(4).expect_err("there is no such paper");
    assert!(
        beyond
            .to_string()
            .contains("no pages from start-4 to end-4")
    );
}

#[test]
fn a_sign_without_letters_is_refused_in_words() {
    let refused = paper(&Paper {
        head: head("李 Wei", 1, Format::A4),
        items: Vec::new(),
    });
    let fault = refused.expect_err("no such letters");
    assert_eq!(
        fault.to_string(),
        "\"李 Wei\" cannot be printed: the program's letters have no '李'; write it in \
         Latin, Greek or Cyrillic letters"
    );
}

#[test]
fn strips_and_slips_are_set() {
    let row = |line: usize| StripRow {
        line,
        span: "429 to 431".to_owned(),
        letters: vec![("a".to_owned(), "310".to_owned())],
    };
    let item = |number: usize| StripItem {
        number,
        title: "cable-drop".to_owned(),
        marks: 4,
        rows: (1..=4).map(row).collect(),
        after: vec![
            "after a: \u{2002}3:\u{a0}5.17\u{a0}V \u{2002}4:\u{a0}2.2\u{a0}%".to_owned(),
            "a\u{a0}then\u{a0}b, 3.8: no\u{a0}mark".to_owned(),
        ],
    };
    let strip = |number: usize, count: usize| Strip {
        number: format!("{number:03}"),
        name: NAMES[number % NAMES.len()].to_owned(),
        items: (1..=count).map(item).collect(),
    };
    let made = strips(&Strips {
        head: head("", 0, Format::Letter),
        // The second is longer than a page and goes on beside itself.
        strips: vec![strip(1, 5), strip(2, 14), strip(3, 5), strip(4, 5)],
    });
    let made = made.expect("set");
    is_sound(&made);
    keep("strips.pdf", &made);
    let pages = b"/Type/Pages/Count 2/";
    assert!(made.windows(pages.len()).any(|part| part == pages));
    let made = slips(&Slips {
        title: "Week 6: cable, tank, relief".to_owned(),
        day: Some(20_784),
        format: Format::A4,
        slips: vec![Slip {
            name: NAMES[2].to_owned(),
            number: "019".to_owned(),
            marks: "3.5".to_owned(),
            out_of: "4".to_owned(),
            verdict: "passed; the pass mark is 3".to_owned(),
            items: vec![SlipItem {
                number: 1,
                title: "Volts lost on the way down".to_owned(),
                marks: "3.5".to_owned(),
                out_of: "4".to_owned(),
                mistakes: vec!["Line 1: current takes two wires.".to_owned()],
            }],
            practice: vec!["Volts lost on the way down".to_owned()],
            notes: vec!["Problem 1: half a mark added.".to_owned()],
        }],
    });
    let made = made.expect("set");
    is_sound(&made);
    keep("slips.pdf", &made);
}

/// What a plan and a list of names may have, and more: to be looked at. That nothing prints
/// over anything is tried beside the typesetter.
#[test]
fn long_heads_are_set() {
    let library = shipped();
    let all = problems(&library, System::Us, 2);
    let title = "Cable, tank and relief valve: all that stands between the well and the house in winter, too";
    let name = "Aleksandra-Konstancja Nowak-Wiśniewska, of the evening class";
    let kinds = [
        (title, name, Some(20_784)),
        (title, "", Some(20_784)),
        ("Week 6: cable, tank, relief", name, None),
        ("Week 6: cable, tank, relief", "", None),
    ];
    let one = |(title, name, day): (&str, &str, Option<i32>)| Paper {
        head: Head {
            title: title.to_owned(),
            day,
            ..head(name, 19, Format::Letter)
        },
        items: items(all.iter().take(3)),
    };
    let made = papers(&kinds.map(one)).expect("set");
    is_sound(&made);
    keep("heads.pdf", &made);
    let made = key(&Key {
        head: one(kinds[0]).head,
        items: vec![KeyItem::of(&all[0], "Paper 019, problem 1".to_owned())],
    });
    keep("heads-key.pdf", &made.expect("set"));
}

/// A class: 24 papers of six problems, for the printer and one by one, with their key.
/// Only where somebody wants to look at them.
#[test]
fn a_class_of_24() {
    let Some(folder) = folder() else { return };
    let library = shipped();
    let mut class = Vec::new();
    let mut worked = Vec::new();
    let mut told = String::new();
    for number in 1..=24_usize {
        let system = if number % 2 == 0 {
            System::Si
        } else {
            System::Us
        };
        let all = problems(&library, system, number as u32);
        let own: Vec<&Problem> = all.iter().cycle().skip(number * 4).take(6).collect();
        for problem in &own {
            told.extend(problem.told().into_iter().map(|given| given.text + "\n"));
        }
        worked.extend(
            own.iter()
                .map(|problem| KeyItem::of(problem, format!("Paper {number:03}"))),
        );
        let format = if number % 3 == 0 {
            Format::Letter
        } else {
            Format::A4
        };
        class.push(Paper {
            head: head(NAMES[number % NAMES.len()], number, format),
            items: items(own),
        });
    }
    std::fs::write(folder.join("told.txt"), told).expect("written");
    let start = std::time::Instant::now();
    for (number, own) in (1..).zip(&class) {
        let bytes = paper(own).expect("set");
        keep(&format!("paper-{number:03}.pdf"), &bytes);
    }
    let single = start.elapsed();
    keep("papers.pdf", &papers(&class).expect("set"));
    let together = start.elapsed();
    let head = head("", 0, Format::A4);
    keep(
        "key.pdf",
        &key(&Key {
            head,
            items: worked,
        })
        .expect("set"),
    );
    let all = start.elapsed();
    println!("24 papers {single:?}, together after {together:?}, key after {all:?}");
}

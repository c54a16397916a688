//! A paper of a class that is answered here: given as a file, and tried by the instructor.

use insta::assert_snapshot;
use pumpwright_engine::classes::marks::Ready;
use pumpwright_engine::lessons::Library;
use pumpwright_engine::problems::{Asks, KeptAsks};

use super::bench::{Bench, library, person};
use super::office::{Demo, given};
use crate::answering::Goes;
use crate::office::Order;
use crate::screen::Screen;
use crate::theme::Look;
use crate::{SetUp, Start};

const ASCII: Look = Look {
    ascii: true,
    colour: false,
};

fn bench<'a>(library: &'a Library, office: &Demo, start: Start, size: (u16, u16)) -> Bench<'a> {
    let (mut person, kept) = person(SetUp::default());
    person.office = Box::new(office.clone());
    Bench::of(library, &[], start, size, ASCII, (person, kept))
}

/// At a paper that was given as a file.
fn at_a_file<'a>(library: &'a Library, office: &Demo) -> Bench<'a> {
    bench(library, office, Start::Given(Box::new(given())), (80, 24))
}

/// At the plan of the class.
fn at_the_plan<'a>(library: &'a Library, office: &Demo) -> Bench<'a> {
    let start = Start::Class(Some("evening-class".into()));
    let mut bench = bench(library, office, start, (80, 24));
    bench.play("?b");
    bench
}

fn shown(start: &Start, tape: &str) -> String {
    let library = library();
    let mut shown = Vec::new();
    for size in [(80, 24), (120, 40)] {
        let mut bench = bench(&library, &Demo::at(3), start.clone(), size);
        bench.play(tape);
        shown.push(bench.text());
    }
    shown.join("\n\n")
}

fn file() -> Start {
    Start::Given(Box::new(given()))
}

fn class() -> Start {
    Start::Class(Some("evening-class".into()))
}

#[test]
fn paper_given_as_a_file() {
    assert_snapshot!(shown(&file(), "12⏎⏎320⏎1.2"));
}

#[test]
fn paper_with_an_order() {
    assert_snapshot!(shown(&file(), "?z8⏎4 2"));
}

#[test]
fn paper_to_be_handed_in() {
    assert_snapshot!(shown(&file(), "12⏎⏎320⏎?z2"));
}

#[test]
fn paper_file_asked_for() {
    assert_snapshot!(shown(&Start::Exams, "3⏎/stick/019.json"));
}

#[test]
fn paper_tried() {
    assert_snapshot!(shown(&class(), "?b?x12⏎"));
}

#[test]
fn paper_tried_and_marked() {
    assert_snapshot!(shown(&class(), "?b?x12⏎⏎320⏎?zz⏎"));
}

#[test]
fn what_is_written_goes_to_the_disk_at_once_and_is_handed_in_whole() {
    let library = library();
    let office = Demo::at(3);
    let mut bench = at_a_file(&library, &office);
    bench.play("12");
    let kept = office.0.borrow().answered.clone().expect("kept");
    assert_eq!(
        (kept.answers.items[0][0].as_str(), kept.whole),
        ("12", false)
    );
    bench.play("⎋");
    assert!(
        bench
            .text()
            .contains("not handed in; kept beside /stick/answers"),
        "{}",
        bench.text()
    );
    let mut bench = at_a_file(&library, &office);
    bench.play("12⏎?z2.1⏎");
    assert!(bench.text().contains("item 2 of 10"), "{}", bench.text());
    bench.play("7⏎?zz⏎");
    assert!(
        bench
            .text()
            .contains("Handed in as /stick/answers-week-6-004.json"),
        "{}",
        bench.text()
    );
    let kept = office.0.borrow().answered.clone().expect("kept");
    assert!(kept.whole);
    assert_eq!(
        (&*kept.answers.items[0][0], &*kept.answers.items[1][0]),
        ("12", "7")
    );
    bench.play("⏎");
    assert!(
        !bench
            .trainer
            .stack()
            .iter()
            .any(|own| matches!(own, Screen::Answering(_)))
    );
    assert_eq!(
        bench.trainer.ending().line,
        "Handed in as /stick/answers-week-6-004.json. Give that file to your instructor."
    );
}

#[test]
fn it_goes_on_where_it_was_stopped() {
    let library = library();
    let mut left = given();
    left.answers.items[0][0] = "12".into();
    left.answers.items[1][0] = "38 psi".into();
    let mut bench = bench(
        &library,
        &Demo::at(3),
        Start::Given(Box::new(left)),
        (80, 24),
    );
    let text = bench.text();
    assert!(text.contains("item 3 of 10"), "{text}");
    assert!(text.contains("it goes on where it was stopped"), "{text}");
    bench.play("↑");
    assert!(bench.text().contains("38 psi"), "{}", bench.text());
}

#[test]
fn a_full_disk_takes_nothing_away() {
    let library = library();
    let office = Demo::at(3);
    let mut bench = at_a_file(&library, &office);
    office.0.borrow_mut().full = true;
    bench.play("12");
    assert!(
        bench.text().contains("not kept: no space is left"),
        "{}",
        bench.text()
    );
    bench.play("?zz⏎");
    assert!(
        bench.text().contains("not kept: no space is left"),
        "{}",
        bench.text()
    );
    office.0.borrow_mut().full = false;
    bench.play("⏎");
    assert!(bench.text().contains("Handed in as"), "{}", bench.text());
}

#[test]
fn no_help_and_no_sheet_of_ones_own_on_a_paper() {
    let library = library();
    let mut bench = at_a_file(&library, &Demo::at(3));
    for (tape, said) in [
        ("!", "no help on this paper"),
        ("??", "no help on this paper: a letter takes a tool"),
        ("w", "W working has no use here"),
        ("t", "T front page has no use here"),
    ] {
        bench.play(tape);
        assert!(bench.text().contains(said), "{tape}: {}", bench.text());
    }
}

#[test]
fn the_back_of_a_paper_has_its_job_the_line_and_the_sums() {
    for size in [(80, 24), (120, 40)] {
        let library = library();
        let mut bench = bench(&library, &Demo::at(3), file(), size);
        let job = given().paper.items[0].text[0].clone();
        let begins: String = job.chars().take(30).collect();
        bench.play("&2 * 3 psi⏎s1 + 1 psi⏎");
        let text = bench.text();
        for words in [
            "BACK OF THE SHEET",
            &begins,
            "s1   2 * 3 psi",
            "7 psi",
            "Line 1.1 of the sheet, ",
        ] {
            assert!(text.contains(words), "{words} is not in\n{text}");
        }
    }
}

#[test]
fn a_side_sum_is_carried_into_the_line_and_kept_as_its_answer() {
    let library = library();
    let office = Demo::at(3);
    let mut bench = at_a_file(&library, &office);
    bench.play("&181 ft + 182 ft⏎2 + 2⏎↑↑⏎");
    assert!(
        bench.text().contains("s1 is carried over to line 1.1"),
        "{}",
        bench.text()
    );
    let kept = office.0.borrow().answered.clone().expect("kept");
    assert_eq!(kept.answers.items[0][0], "363 ft");
    // The sums stay with the paper at every item, and no file has them.
    bench.play("⏎⏎⏎&");
    let text = bench.text();
    assert!(text.contains("s2   2 + 2"), "{text}");
    let kept = office.0.borrow().answered.clone().expect("kept");
    assert!(!kept.answers.text().contains("181 ft"), "{kept:?}");
    // Before the paper is handed in, no line is open: nothing can be carried over.
    bench.play("⎋?z&");
    assert!(
        matches!(bench.top(), Screen::Sums(sums) if sums.line.is_none() && sums.back.done.len() == 2),
        "{}",
        bench.text()
    );
    // Enter alone hands no paper in on which something is open.
    bench.play("⏎⏎");
    assert!(!bench.text().contains("Handed in as"), "{}", bench.text());
    bench.play("z⏎&");
    assert!(bench.text().contains("Handed in as"), "{}", bench.text());
}

#[test]
fn sums_of_a_try_stay_with_it_and_go_to_no_sheet_under_it() {
    let library = library();
    let start = Start::Family("cable-drop".into());
    let mut bench = bench(&library, &Demo::at(3), start, (80, 24));
    bench.play("&1 ft + 1 ft⏎⎋");
    bench.play("?cevening-class⏎?b?x&2 ft + 2 ft⏎⎋⎋?x&");
    assert!(
        matches!(bench.top(), Screen::Sums(sums) if sums.back.texts() == ["2 ft + 2 ft"]),
        "{}",
        bench.text()
    );
    let mut sheets = bench.trainer.stack().iter().filter_map(Screen::sheet);
    assert!(
        sheets.all(|sheet| sheet.back.texts() == ["1 ft + 1 ft"]),
        "the sheet under it has other sums"
    );
}

#[test]
fn tables_open_beside_a_paper_but_those_that_it_asks_about() {
    let library = library();
    let mut bench = at_a_file(&library, &Demo::at(3));
    bench.play("@");
    assert!(matches!(bench.top(), Screen::Tables(_)), "{}", bench.text());
    let mut none = given();
    none.paper.head.tables = "No table may be open.".into();
    let start = Start::Given(Box::new(none));
    let mut bench = self::bench(&library, &Demo::at(3), start, (80, 24));
    bench.play("@");
    assert!(
        bench.text().contains("No table may be open."),
        "{}",
        bench.text()
    );
}

#[test]
fn the_list_of_papers_opens_a_file_and_says_what_is_wrong_with_it() {
    let library = library();
    let mut bench = bench(&library, &Demo::at(3), Start::Exams, (80, 24));
    bench.play("3⏎/nowhere?⏎");
    assert!(
        bench
            .text()
            .contains("/nowhere? cannot be read: no such file"),
        "{}",
        bench.text()
    );
    bench.play("⌫⌫⌫⌫⌫⌫⌫⌫⌫box/004.json⏎");
    assert!(bench.text().contains("D'Arcy"), "{}", bench.text());
}

/// What is right on each line of a paper, as it is written.
fn right(ready: &Ready) -> Vec<String> {
    let items = ready.printed.items.iter().zip(&ready.problems);
    let lines = items.flat_map(|(item, own)| {
        let problem = &own.as_ref().expect("a problem").problem;
        let kept = item.problem.lines.iter();
        let kept = kept.filter(|line| line.asks != KeptAsks::Nothing);
        let asked = problem.asked().zip(kept);
        asked.map(|((_, line), kept)| match &line.asks {
            Asks::Pick { offers, key } => offers[*key].mark.clone(),
            _ => kept.answer.clone(),
        })
    });
    lines.collect()
}

#[test]
fn the_instructor_sits_a_draw_and_nothing_of_it_is_kept() {
    let library = library();
    let office = Demo::at(3);
    let mut bench = at_the_plan(&library, &office);
    bench.play("?x");
    let Screen::Answering(answering) = bench.top() else {
        panic!("{}", bench.text());
    };
    let Goes::Nowhere { ready, .. } = &answering.goes else {
        panic!("it would be kept");
    };
    // None of the three samples whose answers stood on the plan.
    let samples = ["001", "002", "003"];
    assert!(!samples.contains(&&*ready.printed.person.id));
    let right = right(ready);
    let before = office.0.borrow().orders.len();
    for answer in right {
        bench.play(&format!("{answer}⏎"));
    }
    bench.play("⏎");
    let text = bench.text();
    let marks = text.lines().nth(1).expect("a head").to_owned();
    let of: Vec<&str> = marks
        .split(|c: char| !c.is_ascii_digit())
        .filter(|t| !t.is_empty())
        .collect();
    assert_eq!(of[0], of[1], "{text}");
    assert!(text.contains("Nothing of this is kept."), "{text}");
    assert_eq!(office.0.borrow().orders.len(), before, "something was kept");
    assert_eq!(
        bench.trainer.ending().line,
        "No sheet was handed in; nothing is kept after the stop."
    );
    bench.play("2⏎");
    assert!(matches!(bench.top(), Screen::Worked(_)), "{}", bench.text());
    bench.play("⎋⎋");
    assert!(matches!(bench.top(), Screen::Plan(_)));
}

#[test]
fn a_try_waits_as_long_as_the_plan_is_open() {
    let library = library();
    let mut bench = at_the_plan(&library, &Demo::at(3));
    bench.play("?x12⏎⎋");
    assert!(bench.text().contains("your try waits"), "{}", bench.text());
    bench.play("?x↑");
    let Screen::Answering(answering) = bench.top() else {
        panic!("{}", bench.text());
    };
    assert_eq!(answering.written()[0][0], "12");
}

#[test]
fn a_paper_that_is_read_too_late_does_not_push_itself_in() {
    let library = library();
    let office = Demo::at(3);
    let mut bench = bench(&library, &office, Start::Jobs, (80, 24));
    bench.trainer.order(Order::Give("004.json".into()));
    assert!(
        bench
            .text()
            .contains("the paper was read: ? then E, and name it once more"),
        "{}",
        bench.text()
    );
}

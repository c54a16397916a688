//! Papers as a board would sit them: what holds of every draw.

#![allow(clippy::expect_used, clippy::panic)]

mod common;

use std::collections::{BTreeMap, BTreeSet};
use std::sync::OnceLock;

use common::{shipped, still_files};
use proptest::prelude::*;
use pumpwright_engine::lessons::Library;
use pumpwright_engine::marking::{Manner, Marks, Response, Verdict, mark};
use pumpwright_engine::papers::{
    Paper, PaperCode, PaperError, PaperRequest, Question, draw_paper, mark_paper, paper_again,
};
use pumpwright_engine::problems::{Asks, DRAWS, Problem, Settings, working};
use pumpwright_engine::quantities::System;

fn library() -> &'static Library {
    static LIBRARY: OnceLock<Library> = OnceLock::new();
    LIBRARY.get_or_init(shipped)
}

fn paper(exam: &str, system: System, draw: u32) -> Paper {
    let settings = Settings::default();
    let request = PaperRequest {
        exam,
        system,
        draw,
        settings: &settings,
    };
    draw_paper(library(), &request).expect("a paper")
}

fn typed(problem: &Problem, id: &str, text: &str) -> Response {
    assert!(problem.lines.iter().any(|line| line.id == id));
    Response {
        answers: vec![(id.to_owned(), text.to_owned())],
    }
}

/// The right answer to a question, as it would be written.
fn right(question: &Question) -> Response {
    let (_, line) = question.asked().expect("a line");
    let text = match &line.asks {
        Asks::Pick { offers, key } => offers[*key].mark.clone(),
        Asks::Order { cards } => {
            let number = |place: Option<usize>| {
                place.map_or_else(|| "-".to_owned(), |place| (place + 1).to_string())
            };
            let numbers = cards.iter().map(|card| number(card.place));
            numbers.collect::<Vec<_>>().join(" ")
        }
        Asks::Match { parts, meanings } => {
            let marks = parts.iter().map(|(_, key)| meanings[*key].mark.clone());
            marks.collect::<Vec<_>>().join(" ")
        }
        _ => {
            let worked = working(&question.problem);
            let own = worked.iter().find(|worked| worked.id == line.id);
            own.expect("a working").text.clone()
        }
    };
    typed(&question.problem, &line.id, &text)
}

fn counts(paper: &Paper, which: impl Fn(&Question) -> bool) -> Vec<u32> {
    let areas = 0..paper.exam.areas.len();
    let of = |area: usize| {
        let own = paper.questions.iter().filter(|own| own.area == area);
        u32::try_from(own.filter(|own| which(own)).count()).expect("few")
    };
    areas.map(of).collect()
}

/// What the blueprint says of any paper.
fn is_as_the_blueprint_says(paper: &Paper) {
    let exam = &paper.exam;
    let of = |pick: fn(&pumpwright_engine::lessons::Area) -> u32| -> Vec<u32> {
        exam.areas.iter().map(pick).collect()
    };
    assert_eq!(counts(paper, |_| true), of(|area| area.questions));
    assert_eq!(counts(paper, |own| own.numeric), of(|area| area.numeric));
    for question in &paper.questions {
        let lesson = &question.problem.family.lesson;
        assert!(exam.areas[question.area].lessons.contains(lesson));
        assert_eq!(question.safety, exam.safety.lessons.contains(lesson));
        assert_eq!(question.problem.asked().count(), 1, "one line is asked");
    }
    let safety = paper.questions.iter().filter(|own| own.safety).count();
    assert!(safety >= exam.safety.questions as usize, "{safety}");
    let mut levels = [0_u32; 3];
    for question in &paper.questions {
        levels[usize::from(question.problem.code.level) - 1] += 1;
    }
    for (count, share) in levels.iter().zip(exam.levels) {
        let wanted = f64::from(share * exam.questions) / 100.0;
        assert!((f64::from(*count) - wanted).abs() < 1.0, "{levels:?}");
    }
}

/// No family twice with the same answer, none too often.
fn families_are_asked_for_different_answers(paper: &Paper) {
    let mut seen: BTreeMap<&str, BTreeSet<String>> = BTreeMap::new();
    for question in &paper.questions {
        let (_, line) = question.asked().expect("a line");
        let answer = match &line.asks {
            Asks::Pick { offers, key } => offers[*key].text.clone(),
            Asks::Order { cards } => {
                let mut placed: Vec<_> = cards.iter().collect();
                placed.sort_by_key(|card| card.place);
                let placed = placed.iter().filter(|card| card.place.is_some());
                placed
                    .map(|card| card.id.as_str())
                    .collect::<Vec<_>>()
                    .join(" ")
            }
            Asks::Match { parts, meanings } => {
                let pair =
                    |(part, key): &(String, usize)| format!("{part}: {}", meanings[*key].text);
                let pairs: BTreeSet<String> = parts.iter().map(pair).collect();
                format!("{pairs:?}")
            }
            _ => right(question).answers[0].1.clone(),
        };
        let family = question.problem.family.id.as_str();
        let all = seen.entry(family).or_default();
        assert!(all.insert(answer), "{family} twice");
    }
}

/// Exactly the key is marked right, and the offers differ to the eye.
fn offers_are_never_ambiguous(paper: &Paper) {
    for question in &paper.questions {
        let (_, line) = question.asked().expect("a line");
        let Asks::Pick { offers, key } = &line.asks else {
            continue;
        };
        let code = question.problem.code.to_string();
        let texts: BTreeSet<&str> = offers.iter().map(|offer| offer.text.as_str()).collect();
        assert_eq!(texts.len(), offers.len(), "{code}");
        if question.problem.variant.is_numeric() {
            assert!((3..=4).contains(&offers.len()), "{code}: {}", offers.len());
        }
        for (at, offer) in offers.iter().enumerate() {
            let response = typed(&question.problem, &line.id, &offer.mark);
            let marked = mark(&question.problem, &response, Manner::default());
            let is_right = marked.lines[0].verdict == Verdict::Right;
            assert_eq!(is_right, at == *key, "{code}: {}", offer.text);
        }
    }
}

/// The right figure stands at each place as often as at any other, but for one.
fn the_right_place_is_balanced(paper: &Paper) {
    let mut places = [0_i32; 3];
    for question in &paper.questions {
        if let Some((_, line)) = question.asked()
            && let Asks::Pick { offers, key } = &line.asks
            && offers.len() > 2
            && *key < 3
        {
            places[*key] += 1;
        }
    }
    let (least, most) = (places.iter().min(), places.iter().max());
    assert!(
        most.expect("three") - least.expect("three") <= 1,
        "{places:?}"
    );
}

proptest! {
    #![proptest_config(ProptestConfig { cases: ProptestConfig::default().cases.max(200), failure_persistence: None, ..ProptestConfig::default() })]
    #[test]
    fn every_paper_holds(draw in 0..DRAWS, si: bool, which in 0_usize..3) {
        let system = if si { System::Si } else { System::Us };
        let exam = ["licensing", "mid-course", "refresher"][which];
        let paper = paper(exam, system, draw);
        is_as_the_blueprint_says(&paper);
        families_are_asked_for_different_answers(&paper);
        offers_are_never_ambiguous(&paper);
        the_right_place_is_balanced(&paper);
    }
}

fn codes(paper: &Paper) -> Vec<String> {
    let codes = paper
        .questions
        .iter()
        .map(|own| own.problem.code.to_string());
    codes.collect()
}

/// The first draws of this paper have a job whose known mistake comes to 4.28 ohm, outside of
/// the span around 4.15 ohm, but within the one around 4.2 ohm, as the answer is printed.
#[test]
fn no_offer_passes_beside_the_printed_answer() {
    offers_are_never_ambiguous(&paper("licensing", System::Us, 66_477_195));
}

#[test]
fn the_same_code_is_the_same_paper() {
    for draw in [0, 7, DRAWS - 1] {
        let first = paper("licensing", System::Us, draw);
        let text = first.code.to_string();
        let code: PaperCode = text.parse().expect("its own code");
        let again = paper_again(library(), &code).expect("the paper again");
        assert_eq!(codes(&first), codes(&again));
        assert_eq!(again.code.to_string(), text);
    }
    let [one, other] = [1, 2].map(|draw| codes(&paper("refresher", System::Us, draw)));
    assert_ne!(one, other);
}

/// Every question can be drawn again by the code of its own problem, its offers too.
#[test]
fn a_question_is_its_problem() {
    for question in &paper("licensing", System::Si, 3).questions {
        let code = &question.problem.code;
        let again = pumpwright_engine::problems::again(library(), code).expect("the problem");
        let (at, line) = question.asked().expect("a line");
        assert_eq!(again.lines[at].asks, line.asks, "{code}");
    }
}

#[test]
fn house_rules_go_with_the_code() {
    let mut settings = Settings::default();
    settings
        .set(library(), "tank.precharge_below", "3 psi")
        .expect("a rule");
    let request = PaperRequest {
        exam: "licensing",
        system: System::Us,
        draw: 5,
        settings: &settings,
    };
    let paper = draw_paper(library(), &request).expect("a paper");
    let text = paper.code.to_string();
    assert!(text.ends_with("+tank.precharge_below=3psi"), "{text}");
    let again = paper_again(library(), &text.parse().expect("a code")).expect("again");
    assert_eq!(codes(&paper), codes(&again));
}

#[test]
fn what_cannot_be_drawn_says_why() {
    let settings = Settings::default();
    let request = PaperRequest {
        exam: "lisensing",
        system: System::Us,
        draw: 1,
        settings: &settings,
    };
    let said = |request: &PaperRequest<'_>| draw_paper(library(), request).map(|_| ());
    let unknown = said(&request).expect_err("no such exam").to_string();
    assert_eq!(
        unknown,
        "there is no exam \"lisensing\"; there is licensing"
    );
    let high = PaperRequest {
        exam: "refresher",
        draw: DRAWS,
        ..request
    };
    assert_eq!(said(&high), Err(PaperError::Draw(DRAWS)));
    let code = PaperCode {
        revision: 1,
        ..paper("refresher", System::Us, 1).code
    };
    let old = paper_again(library(), &code)
        .map(|_| ())
        .expect_err("an old code");
    assert!(old.to_string().contains("00001"), "{old}");
}

/// Where the blueprint asks for the figures themselves, a figure with its unit is asked,
/// and the right one is right.
#[test]
fn a_blueprint_may_ask_for_the_figures_themselves() {
    let (few, _) = Library::read(&still_files());
    let settings = Settings::default();
    let request = PaperRequest {
        exam: "figures",
        system: System::Us,
        draw: 1,
        settings: &settings,
    };
    let paper = draw_paper(&few, &request).expect("a paper");
    let asked = paper.questions.iter().filter(|own| own.numeric);
    for question in asked {
        let (_, line) = question.asked().expect("a line");
        assert_eq!(line.asks, Asks::Figure, "{}", question.problem.code);
    }
    let all: Vec<Response> = paper.questions.iter().map(right).collect();
    let marked = mark_paper(&paper, &all, Manner::default());
    assert_eq!(marked.whole.right, Marks::whole(4));
    let unknown = PaperRequest {
        exam: "refresher",
        ..request
    };
    let said = draw_paper(&few, &unknown).map(|_| ()).expect_err("none");
    assert!(said.to_string().contains("licensing, figures"), "{said}");
}

/// Where an area has no family for a figure, another kind stands in for it.
#[test]
fn an_area_without_figures_is_asked_otherwise() {
    let mut files = still_files();
    let exams = files.iter_mut().find(|file| file.path == "exams.toml");
    let exams = exams.expect("the exams");
    exams.text = exams.text.replace(
        "lessons   = [\"well-levels-and-yield\", \"siting-and-setbacks\"]",
        "lessons   = [\"motor-tests\"]",
    );
    let (poor, faults) = Library::read(&files);
    assert!(faults.is_empty(), "{faults:?}");
    let settings = Settings::default();
    let request = PaperRequest {
        exam: "licensing",
        system: System::Us,
        draw: 1,
        settings: &settings,
    };
    let paper = draw_paper(&poor, &request).expect("a paper");
    assert_eq!(counts(&paper, |own| own.numeric)[0], 0);
}

#[test]
fn a_paper_that_is_all_right_passes_and_an_empty_one_does_not() {
    let paper = paper("licensing", System::Us, 11);
    let all: Vec<Response> = paper.questions.iter().map(right).collect();
    let marked = mark_paper(&paper, &all, Manner::default());
    for (question, own) in paper.questions.iter().zip(&marked.questions) {
        assert!(own.is_right(), "{}", question.problem.code);
    }
    assert_eq!(marked.whole.right, Marks::whole(75));
    assert!(marked.passed && marked.weakest().is_none());
    let empty = mark_paper(&paper, &[], Manner::default());
    assert_eq!(empty.whole.right, Marks::default());
    assert!(
        !empty.passed && empty.weakest() == Some(4),
        "electrical has most"
    );
    let asked: u32 = empty.areas.iter().map(|area| area.tally.of).sum();
    assert_eq!(asked, 75);
}

/// Both marks decide: a paper that is right but for safety does not pass.
#[test]
fn safety_alone_can_fail_a_paper() {
    let paper = paper("licensing", System::Us, 12);
    let responses: Vec<Response> = paper
        .questions
        .iter()
        .map(|own| {
            if own.safety {
                Response::default()
            } else {
                right(own)
            }
        })
        .collect();
    let marked = mark_paper(&paper, &responses, Manner::default());
    assert!(marked.whole.reaches(70), "{:?}", marked.whole);
    assert!(!marked.passed);
}

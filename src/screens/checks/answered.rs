//! Sheets that are answered key by key: every kind right and wrong, the classic
//! mistakes of the five main families, and the way from the first start to the
//! second marked sheet.

use pumpwright_engine::lessons::Library;
use pumpwright_engine::problems::{Asks, Problem, working};

use super::bench::{Bench, library, shipped};
use crate::Start;
use crate::keys::{Press, from_sign};
use crate::screen::Screen;
use crate::theme::Look;

/// What is typed into the blanks of each line that is asked, from top to bottom.
fn right(problem: &Problem) -> Vec<Vec<String>> {
    let worked = working(problem);
    let lines = problem.asked().map(|(_, line)| {
        let typed = worked.iter().find(|worked| worked.id == line.id);
        let typed = typed.expect("every line is worked").typed.clone();
        match &line.asks {
            Asks::Order { .. } => typed.split_whitespace().map(str::to_owned).collect(),
            Asks::Match { .. } => {
                let letters = typed.chars().filter(|sign| !sign.is_whitespace());
                letters.map(String::from).collect()
            }
            _ => vec![typed],
        }
    });
    lines.collect()
}

/// The same with one line answered by this.
fn with(problem: &Problem, id: &str, typed: &str) -> Vec<Vec<String>> {
    let mut lines = right(problem);
    let at = problem.asked().position(|(_, line)| line.id == id);
    lines[at.expect("the line is asked")] = vec![typed.to_owned()];
    lines
}

/// Types into every blank, with Enter behind each.
fn fill(bench: &mut Bench<'_>, lines: &[Vec<String>]) {
    for typed in lines.iter().flatten() {
        for sign in typed.chars() {
            bench.press(from_sign(sign));
        }
        bench.press(Press::Enter);
    }
}

fn problem(bench: &Bench<'_>) -> Problem {
    let problem = bench.top().problem().expect("a sheet lies on top");
    Problem::clone(problem)
}

/// The whole screen as one text, no line of it broken.
fn said(bench: &Bench<'_>) -> String {
    bench.trainer.page().plain(Look::default()).join("\n")
}

#[track_caller]
fn marks(bench: &Bench<'_>) -> (f64, f64) {
    let Screen::HandedIn(handed_in) = bench.top() else {
        panic!("it is not handed in:\n{}", said(bench));
    };
    let marked = &handed_in.marked;
    (marked.score.number(), marked.out_of.number())
}

#[test]
fn every_family_answered_right_earns_every_mark() {
    let library = shipped();
    for family in library.families() {
        let mut bench = Bench::family(&library, &family.id, (80, 24));
        let problem = problem(&bench);
        fill(&mut bench, &right(&problem));
        let (score, out_of) = marks(&bench);
        assert!(score == out_of, "{}\n{}", problem.code, said(&bench));
        assert!(
            said(&bench).contains("next: Enter: the same job with other numbers"),
            "{}",
            family.id
        );
    }
}

/// A sheet of the family answered by `wrong` at a line, then that line mended.
fn wrong_then_mended(library: &Library, family: &str, id: &str, wrong: &[String]) {
    let mut bench = Bench::family(library, family, (80, 24));
    let problem = problem(&bench);
    let mut lines = right(&problem);
    let at = problem.asked().position(|(_, line)| line.id == id);
    let at = at.expect("the line is asked");
    let good = std::mem::replace(&mut lines[at], wrong.to_vec());
    fill(&mut bench, &lines);
    let (score, out_of) = marks(&bench);
    assert!(score < out_of, "{family}: {wrong:?}\n{}", said(&bench));
    let before = said(&bench);
    assert!(
        before.contains("look here")
            || before.contains("stop:")
            || before.contains("right in part"),
        "{before}"
    );
    bench.press(Press::Enter);
    fill(&mut bench, &[good]);
    let Screen::HandedIn(handed_in) = bench.top() else {
        panic!("{family}\n{}", said(&bench));
    };
    assert!(handed_in.to_mend().is_none(), "{family}\n{}", said(&bench));
    assert_eq!(marks(&bench), (score, out_of), "{family}");
}

#[test]
fn every_kind_answered_wrong_can_be_mended_and_keeps_its_marks() {
    let library = library();
    let texts = |texts: &[&str]| {
        texts
            .iter()
            .map(|&text| text.to_owned())
            .collect::<Vec<_>>()
    };
    wrong_then_mended(&library, "tank-precharge", "charge", &texts(&["3"]));
    wrong_then_mended(&library, "relief-setting", "valve", &texts(&["10"]));
    for family in ["megohm-verdict", "insulation-order", "box-parts"] {
        let bench = Bench::family(&library, family, (80, 24));
        let problem = problem(&bench);
        let (_, line) = problem.asked().last().expect("a line");
        let mut turned = right(&problem).pop().expect("a line");
        if turned.len() == 1 {
            let other = if turned[0] == "a" { "b" } else { "a" };
            turned = texts(&[other]);
        } else {
            turned.rotate_left(1);
        }
        wrong_then_mended(&library, family, &line.id, &turned);
    }
}

/// The five families that carry the trade, with every mistake that is known of
/// them: named on the screen, then mended.
#[test]
fn the_classic_mistakes_of_the_five_main_families_are_named_and_mended() {
    let library = library();
    for family in [
        "stage-count",
        "tank-precharge",
        "relief-setting",
        "setback",
        "cable-drop",
    ] {
        let drawn = problem(&Bench::family(&library, family, (80, 24)));
        assert!(drawn.mistakes.len() > 1, "{family}");
        for mistake in &drawn.mistakes {
            let plan = &drawn.variant.mistakes[mistake.index];
            let did = plan.did.render(&drawn.variant.names, &drawn.values);
            let line = drawn.lines.iter().find(|line| line.id == mistake.step);
            let line = line.expect("a line of the sheet");
            let typed = match &line.asks {
                Asks::Nothing => continue,
                Asks::Pick { offers, .. } => {
                    let mut meant = offers.iter().filter(|offer| offer.text == mistake.text);
                    meant.next().expect("an offer").mark.clone()
                }
                _ => mistake.text.clone(),
            };
            let mut bench = Bench::family(&library, family, (80, 24));
            let place = format!("{family}, {}: {typed}", mistake.id);
            fill(&mut bench, &with(&drawn, &mistake.step, &typed));
            let (score, out_of) = marks(&bench);
            assert!(score < out_of, "{place}\n{}", said(&bench));
            let text = said(&bench);
            assert!(text.contains(&format!("\"{did}\"")), "{place}\n{text}");
            // Where two mistakes give one figure, this one is taken.
            let at = text
                .lines()
                .find(|line| line.contains(&format!("\"{did}\"")));
            let offered = at.and_then(|at| at.strip_prefix("offer: "));
            if let Some(letter) = offered.and_then(|offer| offer.chars().next()) {
                bench.press(from_sign(letter));
                bench.press(Press::Enter);
                assert!(said(&bench).contains("turn: LINE"), "{}", said(&bench));
            }
            // The lines behind it were answered right, and stand as they are.
            let number = text.lines().rev().find(|line| line.starts_with("next: "));
            assert!(number.is_some_and(|line| line.contains("again")), "{text}");
            bench.press(Press::Enter);
            let good = right(&drawn);
            let at = drawn.asked().position(|(_, line)| line.id == mistake.step);
            fill(&mut bench, &good[at.expect("asked")..=at.expect("asked")]);
            let Screen::HandedIn(handed_in) = bench.top() else {
                panic!("{place}\n{}", said(&bench));
            };
            assert!(handed_in.to_mend().is_none(), "{place}\n{}", said(&bench));
            assert_eq!(marks(&bench), (score, out_of), "{place}");
        }
    }
}

#[test]
fn from_the_first_start_to_the_second_marked_sheet_without_a_mouse() {
    let library = library();
    let mut bench = Bench::new(&library, Start::First, (80, 24));
    bench.play("⏎");
    assert!(matches!(bench.top(), Screen::Worked(_)));
    let family = problem(&bench).code.family;
    let mut seeds = vec![problem(&bench).code.seed];
    bench.play("⏎");
    for sheet in 1..=2 {
        let problem = problem(&bench);
        assert_eq!(problem.code.family, family);
        seeds.push(problem.code.seed);
        fill(&mut bench, &right(&problem));
        let (score, out_of) = marks(&bench);
        assert!(score == out_of && out_of > 0.0, "{}", said(&bench));
        let line = bench.trainer.ending().line;
        assert!(line.starts_with(&format!("{sheet} sheet")), "{line}");
        bench.play("⏎");
    }
    seeds.sort_unstable();
    seeds.dedup();
    assert_eq!(seeds.len(), 3, "each sheet has numbers of its own");
}

#[test]
fn a_side_sum_is_carried_over_with_its_unit_and_marked_right() {
    let library = library();
    let mut bench = Bench::family(&library, "cable-drop", (80, 24));
    let problem = problem(&bench);
    let good = right(&problem);
    for sign in format!("&{} + 0 ft", good[0][0]).chars() {
        bench.press(from_sign(sign));
    }
    bench.play("⏎?o");
    let text = said(&bench);
    assert!(text.contains("s1 is carried over to line 1"), "{text}");
    bench.play("⏎");
    fill(&mut bench, &good[1..]);
    let (score, out_of) = marks(&bench);
    assert!(score == out_of, "{}", said(&bench));
}

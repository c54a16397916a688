//! Marking with the pen: spans, letters, what follows, and how few keys it takes.

use pumpwright_engine::classes::pen::{mark_keyed, presses};
use pumpwright_engine::classes::strip::{LetteredTurn, StripItem, strip};
use pumpwright_engine::lessons::Library;
use pumpwright_engine::marking::{Manner, Marked, MarkedLine, Marks, Response, Verdict, mark};
use pumpwright_engine::problems::{Asks, Problem, Request, Settings, draw};
use pumpwright_engine::quantities::System;

use crate::common::shipped;
use crate::kept::right;
use crate::support::{Class, PLAN};

fn problem(library: &Library, family: &str, level: u8, number: u32) -> Problem {
    let request = Request {
        family,
        level: Some(level),
        system: System::Us,
        draw: number,
        settings: &Settings::default(),
    };
    draw(library, &request).unwrap()
}

fn keyed(problem: &Problem, keys: &str) -> Marked {
    mark_keyed(problem, keys, Manner::default()).unwrap()
}

fn verdicts(marked: &Marked) -> Vec<&'static str> {
    marked
        .lines
        .iter()
        .map(|line| line.verdict.name())
        .collect()
}

/// Over every family: nothing keyed is the whole item right, as the right answers are;
/// every letter is the mistake that it stands for, and what follows keeps its marks.
#[test]
fn nothing_is_right_and_a_letter_is_its_mistake() {
    let library = shipped();
    let (mut letters, mut compared) = (0, 0);
    let mut odd = Vec::new();
    for family in library.families() {
        let problem = problem(&library, &family.id, family.home, 3);
        let all = keyed(&problem, "");
        assert_eq!(all.score, all.out_of, "{}", family.id);
        assert_eq!(all.out_of, Marks::whole(problem.marks()), "{}", family.id);
        assert_eq!(
            all.score,
            mark(&problem, &right(&problem), Manner::default()).score
        );
        let whole = strip(&problem);
        for line in &whole.lines {
            for turn in &line.turns {
                let marked = keyed(&problem, &turn.letter.to_string());
                let own = &marked.lines[line.number - 1];
                let named = own
                    .turns
                    .iter()
                    .any(|own| turn.mistakes.contains(&own.mistake));
                let known = matches!(own.verdict, Verdict::Mistake | Verdict::Unsafe);
                if !named || !known {
                    odd.push(format!(
                        "{} {}: {} {:?}",
                        family.id,
                        turn.text,
                        own.verdict.name(),
                        own.turns
                    ));
                }
                // What could hurt someone is so, though it follows.
                let kept = |other: &MarkedLine| {
                    other.marks == other.out_of || other.verdict == Verdict::Unsafe
                };
                let mut others = marked.lines.iter().filter(|own| own.number != line.number);
                if own.verdict == Verdict::Mistake && !others.all(kept) {
                    odd.push(format!(
                        "{} {}: {:?}",
                        family.id,
                        turn.text,
                        verdicts(&marked)
                    ));
                }
                if let Some(typed) = as_typed(&problem, &whole, turn) {
                    compared += 1;
                    let screen = mark(&problem, &typed, Manner::default());
                    if verdicts(&screen) != verdicts(&marked) || screen.score != marked.score {
                        odd.push(format!(
                            "{} {}: {:?} with the pen, {:?} on the screen: {typed:?}",
                            family.id,
                            turn.text,
                            verdicts(&marked),
                            verdicts(&screen)
                        ));
                    }
                }
                letters += 1;
            }
        }
    }
    assert!(
        letters > 200 && compared > 150,
        "only {letters} letters were tried, {compared} as typed"
    );
    assert!(odd.is_empty(), "{}", odd.join("\n"));
}

/// What stands on the paper of somebody who made a mistake and worked on rightly, as it would
/// be typed: by the figures of the strip alone. None where a line is not answered by a figure.
fn as_typed(problem: &Problem, strip: &StripItem, turn: &LetteredTurn) -> Option<Response> {
    let figures = problem
        .asked()
        .all(|(_, line)| matches!(line.asks, Asks::Figure | Asks::Row));
    if !figures || turn.text.is_empty() {
        return None;
    }
    let mut typed = right(problem);
    typed.answers[turn.line - 1].1.clone_from(&turn.text);
    let after = strip.after.iter().find(|own| own.letter == turn.letter);
    for (line, text) in after.into_iter().flat_map(|own| &own.figures) {
        typed.answers[line - 1].1.clone_from(text);
    }
    Some(typed)
}

/// No printed edge is outside the tolerance: both edges of each span are marked right.
#[test]
fn both_edges_of_every_span_are_right() {
    let library = shipped();
    let (mut spans, mut beyond, mut tried) = (0, 0, 0);
    for family in library.families() {
        for number in 0..4 {
            let problem = problem(&library, &family.id, family.home, number);
            for ((_, line), shown) in problem.asked().zip(strip(&problem).lines) {
                let Some((low, high)) = shown.accept.split_once(" to ") else {
                    continue;
                };
                if line.asks != Asks::Figure {
                    continue;
                }
                let verdict = |typed: &str| {
                    let response = Response {
                        answers: vec![(line.id.clone(), typed.to_owned())],
                    };
                    let marked = mark(&problem, &response, Manner::default());
                    let own = marked.lines.into_iter().find(|own| own.id == line.id);
                    own.unwrap().verdict
                };
                for edge in [low, high] {
                    assert_eq!(
                        verdict(edge),
                        Verdict::Right,
                        "{} {}: {edge}",
                        family.id,
                        line.id
                    );
                    spans += 1;
                }
                // Nor is the span much narrower than what is right: a sixth of it beyond either
                // edge is wrong, but for a figure through the printed ones. A figure that is
                // taken to a grid has its span on that grid.
                if problem.variant.steps[line.step].write.is_some() {
                    continue;
                }
                tried += 2;
                let [low, high] = [low, high].map(|edge| edge.parse::<f64>().unwrap());
                let part = (high - low) / 6.0;
                for figure in [low - part, high + part] {
                    beyond += usize::from(verdict(&figure.to_string()) == Verdict::Right);
                }
            }
        }
    }
    assert!(spans > 300, "only {spans} edges were tried");
    assert!(
        tried > 100 && beyond * 20 < tried,
        "{beyond} figures of {tried} beyond the edges are right"
    );
}

#[test]
fn the_strip_says_what_follows_a_letter() {
    let library = shipped();
    let problem = problem(&library, "cable-drop", 2, 7);
    let strip = strip(&problem);
    let labels: Vec<&str> = strip.lines.iter().map(|line| line.label.as_str()).collect();
    assert_eq!(
        labels,
        ["run", "ohms in the loop", "volts lost", "part lost"]
    );
    let turns: Vec<(char, usize)> = strip
        .lines
        .iter()
        .flat_map(|line| &line.turns)
        .map(|turn| (turn.letter, turn.line))
        .collect();
    assert_eq!(turns, [('a', 1), ('b', 2), ('c', 4)]);
    let after = strip
        .after
        .iter()
        .find(|after| after.letter == 'b')
        .unwrap();
    assert_eq!(
        after
            .figures
            .iter()
            .map(|(line, _)| *line)
            .collect::<Vec<_>>(),
        [3, 4]
    );
    let half: f64 = after.figures[0]
        .1
        .split(' ')
        .next()
        .unwrap()
        .parse()
        .unwrap();
    let volts = problem
        .value(problem.variant.step("volts").unwrap())
        .unwrap()
        .number()
        .unwrap()
        .si;
    assert!((half * 2.0 / volts - 1.0).abs() < 0.01, "{half} {volts}");
    // Of 230 V, half over 115 V is the right share again.
    assert_eq!(
        after
            .cancels
            .iter()
            .map(|(letter, _)| *letter)
            .collect::<Vec<_>>(),
        ['c']
    );
}

#[test]
fn digits_figures_and_nothing_are_keyed() {
    let library = shipped();
    let problem = problem(&library, "cable-drop", 2, 7);
    assert_eq!(
        verdicts(&keyed(&problem, "b")),
        ["right", "mistake", "follows", "follows"]
    );
    assert_eq!(
        verdicts(&keyed(&problem, "3")),
        ["right", "right", "look-here", "right"]
    );
    assert_eq!(
        verdicts(&keyed(&problem, "b4")),
        ["right", "mistake", "follows", "look-here"]
    );
    assert_eq!(
        verdicts(&keyed(&problem, "x")),
        ["right", "right", "right", "look-here"]
    );
    assert_eq!(verdicts(&keyed(&problem, "0")), ["not-written"; 4]);
    assert_eq!(
        verdicts(&keyed(&problem, "2=0.58")),
        ["right", "look-here", "follows", "follows"]
    );
    assert_eq!(
        verdicts(&keyed(&problem, "2=0.58 ohm; 4")),
        ["right", "look-here", "follows", "look-here"]
    );
    let refused = |keys: &str| mark_keyed(&problem, keys, Manner::default()).unwrap_err();
    assert_eq!(
        refused("d"),
        "\"d\" is no turn of this item; it has a to c, a digit is a line"
    );
    assert_eq!(
        refused("5"),
        "there is no line 5; the item has lines 1 to 4"
    );
    assert_eq!(
        refused("\u{1b}"),
        "\"\u{fffd}\" is no turn of this item; it has a to c, a digit is a line"
    );
    for odd in [
        "=",
        "2=",
        "2=abc",
        "é",
        "99=1",
        "b b b",
        ";;",
        "2=0.58;2=0.60",
    ] {
        let _ = mark_keyed(&problem, odd, Manner::default());
    }
}

#[test]
fn ten_items_with_three_wrong_lines_take_under_twenty_keys() {
    let class = Class::new(PLAN, 1);
    let paper = class.papers().remove(0);
    let mut keys = vec![""; 10];
    keys[1] = "b";
    keys[0] = "1";
    keys[9] = "a";
    let pressed: usize = keys.iter().map(|keys| presses(keys)).sum();
    assert_eq!(pressed, 13);
    let wrong = paper.items.iter().zip(&keys).map(|(item, keys)| {
        let marked = keyed(&item.problem, keys);
        marked
            .lines
            .iter()
            .filter(|line| line.marks < line.out_of)
            .count()
    });
    assert_eq!(wrong.sum::<usize>(), 3);
}

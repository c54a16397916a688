//! Hand-ins to the marks of a class: what was taken in first counts, what is odd has its own line, and
//! what was decided outlives every marking.

use std::collections::BTreeMap;

use pumpwright_engine::classes::Paper;
use pumpwright_engine::classes::answers::Answers;
use pumpwright_engine::classes::marks::{
    ClassMarks, Decisions, Dropped, HandIn, Judged, Ready, State, Way, mark_class,
};
use pumpwright_engine::classes::sheet::{SheetForm, mark_sheet};
use pumpwright_engine::classes::sit::SitPaper;
use pumpwright_engine::marking::{Manner, Verdict};
use pumpwright_engine::problems::KeptFault;

use crate::kept::right;
use crate::support::{Class, PLAN};

/// A hand-in of a paper with every line right.
pub fn all_right(paper: &Paper) -> Answers {
    let mut answers = Answers::to(&SitPaper::of(paper));
    for (item, blank) in paper.items.iter().zip(&mut answers.items) {
        let typed = right(&item.problem).answers;
        assert_eq!(typed.len(), blank.len());
        *blank = typed.into_iter().map(|(_, text)| text).collect();
    }
    answers
}

pub struct Marking {
    pub class: Class,
    pub papers: Vec<Paper>,
    pub ready: BTreeMap<String, Ready>,
}

pub fn marking(plan: &str, count: usize) -> Marking {
    let class = Class::new(plan, count);
    let papers = class.papers();
    let library = class.text.library();
    let ready = papers.iter().map(|paper| {
        let printed = class.printed(paper);
        (paper.person.id.clone(), Ready::of(printed, &library))
    });
    Marking {
        ready: ready.collect(),
        class,
        papers,
    }
}

impl Marking {
    pub fn mark(&self, hand_ins: &[HandIn], decisions: &Decisions) -> ClassMarks {
        mark_class(
            &self.class.people,
            &self.ready,
            (hand_ins, decisions),
            Manner::default(),
        )
    }
}

fn total(class: &ClassMarks, at: usize) -> (f64, f64) {
    let (score, out_of) = class.people[at].total().unwrap();
    (score.number(), out_of.number())
}

#[test]
fn right_answers_earn_everything_and_a_wrong_line_is_followed() {
    let marking = marking(PLAN, 3);
    let whole = f64::from(marking.class.plan.marks());
    let mut answers: Vec<Answers> = marking.papers.iter().map(all_right).collect();
    // The ohms of the loop a fifth short, and volts and share rightly worked from them.
    for line in 1..4 {
        let text = &mut answers[1].items[1][line];
        let figure: f64 = text.split(' ').next().unwrap().parse().unwrap();
        *text = format!("{}", figure * 0.8);
    }
    let hand_ins: Vec<HandIn> = answers.into_iter().map(HandIn::from).collect();
    let class = marking.mark(&hand_ins[..2], &Decisions::default());
    assert_eq!(total(&class, 0), (whole, whole));
    assert_eq!(class.people[2].state, State::NotIn);
    assert_eq!(class.people[2].total(), None);
    let State::Marked(items) = &class.people[1].state else {
        panic!("marked")
    };
    let lines = &items[1].marked.as_ref().unwrap().lines;
    let verdicts: Vec<&Verdict> = lines.iter().map(|line| &line.verdict).collect();
    let follows = Verdict::Follows { line: 2 };
    assert_eq!(
        verdicts,
        [&Verdict::Right, &Verdict::LookHere, &follows, &follows]
    );
    // Only the line that is wrong costs its marks.
    let lost = lines[1].out_of.number();
    assert!(lost > 0.0);
    assert_eq!(total(&class, 1), (whole - lost, whole));
}

/// Each paper in an order of its own: a decision on an item of the plan meets that item
/// wherever it stands, and so does the column of the mark sheet.
#[test]
fn an_item_of_the_plan_is_the_same_item_on_papers_in_another_order() {
    let plan = PLAN.replace("pass = 70", "order = \"shuffled\"");
    let marking = marking(&plan, 4);
    let elsewhere = |paper: &Paper| {
        paper
            .items
            .iter()
            .any(|own| own.number == 5 && own.place != 4)
    };
    assert!(marking.papers.iter().any(elsewhere));
    let mut answers: Vec<Answers> = marking.papers.iter().map(all_right).collect();
    // The first paper is empty at item 2 of the plan, wherever that stands.
    let at = |paper: &Paper, item: usize| {
        let mut items = paper.items.iter();
        items.position(|own| own.place == item - 1).unwrap()
    };
    for text in &mut answers[0].items[at(&marking.papers[0], 2)] {
        text.clear();
    }
    let hand_ins: Vec<HandIn> = answers.into_iter().map(HandIn::from).collect();
    let decisions = Decisions {
        dropped: vec![Dropped {
            item: 5,
            reason: "read out".into(),
        }],
        judged: vec![Judged {
            paper: "002".into(),
            item: 3,
            halves: 1,
            reason: "by eye".into(),
        }],
    };
    let class = marking.mark(&hand_ins, &decisions);
    let bears: Vec<f64> = (marking.class.plan.places())
        .map(|(_, item)| f64::from(item.marks))
        .collect();
    let whole: f64 = bears.iter().sum::<f64>() - bears[4];
    let scores: Vec<(f64, f64)> = (0..4).map(|at| total(&class, at)).collect();
    assert_eq!(
        scores,
        [
            (whole - bears[1], whole),
            (whole - bears[2] + 0.5, whole),
            (whole, whole),
            (whole, whole)
        ]
    );
    let sheet = mark_sheet(&class, 10, SheetForm::default());
    let rows: Vec<Vec<&str>> = sheet.lines().map(|row| row.split(',').collect()).collect();
    for (place, bears) in bears.iter().enumerate() {
        let cell = 3 + place;
        let wanted = |score: f64| {
            if place == 4 {
                String::new()
            } else {
                score.to_string()
            }
        };
        let own = rows[1..].iter().map(|row| row[cell].to_owned());
        let own: Vec<String> = own.collect();
        let mut expected = vec![wanted(*bears); 4];
        if place == 1 {
            expected[0] = "0".into();
        }
        if place == 2 {
            expected[1] = "0.5".into();
        }
        assert_eq!(own, expected, "item {}", place + 1);
    }
}

/// Of two marks set by hand for one item the later one stands, and an item that is dropped
/// counts for nobody, whoever judged it before.
#[test]
fn the_last_mark_by_hand_stands_and_a_dropped_item_counts_for_nobody() {
    let marking = marking(PLAN, 1);
    let hand_in: HandIn = all_right(&marking.papers[0]).into();
    let judged = |item: usize, halves: u32| Judged {
        paper: "001".into(),
        item,
        halves,
        reason: "by eye".into(),
    };
    let mut decisions = Decisions {
        dropped: Vec::new(),
        judged: vec![judged(2, 2), judged(2, 7)],
    };
    let whole = f64::from(marking.class.plan.marks());
    let bears = f64::from(marking.class.plan.items[1].marks);
    let of = |decisions: &Decisions| {
        let class = marking.mark(std::slice::from_ref(&hand_in), decisions);
        total(&class, 0)
    };
    assert_eq!(of(&decisions), (whole - bears + 3.5, whole));
    decisions.dropped.push(Dropped {
        item: 2,
        reason: "another photo".into(),
    });
    assert_eq!(of(&decisions), (whole - bears, whole - bears));
}

#[test]
fn the_pen_and_the_screen_agree() {
    let marking = marking(PLAN, 1);
    let paper = &marking.papers[0];
    let pen = HandIn {
        paper: "001".into(),
        way: Way::Pen,
        at: None,
        zone: 0,
        items: (0..10)
            .map(|at| {
                vec![if at == 1 {
                    "b".to_owned()
                } else {
                    String::new()
                }]
            })
            .collect(),
    };
    let mut answers = all_right(paper);
    let turns = pumpwright_engine::classes::strip::strip(&paper.items[1].problem);
    let b = turns.lines[1]
        .turns
        .iter()
        .find(|turn| turn.letter == 'b')
        .unwrap();
    answers.items[1][1].clone_from(&b.text);
    for (line, text) in &turns
        .after
        .iter()
        .find(|after| after.letter == 'b')
        .unwrap()
        .figures
    {
        answers.items[1][line - 1].clone_from(text);
    }
    let of = |hand_in: HandIn| total(&marking.mark(&[hand_in], &Decisions::default()), 0);
    let by_pen = of(pen);
    assert_eq!(by_pen, of(answers.into()));
    assert!(by_pen.0 < by_pen.1);
}

#[test]
fn what_is_odd_has_its_own_line_and_stops_nothing() {
    let plan = PLAN.replace("pass = 70", "due = \"2026-11-23\"");
    let marking = marking(&plan, 2);
    let mut late = all_right(&marking.papers[0]);
    late.at = 1_795_478_400_000;
    let mut foreign = all_right(&marking.papers[1]);
    foreign.paper = "077".into();
    let mut again = all_right(&marking.papers[0]);
    again.at = late.at + 60_000;
    let hand_ins: Vec<HandIn> = [late, foreign, again]
        .into_iter()
        .map(HandIn::from)
        .collect();
    let class = marking.mark(&hand_ins, &Decisions::default());
    assert_eq!(
        class.people[0].notes,
        [
            "late: came in on 2026-11-24, due 2026-11-23",
            "handed in twice: the answers file of 2026-11-24, 00:00:00 counts; the answers file of 2026-11-24, 00:01:00 does not"
        ]
    );
    assert_eq!(
        class.notes,
        [
            "a hand-in is of paper 077, of which this class has no record that can be read; it is left out"
        ]
    );
    assert_eq!(class.people[1].state, State::NotIn);
    let whole = f64::from(marking.class.plan.marks());
    assert_eq!(total(&class, 0), (whole, whole));
    // On the day itself, where the clock there is behind: in time.
    let mut in_time = all_right(&marking.papers[0]);
    (in_time.at, in_time.zone) = (1_795_478_400_000, -300);
    let class = marking.mark(&[in_time.into()], &Decisions::default());
    assert!(
        class.people[0].notes.is_empty(),
        "{:?}",
        class.people[0].notes
    );
}

#[test]
fn decisions_are_laid_over_and_read_back() {
    let marking = marking(PLAN, 2);
    let decisions = Decisions {
        dropped: vec![Dropped {
            item: 5,
            reason: "the valve on the photo was another".into(),
        }],
        judged: vec![Judged {
            paper: "001".into(),
            item: 1,
            halves: 1,
            reason: "unit by word of mouth".into(),
        }],
    };
    let text = serde_json::to_string(&decisions).unwrap();
    let decisions: Decisions = serde_json::from_str(&text).unwrap();
    let hand_ins: Vec<HandIn> = marking
        .papers
        .iter()
        .map(|paper| all_right(paper).into())
        .collect();
    let class = marking.mark(&hand_ins, &decisions);
    let whole = f64::from(marking.class.plan.marks()) - 8.0;
    let first = f64::from(marking.class.plan.items[0].marks);
    assert_eq!(total(&class, 0), (whole - first + 0.5, whole));
    assert_eq!(total(&class, 1), (whole, whole));
    let sheet = mark_sheet(&class, 10, SheetForm::default());
    let rows: Vec<&str> = sheet.lines().collect();
    assert!(
        rows[1].starts_with("001,Person 1,1970-01-01,0.5,6,6,"),
        "{}",
        rows[1]
    );
    let notes = "item 1: judged 0.5: unit by word of mouth; item 5: dropped: the valve on the photo was another";
    assert!(rows[1].ends_with(notes), "{}", rows[1]);
}

/// What cannot be marked earns no nought: it does not count until somebody judges it.
#[test]
fn an_item_that_cannot_be_marked_waits_for_a_judge() {
    let mut marking = marking(PLAN, 1);
    let hand_in: HandIn = all_right(&marking.papers[0]).into();
    let class = marking.mark(std::slice::from_ref(&hand_in), &Decisions::default());
    let (before, _) = total(&class, 0);
    let first = f64::from(marking.class.plan.items[0].marks);
    let own = marking.ready.get_mut("001").expect("a paper");
    own.problems[0] = Err(KeptFault::Foreign {
        family: "relief-setting".into(),
        what: "the line floor".into(),
    });
    let class = marking.mark(std::slice::from_ref(&hand_in), &Decisions::default());
    assert_eq!(total(&class, 0), (before - first, before - first));
    let State::Marked(items) = &class.people[0].state else {
        panic!("not in");
    };
    assert!(items[0].is_open() && !items[1].is_open());
    let judged = Decisions {
        judged: vec![Judged {
            paper: "001".into(),
            item: 1,
            halves: 1,
            reason: "read by eye".into(),
        }],
        ..Decisions::default()
    };
    let class = marking.mark(std::slice::from_ref(&hand_in), &judged);
    assert_eq!(total(&class, 0), (before - first + 0.5, before));
}

/// What was taken in first counts, whichever way it came; of rows that were typed, the last.
#[test]
fn what_was_taken_in_first_counts_and_typing_again_mends() {
    let marking = marking(PLAN, 1);
    let first: HandIn = all_right(&marking.papers[0]).into();
    let mut second = first.clone();
    second.at = first.at.map(|at| at + 60_000);
    second.items = Vec::new();
    let whole = f64::from(marking.class.plan.marks());
    let class = marking.mark(&[first.clone(), second.clone()], &Decisions::default());
    assert_eq!(total(&class, 0), (whole, whole));
    let class = marking.mark(&[second.clone(), first.clone()], &Decisions::default());
    assert_eq!(total(&class, 0), (0.0, whole));
    let typed = |items: &[Vec<String>]| HandIn {
        way: Way::Typed,
        at: None,
        items: items.to_vec(),
        ..first.clone()
    };
    let class = marking.mark(&[typed(&[]), typed(&first.items)], &Decisions::default());
    assert_eq!(total(&class, 0), (whole, whole));
    assert!(class.people[0].notes.is_empty());
    // A file that was handed in is not mended by what was typed behind it, nor does it take
    // away what was typed before it, or marked with the pen.
    let class = marking.mark(&[first.clone(), typed(&[])], &Decisions::default());
    assert_eq!(total(&class, 0), (whole, whole));
    assert_eq!(
        class.people[0].notes,
        ["handed in twice: the answers file of 1970-01-01 counts; typed in does not"]
    );
    let class = marking.mark(
        &[typed(&first.items), second.clone()],
        &Decisions::default(),
    );
    assert_eq!(total(&class, 0), (whole, whole));
    assert_eq!(
        class.people[0].notes,
        ["handed in twice: typed in counts; the answers file of 1970-01-01 does not"]
    );
    let pen = HandIn {
        way: Way::Pen,
        at: None,
        items: Vec::new(),
        ..first
    };
    let class = marking.mark(&[pen, second], &Decisions::default());
    assert_eq!(total(&class, 0), (whole, whole));
    assert_eq!(
        class.people[0].notes,
        ["handed in twice: marked with the pen counts; the answers file of 1970-01-01 does not"]
    );
}

/// A paper that came in half, with items and lines that are not there, harms nothing.
#[test]
fn short_and_long_hand_ins_are_marked() {
    let marking = marking(PLAN, 1);
    let whole = f64::from(marking.class.plan.marks());
    for items in [vec![], vec![vec![]], vec![vec!["1".to_owned(); 50]; 50]] {
        let empty = items.iter().all(Vec::is_empty);
        let hand_in = HandIn {
            paper: "001".into(),
            way: Way::Typed,
            at: None,
            zone: 0,
            items,
        };
        let class = marking.mark(&[hand_in], &Decisions::default());
        let (score, out_of) = total(&class, 0);
        assert_eq!(out_of, whole);
        assert!(score < whole && (score == 0.0 || !empty), "{score}");
    }
}

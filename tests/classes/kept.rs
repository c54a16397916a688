//! What is kept of a printed paper makes the same problem again, whatever has changed.

use pumpwright_engine::classes::printed::{LessonText, PrintedPaper};
use pumpwright_engine::lessons::SourceFile;
use pumpwright_engine::marking::{Manner, Marks, Response, Verdict, mark};
use pumpwright_engine::problems::{KeptProblem, Problem, working};

use crate::support::{Class, FILES, PLAN};

/// The right answers of a problem, as typed.
pub fn right(problem: &Problem) -> Response {
    let worked = working(problem);
    let typed = |id: &str| {
        worked
            .iter()
            .find(|line| line.id == id)
            .map(|line| line.typed.clone())
    };
    Response {
        answers: problem
            .asked()
            .map(|(_, line)| (line.id.clone(), typed(&line.id).unwrap()))
            .collect(),
    }
}

fn as_json(printed: &PrintedPaper) -> PrintedPaper {
    let text = serde_json::to_string(printed).unwrap();
    serde_json::from_str(&text).unwrap()
}

#[test]
fn every_problem_is_made_again_from_what_is_kept() {
    let class = Class::new(PLAN, 12);
    let library = class.text.library();
    let mut tried = 0;
    for paper in class.papers() {
        let printed = as_json(&class.printed(&paper));
        assert_eq!(printed, class.printed(&paper));
        for (item, again) in paper.items.iter().zip(printed.rebuild(&library)) {
            let again = again.unwrap();
            assert_eq!(again.differs, []);
            let (a, b) = (&*item.problem, &again.problem);
            assert_eq!(
                (&a.story, &a.lines, &a.mistakes),
                (&b.story, &b.lines, &b.mistakes)
            );
            // A house rule that bears on nothing here is not kept.
            let own = |problem: &Problem| problem.values[problem.variant.rule_count..].to_vec();
            assert_eq!((own(a), &a.rules, &a.figure), (own(b), &b.rules, &b.figure));
            let marked = mark(b, &right(a), Manner::default());
            assert_eq!(marked.score, marked.out_of, "{}", printed.head.plan);
            // What is wrong is wrong in the same way, and near the edge of right, too.
            for typed in attempts(a, &printed.items[item.number - 1].problem) {
                tried += 1;
                let response = Response {
                    answers: vec![typed],
                };
                assert_eq!(
                    mark(b, &response, Manner::default()),
                    mark(a, &response, Manner::default())
                );
            }
        }
    }
    assert!(tried > 1000, "only {tried} answers were tried");
}

/// Answers at one line each: every known mistake, and figures inside and outside of what the
/// record says that is right, which is what marking says.
fn attempts(problem: &Problem, kept: &KeptProblem) -> Vec<(String, String)> {
    let mut tried = Vec::new();
    for line in &kept.lines {
        let own = kept.mistakes.iter();
        let own = own.filter(|mistake| mistake_at(problem, &mistake.id) == line.step);
        tried.extend(own.map(|mistake| (line.step.clone(), mistake.text.clone())));
        let Some((from, to)) = line.accept else {
            continue;
        };
        // Where it must be exact, a thousandth beside it is wrong.
        let wide = (to - from).max(1e-3 * to.abs());
        let inside = 1e-3 * (to - from);
        for (figure, right) in [
            (from + inside, true),
            (to - inside, true),
            (from - 2.0 * wide, false),
            (to + 2.0 * wide, false),
        ] {
            let typed = (line.step.clone(), figure.to_string());
            let response = Response {
                answers: vec![typed.clone()],
            };
            let marked = mark(problem, &response, Manner::default());
            let own = marked.lines.iter().find(|own| own.id == line.step);
            let verdict = &own.expect("the line").verdict;
            assert_eq!(
                *verdict == Verdict::Right,
                right,
                "{} {}: {figure} of {from} to {to} is {verdict:?}",
                kept.family,
                line.step
            );
            tried.push(typed);
        }
    }
    tried
}

/// The step at which a mistake is made.
fn mistake_at(problem: &Problem, id: &str) -> String {
    let own = problem.mistakes.iter().find(|own| own.id == id);
    own.map_or_else(String::new, |own| own.step.clone())
}

/// The lesson's formula, tolerance and table change between printing and marking.
#[test]
fn a_lesson_changed_between_print_and_mark_changes_no_mark() {
    let class = Class::new(PLAN, 4);
    let papers = class.papers();
    let printed: Vec<PrintedPaper> = papers.iter().map(|paper| class.printed(paper)).collect();
    let text = serde_json::to_string(&class.text).unwrap();
    let changed: Vec<SourceFile> = FILES
        .iter()
        .map(|file| SourceFile {
            path: file.path.clone(),
            text: file
                .text
                .replace("'motor.full * loop'", "'1.5 * motor.full * loop'"),
        })
        .collect();
    assert!(*FILES != changed, "the lesson has no such line any more");
    let today = Class::over(&changed, PLAN, 4);
    assert_ne!(today.text.sum(), class.text.sum());
    let then: LessonText = serde_json::from_str(&text).unwrap();
    let then = then.library();
    let now = today.text.library();
    for (paper, printed) in papers.iter().zip(&printed) {
        for (item, again) in paper.items.iter().zip(printed.rebuild(&then)) {
            let again = again.unwrap();
            assert_eq!(again.differs, []);
            let marked = mark(&again.problem, &right(&item.problem), Manner::default());
            assert_eq!(marked.score, marked.out_of);
            if item.problem.family.id != "cable-drop" {
                continue;
            }
            // What today's lesson would make of it is wrong by the one of then.
            let volts = item
                .problem
                .value(item.problem.variant.step("volts").unwrap());
            let own = 1.5 * volts.unwrap().number().unwrap().si;
            let answers = vec![("volts".into(), format!("{own} V"))];
            let marked = mark(&again.problem, &Response { answers }, Manner::default());
            assert_eq!(marked.score, Marks::default());
        }
        // Were the text of then lost, and today's all that there is: the printed figures count,
        // and it is told where today's lesson has another.
        for (item, again) in paper.items.iter().zip(printed.rebuild(&now)) {
            let again = again.unwrap();
            let marked = mark(&again.problem, &right(&item.problem), Manner::default());
            assert_eq!(marked.score, marked.out_of);
            let told = again.differs.iter().any(|own| own.label == "volts lost");
            assert_eq!(told, item.problem.family.id == "cable-drop");
        }
    }
}

/// As if a calculation had another edition: the printed figure stands, and it is said.
#[test]
fn a_figure_that_is_worked_otherwise_now_is_told_and_the_printed_one_counts() {
    let class = Class::new(PLAN, 1);
    let papers = class.papers();
    let text = serde_json::to_string(&class.printed(&papers[0])).unwrap();
    let mut value: serde_json::Value = serde_json::from_str(&text).unwrap();
    let found = value.pointer_mut("/items/1/problem/found").unwrap();
    let volts = found
        .as_array_mut()
        .unwrap()
        .iter_mut()
        .find(|step| step[0] == "volts")
        .unwrap();
    let before = volts[1]["figure"][0].as_f64().unwrap();
    volts[1]["figure"][0] = serde_json::json!(before * 1.5);
    let printed: PrintedPaper = serde_json::from_value(value).unwrap();
    let again = printed.rebuild(&class.text.library()).remove(1).unwrap();
    let labels: Vec<&str> = again
        .differs
        .iter()
        .map(|differs| differs.label.as_str())
        .collect();
    assert_eq!(labels[0], "volts lost", "{:?}", again.differs);
    let answer = Response {
        answers: vec![("volts".into(), format!("{} V", before * 1.5))],
    };
    let marked = mark(&again.problem, &answer, Manner::default());
    let line = marked.lines.iter().find(|line| line.id == "volts").unwrap();
    assert_eq!(line.words, "right");
}

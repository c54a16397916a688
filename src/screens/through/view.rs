//! What a question shows that one goes through.

use pumpwright_engine::papers::MarkedQuestion;
use pumpwright_engine::problems::{Asks, Problem};

use super::Through;
use super::state::Question;
use crate::keys::{Key, hint};
use crate::page::{Cell, Entry, Page, Role};
use crate::sheet::{caution, head, job};
use crate::{sitting, words, worked};

/// The page in so many columns.
pub fn page(through: &Through, width: usize) -> Page {
    let mut page = Page {
        title: "EXAM PAPER, WORKED".into(),
        place: format!(
            "{} of {} {}",
            through.at + 1,
            through.questions.len(),
            through.of
        ),
        next: if through.at + 1 < through.questions.len() {
            let next = through.questions.get(through.at + 1);
            let number = next.map_or(0, |next| next.number);
            format!("Enter: on to question {number}")
        } else {
            "Enter: that was the last, back to the marks".into()
        },
        next_below: Some("Enter: read on".into()),
        strip: vec![
            hint(Key::Enter, "on"),
            hint(Key::UpDown, "scroll"),
            hint(Key::Ask, "ask: L lesson, N practise it"),
            hint(Key::Tables, "tables"),
            hint(Key::Escape, "back"),
        ],
        ..Page::default()
    };
    if let Some(question) = through.question() {
        fill(&mut page, question, width);
    }
    page
}

fn fill(page: &mut Page, question: &Question, width: usize) {
    let problem = &question.worked.problem;
    let number = vec![
        Cell::columns("Question", 10).bold(),
        Cell::rest(question.number.to_string()),
    ];
    page.fixed = vec![Entry::of(Role::Head, number)];
    page.fixed.extend(head(problem, width, false));
    page.fixed.extend(caution(problem));
    page.flow = job(problem, width);
    page.flow.extend(sitting::offers(problem));
    page.flow.push(Entry::rule());
    for text in verdict(problem, &question.marked) {
        page.flow.push(Entry::text(Role::Verdict, text));
    }
    page.flow.push(Entry::rule());
    page.flow.extend(worked::steps(&question.worked, width));
    let job = words::on_the_job(problem);
    page.flow
        .extend(job.map(|text| Entry::text(Role::Note, text)));
}

/// How a question was marked, and the likely turn with the way out.
pub(crate) fn verdict(problem: &Problem, question: &MarkedQuestion) -> Vec<String> {
    let Some(line) = question.marked.lines.first() else {
        return Vec::new();
    };
    let written = words::written(line);
    let wrote = if line.typed.is_empty() {
        String::new()
    } else if written == line.typed {
        format!(" You wrote {written}.")
    } else {
        format!(" You wrote {}, {written}.", line.typed)
    };
    let words = words::sentence(&words::verdict(line, 0));
    let mut texts = vec![format!("{words}{wrote}")];
    texts.extend(right(problem).filter(|_| !question.is_right()));
    for (at, turn) in line.turns.iter().enumerate() {
        let likely = if at > 0 && line.alternatives {
            "Or:"
        } else {
            "Likely turn:"
        };
        texts.push(format!("{likely} {}", words::turn(turn)));
        texts.push(turn.says.clone());
    }
    texts.extend(line.note.clone());
    texts
}

/// The right offer of a choice, in a sentence.
fn right(problem: &Problem) -> Option<String> {
    let (_, line) = problem.asked().last()?;
    match &line.asks {
        Asks::Pick { offers, key } => {
            let offer = offers.get(*key)?;
            Some(format!("Right is {}, {}.", offer.mark, offer.text))
        }
        _ => None,
    }
}

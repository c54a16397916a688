//! What keys do where a paper is chosen: a line first, then the minutes, or the file.

use super::state::{Exams, Takes, read_minutes};
use crate::blank::{Blank, Wrote};
use crate::keys::Press;
use crate::office::Order;
use crate::outcome::{Outcome, Stroke, no_use, scrolled};

/// Takes a press.
pub fn update(exams: &mut Exams, stroke: &Stroke) -> Outcome {
    match &stroke.press {
        press if exams.file.is_some() => in_file(exams, press, stroke),
        Press::Enter if exams.minutes.is_some() => sit(exams),
        Press::Enter => take(exams),
        Press::Escape if exams.minutes.is_some() => {
            exams.minutes = None;
            exams.scroll.follow();
            Outcome::Stay
        }
        Press::Escape => Outcome::Back,
        Press::Ask => Outcome::Ask(None),
        Press::PageUp | Press::PageDown => {
            scrolled(&mut exams.scroll, stroke).unwrap_or(Outcome::Stay)
        }
        Press::Up | Press::Down if exams.minutes.is_some() => {
            scrolled(&mut exams.scroll, stroke).unwrap_or(Outcome::Stay)
        }
        Press::Up if exams.picked.pen == 0 => Outcome::Say("this is the first line".to_owned()),
        Press::Up => go(exams, exams.picked.pen - 1),
        Press::Down if exams.picked.pen + 1 >= exams.papers.len() => {
            Outcome::Say("this is the last line".to_owned())
        }
        Press::Down => go(exams, exams.picked.pen + 1),
        press => write(exams, press),
    }
}

fn go(exams: &mut Exams, line: usize) -> Outcome {
    exams.go(line);
    Outcome::Stay
}

fn take(exams: &mut Exams) -> Outcome {
    let Some(line) = exams.named() else {
        return Outcome::Say(format!("write a line number, 1 to {}", exams.papers.len()));
    };
    exams.picked.pen = line;
    let Some(paper) = exams.papers.get(line) else {
        return Outcome::Stay;
    };
    match &paper.takes {
        Takes::GoOn(id) => return Outcome::GoOnSitting(*id),
        Takes::Marks => return Outcome::ShowMarks,
        Takes::Given => {
            exams.file = Some(Blank::long(""));
            exams.scroll.follow();
            return Outcome::Stay;
        }
        Takes::Exam(_) => {}
    }
    exams.minutes = Some(Blank::holding(&paper.minutes.to_string()));
    exams.scroll.follow();
    Outcome::Stay
}

fn sit(exams: &Exams) -> Outcome {
    let typed = exams.minutes.as_ref().map_or("", Blank::trimmed);
    match (read_minutes(typed), exams.paper().map(|paper| &paper.takes)) {
        (Err(words), _) => Outcome::Say(words),
        (Ok(minutes), Some(Takes::Exam(exam))) => Outcome::Sit {
            exam: exam.clone(),
            minutes,
        },
        _ => Outcome::Stay,
    }
}

/// The place of a file is written: every printing key writes.
fn in_file(exams: &mut Exams, press: &Press, stroke: &Stroke) -> Outcome {
    let Some(file) = &mut exams.file else {
        return Outcome::Stay;
    };
    match press {
        Press::Enter if file.is_empty() => Outcome::Say("write the file first".to_owned()),
        Press::Enter => Outcome::Order(Order::Give(file.trimmed().to_owned())),
        Press::Escape => {
            exams.file = None;
            exams.scroll.follow();
            Outcome::Stay
        }
        Press::Up | Press::Down | Press::PageUp | Press::PageDown => {
            scrolled(&mut exams.scroll, stroke).unwrap_or(Outcome::Stay)
        }
        press => {
            exams.scroll.follow();
            match file.take(&press.in_words()) {
                Wrote::Changed => Outcome::Stay,
                Wrote::Full => Outcome::Say(Wrote::FULL.to_owned()),
                Wrote::NotMine => no_use(press),
            }
        }
    }
}

/// A sign behind what the program wrote begins anew.
fn write(exams: &mut Exams, press: &Press) -> Outcome {
    let typed = matches!(press, Press::Type(_) | Press::Paste(_));
    let whole = exams.paper().map(|paper| paper.minutes.to_string());
    let wrote = match &mut exams.minutes {
        Some(minutes) => {
            if typed && Some(minutes.before()) == whole.as_deref() {
                *minutes = Blank::default();
            }
            minutes.take(press)
        }
        None => {
            let count = exams.papers.len();
            exams.picked.take(press, count)
        }
    };
    if wrote == Wrote::NotMine {
        return no_use(press);
    }
    exams.scroll.follow();
    if wrote == Wrote::Full {
        Outcome::Say(Wrote::FULL.to_owned())
    } else {
        Outcome::Stay
    }
}

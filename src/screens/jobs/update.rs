//! What keys do on the front page.

use super::Jobs;
use crate::blank::{Blank, Wrote};
use crate::keys::Press;
use crate::outcome::{Outcome, Stroke, no_use};

/// Takes a press.
pub fn update(jobs: &mut Jobs, stroke: &Stroke) -> Outcome {
    match &stroke.press {
        Press::Enter => take(jobs),
        Press::Escape => Outcome::Say("this is the front page: ? then Q stops".to_owned()),
        Press::Ask => Outcome::Ask(None),
        Press::Up if jobs.pen == 0 => Outcome::Say("this is the first line".to_owned()),
        Press::Down if jobs.pen + 1 >= jobs.count() => {
            Outcome::Say("this is the last line".to_owned())
        }
        Press::Up => go(jobs, jobs.pen - 1),
        Press::Down => go(jobs, jobs.pen + 1),
        Press::PageUp => go(jobs, jobs.pen.saturating_sub(stroke.sight.page)),
        Press::PageDown => go(jobs, jobs.pen + stroke.sight.page),
        press => write(jobs, press),
    }
}

fn go(jobs: &mut Jobs, line: usize) -> Outcome {
    jobs.go(line);
    Outcome::Stay
}

fn take(jobs: &Jobs) -> Outcome {
    match jobs.named() {
        Some(line) if line < jobs.waiting.len() => Outcome::Resume(line),
        Some(line) => match jobs.all.get(line - jobs.waiting.len()) {
            Some(job) => Outcome::Draw(job.family.clone()),
            None => Outcome::Stay,
        },
        None => Outcome::Say(format!("write a line number, 1 to {}", jobs.count())),
    }
}

/// Writing a number moves the pen. A digit after the pen was moved by another key
/// begins a new number.
fn write(jobs: &mut Jobs, press: &Press) -> Outcome {
    if jobs.by_pen && matches!(press, Press::Type(_) | Press::Paste(_)) {
        jobs.number = Blank::default();
    }
    let wrote = jobs.number.take(press);
    if wrote == Wrote::NotMine {
        return no_use(press);
    }
    jobs.by_pen = false;
    if let Some(line) = jobs.named() {
        jobs.pen = line;
    }
    jobs.scroll.follow();
    if wrote == Wrote::Full {
        Outcome::Say(Wrote::FULL.to_owned())
    } else {
        Outcome::Stay
    }
}

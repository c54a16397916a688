//! What keys do with the pen: Enter says that the rest of the item is right, a letter or
//! a digit that a line is not.

use pumpwright_engine::classes::pen::mark_keyed;

use super::state::{Pen, Reason};
use crate::blank::{Blank, Wrote};
use crate::keys::Press;
use crate::office::Decision;
use crate::outcome::{Outcome, Stroke, no_use, scrolled};

/// No item bears so many half marks.
const HALVES: f64 = 2000.0;

/// Takes a press.
pub fn update(pen: &mut Pen, stroke: &Stroke) -> Outcome {
    if pen.reason.is_some() {
        return in_words(pen, &stroke.press);
    }
    match &stroke.press {
        Press::Escape => Outcome::Back,
        Press::Ask => Outcome::Ask(None),
        Press::PageUp | Press::PageDown => {
            scrolled(&mut pen.scroll, stroke).unwrap_or(Outcome::Stay)
        }
        _ if pen.filing => Outcome::Say("the paper is on its way to the disk".to_owned()),
        Press::Enter => enter(pen),
        Press::Up if pen.at == 0 => Outcome::Say("this is the first item".to_owned()),
        Press::Up => {
            pen.go(pen.at - 1);
            Outcome::Stay
        }
        Press::Down if pen.at + 1 >= pen.count() => {
            Outcome::Say("this is the last item".to_owned())
        }
        Press::Down => {
            pen.go(pen.at + 1);
            Outcome::Stay
        }
        press => key(pen, press),
    }
}

fn key(pen: &mut Pen, press: &Press) -> Outcome {
    if pen.came.is_some() && matches!(press, Press::Type(_) | Press::Paste(_)) {
        return Outcome::Say(
            "these answers came as text and are marked by it; ? then J sets other marks".to_owned(),
        );
    }
    match pen.blank.take(press) {
        Wrote::Changed => {
            if matches!(press, Press::Type(_) | Press::Erase | Press::Delete) {
                pen.keys += 1;
            }
            pen.scroll.follow();
            Outcome::Stay
        }
        Wrote::Full => Outcome::Say(Wrote::FULL.to_owned()),
        Wrote::NotMine => no_use(press),
    }
}

fn enter(pen: &mut Pen) -> Outcome {
    if pen.came.is_some() {
        if pen.at + 1 >= pen.count() {
            return Outcome::Back;
        }
        pen.go(pen.at + 1);
        return Outcome::Stay;
    }
    let keyed = pen.problem().map(|problem| {
        let keyed = pen.blank.trimmed();
        mark_keyed(problem, keyed, pen.manner)
    });
    if let Some(Err(what)) = keyed {
        return Outcome::Say(what);
    }
    pen.keys += 1;
    pen.done();
    match pen.following() {
        Some(next) => {
            pen.go(next);
            Outcome::Keyed(pen.so_far(false))
        }
        None => {
            pen.filing = true;
            Outcome::Keyed(pen.so_far(true))
        }
    }
}

impl Pen {
    /// Asks for a reason, with the one that stands.
    pub fn ask(&mut self, reason: Reason) {
        let item = self.item();
        let stands = match reason {
            Reason::Drop => {
                let own = self.decisions.dropped.iter().find(|own| own.item == item);
                own.map(|own| own.reason.clone())
            }
            Reason::Judge => {
                let mut own = self.decisions.judged.iter();
                let own = own.find(|own| own.paper == self.paper && own.item == item);
                own.map(|own| {
                    let marks = pumpwright_engine::marking::Marks::halves(own.halves);
                    format!("{marks} {}", own.reason)
                })
            }
        };
        self.reason = Some((reason, Blank::long(&stands.unwrap_or_default())));
        self.scroll.follow();
    }
}

fn in_words(pen: &mut Pen, press: &Press) -> Outcome {
    match press {
        Press::Escape => {
            pen.reason = None;
            return Outcome::Stay;
        }
        Press::Enter => {
            return match decided(pen) {
                Ok(decision) => {
                    pen.reason = None;
                    decision.lay_into(&mut pen.decisions);
                    Outcome::Decide(decision)
                }
                Err(words) => Outcome::Say(words),
            };
        }
        _ => {}
    }
    let Some((_, blank)) = &mut pen.reason else {
        return Outcome::Stay;
    };
    pen.scroll.follow();
    match blank.take(&press.in_words()) {
        Wrote::Changed => Outcome::Stay,
        Wrote::Full => Outcome::Say(Wrote::FULL.to_owned()),
        Wrote::NotMine => Outcome::Say("one blank is open here; Enter or Esc ends it".to_owned()),
    }
}

/// Reads what is decided; an empty blank takes a decision back.
fn decided(pen: &Pen) -> Result<Decision, String> {
    let item = pen.item();
    let Some((reason, blank)) = &pen.reason else {
        return Err(String::new());
    };
    let text = blank.trimmed();
    if *reason == Reason::Drop {
        return Ok(Decision::Drop {
            item,
            reason: text.to_owned(),
        });
    }
    let judge = |halves, reason: &str| Decision::Judge {
        paper: pen.paper.clone(),
        item,
        halves,
        reason: reason.to_owned(),
    };
    if text.is_empty() {
        return Ok(judge(None, ""));
    }
    let (marks, reason) = text.split_once(' ').unwrap_or((text, ""));
    let halves = marks.replace(',', ".").parse::<f64>().ok();
    let halves = halves.map(|marks| marks * 2.0);
    let halves = halves.filter(|halves| halves.fract() == 0.0 && (0.0..=HALVES).contains(halves));
    let halves = halves.ok_or_else(|| {
        format!("\"{marks}\" are no marks; write whole or half ones first, as in 2.5")
    })? as u32;
    let bears = pen.ready().map_or(0, |own| own.printed.bears(item));
    if halves > bears * 2 {
        let bears = crate::words::count(bears as usize, "mark", "marks");
        return Err(format!("the item bears {bears}; {marks} are more"));
    }
    if reason.trim().is_empty() {
        return Err("write the reason behind the marks: it is kept with them".to_owned());
    }
    Ok(judge(Some(halves), reason.trim()))
}

//! What keys do in the slip.

use super::Slip;
use super::state::STEPS;
use crate::keys::{Press, Tool};
use crate::outcome::{Outcome, Stroke, no_use, scrolled};

/// Takes a press.
pub fn update(slip: &mut Slip, stroke: &Stroke) -> Outcome {
    match &stroke.press {
        Press::Enter | Press::Escape => Outcome::Back,
        Press::Ask => one_more(slip),
        Press::Show => show(slip),
        Press::Type(letter) => take(slip, *letter),
        press => scrolled(&mut slip.scroll, stroke).unwrap_or_else(|| no_use(press)),
    }
}

fn one_more(slip: &mut Slip) -> Outcome {
    if let Some(words) = slip.no_help {
        return Outcome::Say(format!("{words}: a letter takes a tool"));
    }
    let Some(about) = &mut slip.about else {
        return Outcome::Say("no line is asked about here: a letter takes a tool".to_owned());
    };
    if about.given >= STEPS {
        return Outcome::Say("this is all the help there is on this line".to_owned());
    }
    about.given += 1;
    slip.scroll.follow();
    Outcome::Helped {
        line: about.line,
        steps: about.given,
    }
}

fn show(slip: &mut Slip) -> Outcome {
    if let Some(words) = slip.no_help {
        return Outcome::Say(words.to_owned());
    }
    let Some(about) = &mut slip.about else {
        return no_use(&Press::Show);
    };
    about.given = STEPS;
    slip.scroll.follow();
    Outcome::Helped {
        line: about.line,
        steps: STEPS,
    }
}

fn take(slip: &Slip, letter: char) -> Outcome {
    match Tool::by_letter(letter) {
        Some(row) if slip.tools.contains(&row.tool) => Outcome::Take(row.tool),
        Some(row) => Outcome::Say(format!("{} {} has no use here", row.letter, row.name)),
        None => Outcome::Say("a letter takes a tool; this one is not in the list".to_owned()),
    }
}

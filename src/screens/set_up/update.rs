//! What keys do on the set-up form. Enter makes a line hold, at once.

use super::state::{Form, Line};
use crate::blank::{Blank, Wrote};
use crate::keys::Press;
use crate::outcome::{Outcome, Stroke, no_use};

/// Takes a press.
pub fn update(form: &mut Form, stroke: &Stroke) -> Outcome {
    match &stroke.press {
        Press::Enter => enter(form),
        Press::Escape => Outcome::Back,
        Press::Up if form.pen == 0 => Outcome::Say("this is the first line".to_owned()),
        Press::Down if form.pen + 1 >= Line::ALL.len() => {
            Outcome::Say("this is the last line".to_owned())
        }
        Press::Up => go(form, form.pen - 1),
        Press::Down => go(form, form.pen + 1),
        press if form.line() == Line::Name => write(form, &press.in_words()),
        Press::Ask => Outcome::Ask(None),
        Press::PageUp | Press::PageDown => {
            crate::outcome::scrolled(&mut form.scroll, stroke).unwrap_or(Outcome::Stay)
        }
        press => write(form, press),
    }
}

fn go(form: &mut Form, line: usize) -> Outcome {
    form.pen = line;
    form.scroll.follow();
    Outcome::Stay
}

fn enter(form: &mut Form) -> Outcome {
    let line = form.line();
    if let Err(words) = form.read() {
        return Outcome::Say(words);
    }
    let last = form.pen + 1 >= Line::ALL.len();
    if !last {
        form.pen += 1;
    }
    form.scroll.follow();
    Outcome::Set {
        line,
        choices: Box::new(form.now.clone()),
        last,
    }
}

/// A sign in a line that holds one of several words begins it anew, so that no
/// word needs to be taken out first.
fn write(form: &mut Form, press: &Press) -> Outcome {
    let line = form.line();
    let whole = super::state::written(line, &form.now);
    let Some(blank) = form.blanks.get_mut(form.pen) else {
        return no_use(press);
    };
    let typed = matches!(press, Press::Type(_) | Press::Paste(_));
    if typed && line != Line::Name && blank.text() == whole && blank.before() == whole {
        *blank = Blank::default();
    }
    form.scroll.follow();
    match blank.take(press) {
        Wrote::Changed => Outcome::Stay,
        Wrote::Full => Outcome::Say(Wrote::FULL.to_owned()),
        Wrote::NotMine => no_use(press),
    }
}

//! One line that is written: the text, and where the next character goes.

use crate::keys::Press;

/// How many characters a blank holds.
const ROOM: usize = 60;

/// How many a blank holds for the place of a file, or a reason.
const MUCH_ROOM: usize = 400;

/// A blank with what is written in it.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Blank {
    text: String,
    /// Counted in characters from the left.
    cursor: usize,
    /// Whether it has room for a long text.
    long: bool,
}

/// What a press did to a blank.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Wrote {
    /// The text or the place in it changed.
    Changed,
    /// Nothing more goes in.
    Full,
    /// The press is none of a blank's.
    NotMine,
}

impl Wrote {
    /// What a full blank says.
    pub const FULL: &'static str = "this blank is full: Backspace makes room";
}

impl Blank {
    /// A blank that holds this text, ready to go on at its end.
    pub fn holding(text: &str) -> Self {
        let text: String = text.chars().take(ROOM).collect();
        let cursor = text.chars().count();
        Self {
            text,
            cursor,
            long: false,
        }
    }

    /// The same for a place of a file, or a reason.
    pub fn long(text: &str) -> Self {
        let text: String = text.chars().take(MUCH_ROOM).collect();
        let cursor = text.chars().count();
        Self {
            text,
            cursor,
            long: true,
        }
    }

    /// What is written.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// What is written, without blanks around it.
    pub fn trimmed(&self) -> &str {
        self.text.trim()
    }

    /// Whether nothing is written.
    pub fn is_empty(&self) -> bool {
        self.trimmed().is_empty()
    }

    /// The text before the cursor.
    pub fn before(&self) -> &str {
        &self.text[..self.byte(self.cursor)]
    }

    /// Whether a blank for one letter begins anew with this press: it holds a letter,
    /// and another one is typed behind it.
    pub fn gives_way_to(&self, press: &Press) -> bool {
        let behind = self.cursor == 1 && self.text.chars().count() == 1;
        behind && matches!(press, Press::Type(sign) if !sign.is_whitespace())
    }

    /// Does what the press says, if it is one of a blank's.
    pub fn take(&mut self, press: &Press) -> Wrote {
        let length = self.text.chars().count();
        match press {
            Press::Type(sign) => return self.insert(*sign),
            Press::Paste(text) => return self.paste(text),
            Press::Left => self.cursor = self.cursor.saturating_sub(1),
            Press::Right => self.cursor = (self.cursor + 1).min(length),
            Press::Home => self.cursor = 0,
            Press::End => self.cursor = length,
            Press::Erase if self.cursor > 0 => {
                self.cursor -= 1;
                self.remove();
            }
            Press::Delete if self.cursor < length => self.remove(),
            Press::Erase | Press::Delete => {}
            _ => return Wrote::NotMine,
        }
        Wrote::Changed
    }

    fn insert(&mut self, sign: char) -> Wrote {
        let room = if self.long { MUCH_ROOM } else { ROOM };
        if self.text.chars().count() >= room {
            return Wrote::Full;
        }
        self.text.insert(self.byte(self.cursor), sign);
        self.cursor += 1;
        Wrote::Changed
    }

    fn paste(&mut self, text: &str) -> Wrote {
        let mut wrote = Wrote::Changed;
        for sign in text.chars() {
            wrote = self.insert(sign);
        }
        wrote
    }

    fn remove(&mut self) {
        let at = self.byte(self.cursor);
        self.text.remove(at);
    }

    fn byte(&self, character: usize) -> usize {
        self.text
            .char_indices()
            .nth(character)
            .map_or(self.text.len(), |(at, _)| at)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn play(tape: &[Press]) -> (String, String) {
        let mut blank = Blank::default();
        for press in tape {
            blank.take(press);
        }
        (blank.text().to_owned(), blank.before().to_owned())
    }

    #[test]
    fn writes_at_the_cursor() {
        use Press::{Delete, Erase, Home, Left, Right, Type};
        let tape = [
            Type('3'),
            Type('2'),
            Left,
            Type('6'),
            Home,
            Right,
            Delete,
            Erase,
            Type('é'),
        ];
        assert_eq!(play(&tape), ("é2".into(), "é".into()));
    }

    #[test]
    fn holds_so_much_and_no_more() {
        let mut blank = Blank::default();
        assert_eq!(blank.take(&Press::Paste("9".repeat(ROOM + 1))), Wrote::Full);
        assert_eq!(blank.text().len(), ROOM);
        assert_eq!(blank.take(&Press::Enter), Wrote::NotMine);
    }
}

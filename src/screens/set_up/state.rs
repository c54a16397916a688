//! What a person sets, and the form on which it is written.

use pumpwright_engine::quantities::{DecimalSign, System};

use crate::blank::Blank;
use crate::calendar::{self, Date};
use crate::layout::Scroll;

/// With which signs the screen is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Signs {
    /// Lines, boxes and ticks.
    Drawn,
    /// ASCII only.
    Ascii,
}

/// When a sheet is checked.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub enum Checked {
    /// When it is handed in, as on paper.
    #[default]
    Whole,
    /// Each line as it is finished.
    LineByLine,
}

impl Signs {
    /// Both, the default first.
    pub const ALL: [Self; 2] = [Self::Drawn, Self::Ascii];

    /// As it is written.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Drawn => "line drawing",
            Self::Ascii => "ASCII",
        }
    }
}

impl Checked {
    /// Both, the default first.
    pub const ALL: [Self; 2] = [Self::Whole, Self::LineByLine];

    /// As it is written.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Whole => "whole",
            Self::LineByLine => "line by line",
        }
    }
}

/// Everything that set-up decides, each as it holds.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Choices {
    /// Whose sheets these are; empty for this machine's user.
    pub name: String,
    /// The system of units.
    pub units: System,
    /// The decimal sign.
    pub decimal: DecimalSign,
    /// The signs on the screen.
    pub signs: Signs,
    /// When a sheet is checked.
    pub checked: Checked,
    /// The day of the exam, if one is set.
    pub exam: Option<Date>,
}

impl Default for Choices {
    fn default() -> Self {
        Self {
            name: String::new(),
            units: System::Us,
            decimal: DecimalSign::Point,
            signs: Signs::Drawn,
            checked: Checked::Whole,
            exam: None,
        }
    }
}

/// What a person set off its default; the rest follows the surroundings.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct SetUp {
    /// Whose sheets these are.
    pub name: Option<String>,
    /// The system of units.
    pub units: Option<System>,
    /// The decimal sign.
    pub decimal: Option<DecimalSign>,
    /// The signs on the screen.
    pub signs: Option<Signs>,
    /// When a sheet is checked.
    pub checked: Option<Checked>,
    /// The day of the exam.
    pub exam: Option<Date>,
    /// The folder of the class that was open last.
    pub class: Option<String>,
}

impl SetUp {
    /// The same with one line as it is chosen: nothing is set where that is the
    /// default.
    #[must_use]
    pub fn with(mut self, line: Line, now: &Choices, default: &Choices) -> Self {
        match line {
            Line::Name => self.name = off(now.name.clone(), &default.name),
            Line::Units => self.units = off(now.units, &default.units),
            Line::Decimal => self.decimal = off(now.decimal, &default.decimal),
            Line::Signs => self.signs = off(now.signs, &default.signs),
            Line::Checked => self.checked = off(now.checked, &default.checked),
            Line::Exam => self.exam = now.exam,
        }
        self
    }
}

fn off<T: PartialEq>(chosen: T, default: &T) -> Option<T> {
    (chosen != *default).then_some(chosen)
}

/// A line of the form.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Line {
    /// The name: a blank for words.
    Name,
    /// US or SI.
    Units,
    /// Point or comma.
    Decimal,
    /// Line drawing or ASCII.
    Signs,
    /// Whole or line by line.
    Checked,
    /// The day of the exam.
    Exam,
}

impl Line {
    /// Every line, from top to bottom.
    pub const ALL: [Self; 6] = [
        Self::Name,
        Self::Units,
        Self::Decimal,
        Self::Signs,
        Self::Checked,
        Self::Exam,
    ];

    /// What stands before its blank.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Name => "name",
            Self::Units => "units",
            Self::Decimal => "decimal sign",
            Self::Signs => "signs on the screen",
            Self::Checked => "sheet is checked",
            Self::Exam => "exam date",
        }
    }

    /// What may be written there.
    pub const fn offers(self) -> &'static str {
        match self {
            Self::Name => "empty: this machine's user",
            Self::Units => "US or SI",
            Self::Decimal => ". or ,",
            Self::Signs => "line drawing or ASCII",
            Self::Checked => "whole or line by line",
            Self::Exam => "as 2027-03-15; empty: none",
        }
    }
}

/// The form while it is filled in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Form {
    /// What holds.
    pub now: Choices,
    /// A blank for each line.
    pub blanks: [Blank; 6],
    /// The line with the pen.
    pub pen: usize,
    /// Whether it was asked for by the program and not by the person.
    pub offered: bool,
    /// Where it stands.
    pub scroll: Scroll,
}

impl Form {
    /// The form with what holds written in it.
    pub fn new(now: Choices, offered: bool) -> Self {
        let blanks = Line::ALL.map(|line| Blank::holding(&written(line, &now)));
        Self {
            now,
            blanks,
            pen: 0,
            offered,
            scroll: Scroll::default(),
        }
    }

    /// The line with the pen.
    pub fn line(&self) -> Line {
        Line::ALL.get(self.pen).copied().unwrap_or(Line::Name)
    }

    /// Whether something is written that is not yet done with Enter.
    pub fn is_half_way(&self) -> bool {
        let written = Line::ALL.map(|line| written(line, &self.now));
        let pairs = self.blanks.iter().zip(&written);
        pairs
            .into_iter()
            .any(|(blank, text)| blank.trimmed() != text)
    }

    /// Reads the line with the pen into what holds.
    ///
    /// # Errors
    /// What can be written there.
    pub fn read(&mut self) -> Result<(), String> {
        let line = self.line();
        let Some(blank) = self.blanks.get(self.pen) else {
            return Ok(());
        };
        let typed = blank.trimmed().to_owned();
        let cannot = || format!("write {}", line.offers());
        let now = &mut self.now;
        match line {
            Line::Name => now.name = typed,
            Line::Units => {
                now.units = one_of(&typed, &System::BOTH, System::letters).ok_or_else(cannot)?;
            }
            Line::Decimal => {
                now.decimal = match typed.as_str() {
                    "." => DecimalSign::Point,
                    "," => DecimalSign::Comma,
                    _ => return Err(cannot()),
                };
            }
            Line::Signs => {
                now.signs = one_of(&typed, &Signs::ALL, Signs::words).ok_or_else(cannot)?;
            }
            Line::Checked => {
                now.checked = one_of(&typed, &Checked::ALL, Checked::words).ok_or_else(cannot)?;
            }
            Line::Exam if typed.is_empty() => now.exam = None,
            Line::Exam => now.exam = Some(calendar::read(&typed).ok_or_else(cannot)?),
        }
        let whole = written(line, &self.now);
        if let Some(blank) = self.blanks.get_mut(self.pen) {
            *blank = Blank::holding(&whole);
        }
        Ok(())
    }
}

/// A line as it is written in full.
pub fn written(line: Line, now: &Choices) -> String {
    match line {
        Line::Name => now.name.clone(),
        Line::Units => now.units.letters().to_uppercase(),
        Line::Decimal => match now.decimal {
            DecimalSign::Point => ".".to_owned(),
            DecimalSign::Comma => ",".to_owned(),
        },
        Line::Signs => now.signs.words().to_owned(),
        Line::Checked => now.checked.words().to_owned(),
        Line::Exam => now.exam.map(|date| date.to_string()).unwrap_or_default(),
    }
}

/// One of several words: its first letters are enough, capital or small.
fn one_of<T: Copy>(typed: &str, all: &[T], words: impl Fn(T) -> &'static str) -> Option<T> {
    let typed = typed.to_lowercase();
    let begins = |&choice: &T| words(choice).to_lowercase().starts_with(&typed);
    all.iter()
        .copied()
        .find(begins)
        .filter(|_| !typed.is_empty())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_first_letters_are_enough() {
        let mut form = Form::new(Choices::default(), false);
        for (pen, typed, whole) in [(1, "s", "SI"), (3, "as", "ASCII"), (4, "l", "line by line")] {
            form.pen = pen;
            form.blanks[pen] = Blank::holding(typed);
            assert_eq!(form.read(), Ok(()));
            assert_eq!(form.blanks[pen].text(), whole);
        }
        assert_eq!(form.now.units, System::Si);
        form.pen = 1;
        form.blanks[1] = Blank::holding("metres");
        assert_eq!(form.read(), Err("write US or SI".to_owned()));
        assert_eq!(form.now.units, System::Si);
    }

    #[test]
    fn only_what_is_off_its_default_is_set() {
        let now = Choices {
            units: System::Si,
            ..Choices::default()
        };
        let set = SetUp::default().with(Line::Units, &now, &Choices::default());
        assert_eq!(set.units, Some(System::Si));
        assert_eq!(
            set.with(Line::Units, &Choices::default(), &Choices::default()),
            SetUp::default()
        );
    }
}

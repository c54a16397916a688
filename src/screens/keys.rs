//! The one table of keys, and the only file that knows the terminal's key codes.
//! The table feeds the screens, the row of keys, the slip and the list of keys.

use crossterm::event::{Event, KeyCode, KeyEvent, KeyEventKind, KeyModifiers};

/// A press as the screens know it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Press {
    /// Do what the Next row says.
    Enter,
    /// Put away what lies on top, or go back one place.
    Escape,
    /// The line above.
    Up,
    /// The line below.
    Down,
    /// A screenful up.
    PageUp,
    /// A screenful down.
    PageDown,
    /// One character to the left.
    Left,
    /// One character to the right.
    Right,
    /// To the first character.
    Home,
    /// Behind the last character.
    End,
    /// Take the character before the cursor out.
    Erase,
    /// Take the character under the cursor out.
    Delete,
    /// `?`
    Ask,
    /// `!`
    Show,
    /// `@`
    Tables,
    /// `&`
    Sums,
    /// A character for a blank, or a letter of the slip.
    Type(char),
    /// Text that was pasted: signs of keys and line ends taken out.
    Paste(String),
    /// Draw the screen again.
    Redraw,
    /// Stand still until the shell calls again.
    Suspend,
    /// Stop the program.
    Stop,
}

/// A key as the row of keys names it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Key {
    /// Enter.
    Enter,
    /// Esc.
    Escape,
    /// Up and Down, Tab and Shift-Tab.
    UpDown,
    /// Keys that move inside the blank.
    Inside,
    /// PgUp and PgDn.
    Pages,
    /// `?`
    Ask,
    /// `!`
    Show,
    /// `@`
    Tables,
    /// `&`
    Sums,
}

/// A row of the table: a key and what it does everywhere.
#[derive(Debug, PartialEq, Eq)]
pub struct KeyRow {
    /// The key.
    pub key: Key,
    /// Its name, as printed.
    pub label: &'static str,
    /// What it does.
    pub does: &'static str,
}

const fn key(key: Key, label: &'static str, does: &'static str) -> KeyRow {
    KeyRow { key, label, does }
}

/// The keys that do the same everywhere.
pub const KEYS: [KeyRow; 9] = [
    key(
        Key::Enter,
        "Enter",
        "do what stands at Next, at the foot of every screen",
    ),
    key(Key::Escape, "Esc", "one place back; what you wrote stays"),
    key(
        Key::UpDown,
        "Up Down",
        "another line; Tab and Shift-Tab do the same",
    ),
    key(
        Key::Ask,
        "?",
        "ask: about this line, and for everything else",
    ),
    key(Key::Show, "!", "I do not know, show me this line"),
    key(
        Key::Tables,
        "@",
        "the tables, at the one that this line uses",
    ),
    key(Key::Sums, "&", "the back of the sheet: side sums"),
    key(
        Key::Inside,
        "Left Right",
        "inside the blank; Home, End, Backspace, Delete too",
    ),
    key(Key::Pages, "PgUp PgDn", "a screenful up or down"),
];

/// What a letter takes in the slip.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Tool {
    /// Leave the line or question for later.
    SetAside,
    /// The plan of a paper.
    Plan,
    /// The work order of a class.
    Class,
    /// Take an item out for the whole class.
    DropItem,
    /// Sit a paper with a clock.
    Exam,
    /// The figure of this job.
    Figure,
    /// Look a word up.
    Glossary,
    /// House rules, what varies, sources.
    HouseRules,
    /// Print, or save as a page.
    Ink,
    /// Override a mark, with a reason.
    Judge,
    /// The keys.
    Keys,
    /// Read a lesson.
    Lesson,
    /// Marking with a pen.
    Mark,
    /// The same job, drawn again.
    NextNumbers,
    /// Write a side sum into the line.
    CarryOver,
    /// This screen as lines to read or hear.
    PlainList,
    /// Stop here.
    Quit,
    /// The class report.
    Report,
    /// What you can do, how sure.
    Standing,
    /// The front page.
    Tonight,
    /// Name, units, signs.
    SetUp,
    /// What a wrong turn looks like.
    ViewTurn,
    /// The worked solution.
    Working,
    /// The instructor sits the paper.
    SitIt,
    /// Hand in the whole paper.
    HandIn,
}

/// A row of the table: a letter of the slip.
#[derive(Debug, PartialEq, Eq)]
pub struct ToolRow {
    /// The tool.
    pub tool: Tool,
    /// Its letter, for good: never lent to another tool.
    pub letter: char,
    /// Its name.
    pub name: &'static str,
    /// What it does.
    pub does: &'static str,
}

const fn tool(tool: Tool, letter: char, name: &'static str, does: &'static str) -> ToolRow {
    ToolRow {
        tool,
        letter,
        name,
        does,
    }
}

/// The letters of the slip. Y is free: it looks like an answer to "sure?".
pub const TOOLS: [ToolRow; 25] = [
    tool(
        Tool::SetAside,
        'A',
        "set aside",
        "leave this sheet or question for later",
    ),
    tool(Tool::Plan, 'B', "plan", "the plan (blueprint) of a paper"),
    tool(Tool::Class, 'C', "class", "the work order of a class"),
    tool(
        Tool::DropItem,
        'D',
        "drop item",
        "take an item out for the whole class",
    ),
    tool(Tool::Exam, 'E', "exam", "sit a paper with a clock"),
    tool(Tool::Figure, 'F', "figure", "the figure of this job"),
    tool(Tool::Glossary, 'G', "glossary", "look a word up"),
    tool(
        Tool::HouseRules,
        'H',
        "house rules",
        "rules, what varies, sources of this sheet",
    ),
    tool(Tool::Ink, 'I', "ink", "print, or save as a page"),
    tool(Tool::Judge, 'J', "judge", "override a mark, with a reason"),
    tool(Tool::Keys, 'K', "keys", "all keys"),
    tool(Tool::Lesson, 'L', "lesson", "read the lesson of this job"),
    tool(
        Tool::Mark,
        'M',
        "mark",
        "marking with a pen; read answers files",
    ),
    tool(
        Tool::NextNumbers,
        'N',
        "next numbers",
        "the same job, drawn again; in a class, a make-up paper",
    ),
    tool(
        Tool::CarryOver,
        'O',
        "carry over",
        "write this side sum into the line",
    ),
    tool(
        Tool::PlainList,
        'P',
        "plain list",
        "this screen as lines to read or hear",
    ),
    tool(Tool::Quit, 'Q', "stop", "stop here"),
    tool(Tool::Report, 'R', "report", "the class report"),
    tool(Tool::Standing, 'S', "standing", "what you can do, how sure"),
    tool(
        Tool::Tonight,
        'T',
        "front page",
        "the list of lessons and jobs",
    ),
    tool(
        Tool::SetUp,
        'U',
        "set-up",
        "name, units, decimal sign, signs, checking",
    ),
    tool(
        Tool::ViewTurn,
        'V',
        "view the turn",
        "the figure of your answers; on the board, a known turn",
    ),
    tool(
        Tool::Working,
        'W',
        "working",
        "the worked solution; from there, the board",
    ),
    tool(Tool::SitIt, 'X', "sit it", "the instructor sits the paper"),
    tool(Tool::HandIn, 'Z', "hand in", "hand in the whole paper"),
];

impl Tool {
    /// The row of this tool.
    pub fn row(self) -> &'static ToolRow {
        let [first, ..] = &TOOLS;
        TOOLS.iter().find(|row| row.tool == self).unwrap_or(first)
    }

    /// The tool of a letter, capital or small.
    pub fn by_letter(letter: char) -> Option<&'static ToolRow> {
        TOOLS
            .iter()
            .find(|row| row.letter == letter.to_ascii_uppercase())
    }
}

impl Key {
    /// The key's name, as printed.
    pub fn label(self) -> &'static str {
        KEYS.iter()
            .find(|row| row.key == self)
            .map_or("", |row| row.label)
    }
}

/// A key and what it does at one place, for the row of keys.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Hint {
    /// The key.
    pub key: Key,
    /// What it does here, in a word or two.
    pub words: String,
}

/// A key and what it does here.
pub fn hint(key: Key, words: impl Into<String>) -> Hint {
    Hint {
        key,
        words: words.into(),
    }
}

/// The presses that an event of the terminal stands for; none for most.
pub fn read(event: Event) -> Vec<Press> {
    match event {
        Event::Key(key) if key.kind != KeyEventKind::Release => read_key(key),
        Event::Paste(text) => vec![Press::Paste(pasted(&text))],
        _ => Vec::new(),
    }
}

fn read_key(key: KeyEvent) -> Vec<Press> {
    let held = key.modifiers;
    let control = held.contains(KeyModifiers::CONTROL);
    let alt = held.contains(KeyModifiers::ALT);
    match key.code {
        // Where a sign needs AltGr, some terminals report Ctrl and Alt with it.
        KeyCode::Char(sign) if control && !alt => from_control(sign).into_iter().collect(),
        // Alt and a letter that arrive together are Esc and the letter, typed fast.
        KeyCode::Char(sign) if alt && !control => vec![Press::Escape, from_sign(sign)],
        KeyCode::Char(sign) => vec![from_sign(sign)],
        code => from_code(code).into_iter().collect(),
    }
}

const fn from_control(sign: char) -> Option<Press> {
    match sign.to_ascii_lowercase() {
        'c' => Some(Press::Stop),
        'l' => Some(Press::Redraw),
        'z' => Some(Press::Suspend),
        // The same bytes as Backspace, Tab, Enter and Esc.
        'h' => Some(Press::Erase),
        'i' => Some(Press::Down),
        'm' | 'j' => Some(Press::Enter),
        '[' => Some(Press::Escape),
        _ => None,
    }
}

/// The press of a character typed.
pub const fn from_sign(sign: char) -> Press {
    match sign {
        '?' => Press::Ask,
        '!' => Press::Show,
        '@' => Press::Tables,
        '&' => Press::Sums,
        _ => Press::Type(sign),
    }
}

impl Press {
    /// The press in a blank for words, where every printing key is written.
    #[must_use]
    pub fn in_words(&self) -> Self {
        match self {
            Self::Ask => Self::Type('?'),
            Self::Show => Self::Type('!'),
            Self::Tables => Self::Type('@'),
            Self::Sums => Self::Type('&'),
            press => press.clone(),
        }
    }
}

const fn from_code(code: KeyCode) -> Option<Press> {
    match code {
        KeyCode::Enter => Some(Press::Enter),
        KeyCode::Esc => Some(Press::Escape),
        KeyCode::Up | KeyCode::BackTab => Some(Press::Up),
        KeyCode::Down | KeyCode::Tab => Some(Press::Down),
        KeyCode::PageUp => Some(Press::PageUp),
        KeyCode::PageDown => Some(Press::PageDown),
        KeyCode::Left => Some(Press::Left),
        KeyCode::Right => Some(Press::Right),
        KeyCode::Home => Some(Press::Home),
        KeyCode::End => Some(Press::End),
        KeyCode::Backspace => Some(Press::Erase),
        KeyCode::Delete => Some(Press::Delete),
        _ => None,
    }
}

fn pasted(text: &str) -> String {
    let spaced = text.split_whitespace().collect::<Vec<_>>().join(" ");
    spaced
        .chars()
        .filter(|&sign| matches!(from_sign(sign), Press::Type(s) if !s.is_control()))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_letter_and_no_key_stands_twice() {
        let letters: std::collections::BTreeSet<_> = TOOLS.iter().map(|row| row.letter).collect();
        assert_eq!(letters.len(), TOOLS.len());
        assert!(!letters.contains(&'Y'));
        assert!(letters.iter().all(char::is_ascii_uppercase));
        let tools: std::collections::HashSet<_> = TOOLS.iter().map(|row| row.tool).collect();
        assert_eq!(tools.len(), TOOLS.len());
        let labels: std::collections::BTreeSet<_> = KEYS.iter().map(|row| row.label).collect();
        assert_eq!(labels.len(), KEYS.len());
    }

    fn press(code: KeyCode, held: KeyModifiers) -> Vec<Press> {
        read(Event::Key(KeyEvent::new(code, held)))
    }

    #[test]
    fn no_control_or_alt_key_is_bound_but_those_named() {
        let bound: String = ('a'..='z')
            .filter(|&sign| !press(KeyCode::Char(sign), KeyModifiers::CONTROL).is_empty())
            .collect();
        assert_eq!(bound, "chijlmz");
        assert_eq!(
            press(KeyCode::Char('w'), KeyModifiers::ALT),
            [Press::Escape, Press::Type('w')]
        );
        let alt_gr = KeyModifiers::CONTROL | KeyModifiers::ALT;
        assert_eq!(press(KeyCode::Char('@'), alt_gr), [Press::Tables]);
    }

    #[test]
    fn releases_do_nothing() {
        let mut key = KeyEvent::new(KeyCode::Enter, KeyModifiers::NONE);
        key.kind = KeyEventKind::Release;
        assert!(read(Event::Key(key)).is_empty());
    }

    #[test]
    fn a_paste_never_acts_as_a_key() {
        let paste = read(Event::Paste("12\r\n!?3 &@\u{7}psi\n".into()));
        assert_eq!(paste, [Press::Paste("12 3 psi".into())]);
    }
}

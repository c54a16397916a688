//! The words of a formula, each with its place. A unit is read here, since only
//! here is it known whether a blank stood before it.

use std::ops::Range;

use super::fault::Fault;

#[derive(Debug, Clone, PartialEq)]
pub(super) struct Token {
    pub what: What,
    pub span: Range<usize>,
}

#[derive(Debug, Clone, PartialEq)]
pub(super) enum What {
    Number(f64),
    Unit(String),
    Word(String),
    /// A name or several joined by dots.
    Path(String),
    Keyword(&'static str),
    Symbol(&'static str),
    End,
}

impl What {
    /// As an error message says it.
    pub fn shown(&self) -> String {
        match self {
            Self::Number(value) => format!("\"{value}\""),
            Self::Unit(text) | Self::Path(text) | Self::Word(text) => format!("\"{text}\""),
            Self::Keyword(text) | Self::Symbol(text) => format!("\"{text}\""),
            Self::End => "the end".to_owned(),
        }
    }
}

/// Which letters a name may have.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Letters {
    /// Lower case, as in a lesson.
    Lower,
    /// Any letter, as in a law.
    Any,
}

const KEYWORDS: [&str; 12] = [
    "first", "last", "any", "in", "where", "if", "then", "else", "and", "or", "not", "is",
];

/// Longer ones first, so that `<=` is not read as `<`.
const SYMBOLS: [&str; 13] = [
    "<=", ">=", "<", ">", "+", "-", "*", "/", "^", "(", ")", ",", "=",
];

/// Signs that people write and what the language has for them.
const FOREIGN: [(&str, &str); 16] = [
    ("==", "is"),
    ("!=", "is not"),
    ("<>", "is not"),
    ("&&", "and"),
    ("||", "or"),
    ("**", "^"),
    ("×", "*"),
    ("·", "*"),
    ("÷", "/"),
    ("−", "-"),
    ("–", "-"),
    ("≤", "<="),
    ("≥", ">="),
    ("≠", "is not"),
    ("!", "not"),
    ("²", "^2"),
];

/// The words of a formula; the last is always [`What::End`].
pub(super) fn lex(source: &str, letters: Letters) -> Result<Vec<Token>, Fault> {
    let mut lexer = Lexer {
        source,
        at: 0,
        letters,
        tokens: Vec::new(),
    };
    while lexer.next()? {}
    let end = source.len();
    lexer.tokens.push(Token {
        what: What::End,
        span: end..end,
    });
    Ok(lexer.tokens)
}

struct Lexer<'a> {
    source: &'a str,
    at: usize,
    letters: Letters,
    tokens: Vec<Token>,
}

impl Lexer<'_> {
    fn next(&mut self) -> Result<bool, Fault> {
        self.skip(char::is_whitespace);
        let Some(first) = self.rest().chars().next() else {
            return Ok(false);
        };
        if first.is_ascii_digit() {
            self.number()?;
        } else if first.is_alphabetic() {
            self.path()?;
        } else if first == '"' {
            self.word()?;
        } else {
            self.symbol(first)?;
        }
        Ok(true)
    }

    fn rest(&self) -> &str {
        self.source.get(self.at..).unwrap_or_default()
    }

    fn skip(&mut self, belongs: impl Fn(char) -> bool) {
        self.at += run(self.rest(), belongs);
    }

    fn push(&mut self, what: What, from: usize) {
        self.tokens.push(Token {
            what,
            span: from..self.at,
        });
    }

    fn text(&self, from: usize) -> String {
        self.source
            .get(from..self.at)
            .unwrap_or_default()
            .to_owned()
    }

    fn number(&mut self) -> Result<(), Fault> {
        let from = self.at;
        self.skip(|c| c.is_ascii_digit());
        if let Some(after) = self.rest().strip_prefix('.') {
            let digits = run(after, |c| c.is_ascii_digit());
            if digits == 0 {
                let span = from..self.at + 1;
                return Err(Fault::new(&span, "has a number that ends in a point")
                    .remedy(format!("write \"{}\"", self.text(from))));
            }
            self.at += 1 + digits;
        }
        let text = self.text(from);
        let value = text.parse().ok().filter(|value: &f64| value.is_finite());
        let Some(value) = value else {
            return Err(Fault::new(
                &(from..self.at),
                "has a number that is too large",
            ));
        };
        self.push(What::Number(value), from);
        self.unit(&text)
    }

    /// A unit after a number, if one stands there.
    fn unit(&mut self, number: &str) -> Result<(), Fault> {
        let blanks = run(self.rest(), char::is_whitespace);
        let after = self.rest().get(blanks..).unwrap_or_default();
        let length = unit_length(after);
        let text = after.get(..length).unwrap_or_default().to_owned();
        // "in" alone is inches here: no number ever stands before the keyword.
        let keyword = KEYWORDS.contains(&text.as_str()) && text != "in";
        if length == 0 || keyword && blanks > 0 {
            return Ok(());
        }
        let from = self.at + blanks;
        self.at = from + length;
        let power = text.strip_prefix(['e', 'E']).unwrap_or_default();
        if blanks == 0 && power.starts_with(|c: char| c.is_ascii_digit()) {
            let message = format!("writes \"{number}{text}\" with a power of ten");
            return Err(Fault::new(&(from..self.at), message)
                .remedy("write the number out, as in \"100000\""));
        }
        if blanks == 0 {
            return Err(Fault::new(
                &(from..self.at),
                format!("runs \"{number}\" and \"{text}\" together"),
            )
            .remedy(format!("write \"{number} {text}\"")));
        }
        self.push(What::Unit(text), from);
        Ok(())
    }

    fn path(&mut self) -> Result<(), Fault> {
        let from = self.at;
        loop {
            self.skip(|c| c.is_alphanumeric() || c == '_');
            let next = self.rest().strip_prefix('.');
            if next
                .and_then(|after| after.chars().next())
                .is_none_or(|c| !c.is_alphabetic())
            {
                break;
            }
            self.at += 1;
        }
        let text = self.text(from);
        if self.letters == Letters::Lower && !text.chars().all(lower) {
            return Err(other_letters(&(from..self.at), &text));
        }
        let keyword = KEYWORDS.into_iter().find(|keyword| *keyword == text);
        self.push(keyword.map_or(What::Path(text), What::Keyword), from);
        Ok(())
    }

    fn word(&mut self) -> Result<(), Fault> {
        let from = self.at;
        self.at += 1;
        self.skip(|c| c != '"' && c != '\n');
        if !self.rest().starts_with('"') {
            return Err(
                Fault::new(&(from..self.at), "opens a word and does not close it")
                    .remedy("end the word with \""),
            );
        }
        let text = self.text(from + 1);
        self.at += 1;
        self.push(What::Word(text), from);
        Ok(())
    }

    fn symbol(&mut self, first: char) -> Result<(), Fault> {
        let from = self.at;
        if let Some((foreign, ours)) = FOREIGN
            .into_iter()
            .find(|(sign, _)| self.rest().starts_with(sign))
        {
            self.at += foreign.len();
            return Err(Fault::new(&(from..self.at), format!("has \"{foreign}\""))
                .remedy(format!("write \"{ours}\"")));
        }
        if let Some(symbol) = SYMBOLS
            .into_iter()
            .find(|symbol| self.rest().starts_with(symbol))
        {
            self.at += symbol.len();
            self.push(What::Symbol(symbol), from);
            return Ok(());
        }
        self.at += first.len_utf8();
        Err(self.stray(first, from))
    }

    fn stray(&self, first: char, from: usize) -> Fault {
        let span = from..self.at;
        let digits = run(self.rest(), |c| c.is_ascii_digit());
        if first == '.' && digits > 0 {
            let digits = self.rest().get(..digits).unwrap_or_default();
            return Fault::new(
                &(from..self.at + digits.len()),
                "has a number that begins with a point",
            )
            .remedy(format!("write \"0.{digits}\""));
        }
        if first == '%' {
            return Fault::new(&span, "has a unit that follows no number")
                .remedy("write the unit after a number, as in \"5 %\"");
        }
        Fault::new(&span, format!("has \"{first}\", which means nothing here"))
    }
}

fn other_letters(span: &Range<usize>, text: &str) -> Fault {
    let fault = Fault::new(span, format!("writes \"{text}\" in other letters"));
    let small = text.to_lowercase();
    if small.chars().all(lower) {
        return fault.remedy(format!("write \"{small}\""));
    }
    fault.remedy("names have the lower-case letters a to z, digits and _")
}

fn lower(c: char) -> bool {
    c.is_ascii_lowercase() || c.is_ascii_digit() || c == '_' || c == '.'
}

/// How many bytes from the start belong.
fn run(text: &str, belongs: impl Fn(char) -> bool) -> usize {
    text.find(|c| !belongs(c)).unwrap_or(text.len())
}

/// How many bytes from the start are a unit: names with powers, joined by `/`
/// or `*` without a blank. A name after a join may begin with a figure, as in
/// `ohm/100ft`.
fn unit_length(text: &str) -> usize {
    let mut length = name_length(text);
    if length == 0 {
        return 0;
    }
    loop {
        let rest = text.get(length..).unwrap_or_default();
        let Some(after) = rest.strip_prefix(['/', '*']) else {
            return length;
        };
        let digits = run(after, |c| c.is_ascii_digit());
        let name = name_length(after.get(digits..).unwrap_or_default());
        if name == 0 {
            return length;
        }
        length += 1 + digits + name;
    }
}

/// One unit name with its power, if it has one.
fn name_length(text: &str) -> usize {
    if text.starts_with('%') {
        return 1;
    }
    let degree = if text.starts_with('°') {
        '°'.len_utf8()
    } else {
        0
    };
    let after = text.get(degree..).unwrap_or_default();
    if !after.starts_with(char::is_alphabetic) {
        return 0;
    }
    let name = degree + run(after, |c| c.is_alphanumeric() || c == '_');
    let power = text.get(name..).unwrap_or_default().strip_prefix('^');
    let digits = power.map_or(0, |after| run(after, |c| c.is_ascii_digit()));
    if digits == 0 { name } else { name + 1 + digits }
}

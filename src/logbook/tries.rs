//! The tries of a response as one short text, so that a standing is read without
//! parsing whole sheets.
//!
//! A line a try, its fields apart by tabs: skill, two digits (right, helped), seconds,
//! options, and the mistake where there is one. What is not known is empty.

use std::borrow::Cow;
use std::collections::HashSet;
use std::sync::Arc;

use pumpwright_engine::learner::Try;

/// The text of these tries.
pub fn written(tries: &[Try]) -> String {
    let mut text = String::new();
    for tried in tries {
        if !text.is_empty() {
            text.push('\n');
        }
        escape(&tried.skill, &mut text);
        text.push('\t');
        for truth in [tried.right, tried.helped] {
            text.push(if truth { '1' } else { '0' });
        }
        let seconds = tried.seconds.map(|seconds| seconds.to_string());
        let options = tried.options.map(|options| options.to_string());
        for number in [seconds, options] {
            text.push('\t');
            text.push_str(&number.unwrap_or_default());
        }
        if let Some(mistake) = &tried.mistake {
            text.push('\t');
            escape(mistake, &mut text);
        }
    }
    text
}

/// Names that were met: thousands of tries share a few.
#[derive(Default)]
pub struct Names(HashSet<Arc<str>>);

impl Names {
    /// The one of this spelling.
    pub fn of(&mut self, name: &str) -> Arc<str> {
        if let Some(met) = self.0.get(name) {
            return Arc::clone(met);
        }
        let new: Arc<str> = name.into();
        self.0.insert(Arc::clone(&new));
        new
    }
}

/// The tries of a text; none where it was not written here.
pub fn read(text: &str, names: &mut Names) -> Option<Vec<Try>> {
    if text.is_empty() {
        return Some(Vec::new());
    }
    let mut tries = Vec::with_capacity(1 + text.bytes().filter(|sign| *sign == b'\n').count());
    for line in text.split('\n') {
        tries.push(one(line, names)?);
    }
    Some(tries)
}

fn one(line: &str, names: &mut Names) -> Option<Try> {
    let mut fields = line.split('\t');
    let skill = names.of(&unescaped(fields.next()?)?);
    let (right, helped) = match fields.next()? {
        "00" => (false, false),
        "01" => (false, true),
        "10" => (true, false),
        "11" => (true, true),
        _ => return None,
    };
    let seconds = perhaps(fields.next()?).ok()?;
    let options = perhaps(fields.next()?).ok()?;
    let mistake = match fields.next() {
        Some(mistake) => Some(names.of(&unescaped(mistake)?)),
        None => None,
    };
    fields.next().is_none().then_some(Try {
        skill,
        right,
        helped,
        seconds,
        options,
        mistake,
    })
}

/// A number that may be unknown.
fn perhaps<T: std::str::FromStr>(text: &str) -> Result<Option<T>, T::Err> {
    if text.is_empty() {
        return Ok(None);
    }
    text.parse().map(Some)
}

fn escape(text: &str, out: &mut String) {
    for sign in text.chars() {
        match sign {
            '\\' => out.push_str("\\\\"),
            '\t' => out.push_str("\\t"),
            '\n' => out.push_str("\\n"),
            sign => out.push(sign),
        }
    }
}

fn unescaped(text: &str) -> Option<Cow<'_, str>> {
    if !text.contains('\\') {
        return Some(text.into());
    }
    let mut out = String::with_capacity(text.len());
    let mut signs = text.chars();
    while let Some(sign) = signs.next() {
        out.push(match sign {
            '\\' => match signs.next()? {
                '\\' => '\\',
                't' => '\t',
                'n' => '\n',
                _ => return None,
            },
            sign => sign,
        });
    }
    Some(out.into())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::logbook::testing::any_entry;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn what_is_written_is_read_again(entry in any_entry()) {
            let tries = entry.response().tries;
            prop_assert_eq!(read(&written(&tries), &mut Names::default()), Some(tries));
        }

        #[test]
        fn no_text_is_a_panic(text in "[a\\\\\t\n01]{0,20}") {
            let names = &mut Names::default();
            if let Some(tries) = read(&text, names) {
                prop_assert_eq!(read(&written(&tries), names), Some(tries));
            }
        }
    }
}

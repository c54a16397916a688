//! The tries of a response as one short text, so that a standing is read without
//! parsing whole sheets.
//!
//! A line a try, its fields apart by tabs: skill, two digits (right, helped), seconds,
//! options, and the mistake where there is one. What is not known is empty.

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

/// The tries of a text; none where it was not written here.
pub fn read(text: &str) -> Option<Vec<Try>> {
    if text.is_empty() {
        return Some(Vec::new());
    }
    text.split('\n').map(one).collect()
}

fn one(line: &str) -> Option<Try> {
    let mut fields = line.split('\t');
    let skill = unescaped(fields.next()?)?;
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
        Some(mistake) => Some(unescaped(mistake)?),
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

fn unescaped(text: &str) -> Option<String> {
    if !text.contains('\\') {
        return Some(text.to_owned());
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
    Some(out)
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
            prop_assert_eq!(read(&written(&tries)), Some(tries));
        }

        #[test]
        fn no_text_is_a_panic(text in "[a\\\\\t\n01]{0,20}") {
            if let Some(tries) = read(&text) {
                prop_assert_eq!(read(&written(&tries)), Some(tries));
            }
        }
    }
}

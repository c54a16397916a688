//! The tries of a response as one short text, so that a standing is read without
//! parsing whole sheets.
//!
//! A line a try, its fields apart by tabs: skill, two digits (right, helped), seconds,
//! options, and the mistake where there is one. What is not known is empty.

use std::borrow::Cow;
use std::collections::HashSet;
use std::sync::Arc;

use crate::learner::Try;
use memchr::{memchr, memchr_iter, memchr2};

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

/// Names that were met: thousands of tries share a few, and one follows its like.
#[derive(Default)]
pub struct Names {
    met: HashSet<Arc<str>>,
    last: Option<Arc<str>>,
}

impl Names {
    /// The one of this spelling.
    pub fn of(&mut self, name: &str) -> Arc<str> {
        if let Some(last) = self.last.as_ref().filter(|last| ***last == *name) {
            return Arc::clone(last);
        }
        let own = self.met.get(name).map(Arc::clone);
        let own = own.unwrap_or_else(|| {
            let new: Arc<str> = name.into();
            self.met.insert(Arc::clone(&new));
            new
        });
        self.last = Some(Arc::clone(&own));
        own
    }
}

/// The tries of a text; none where it was not written here.
pub fn read(text: &str, names: &mut Names) -> Option<Vec<Try>> {
    let mut left = Left(Some(text).filter(|text| !text.is_empty()));
    let lines = memchr_iter(b'\n', text.as_bytes()).count();
    let mut tries = Vec::with_capacity(if left.0.is_some() { lines + 1 } else { 0 });
    while left.0.is_some() {
        tries.push(one(&mut left, names)?);
    }
    Some(tries)
}

/// What is left to be read; nothing behind the last line.
struct Left<'a>(Option<&'a str>);

impl<'a> Left<'a> {
    /// The next field, and whether its line goes on behind it.
    fn field(&mut self) -> Option<(&'a str, bool)> {
        let text = self.0?;
        let end = memchr2(b'\t', b'\n', text.as_bytes());
        let Some((end, sign)) = end.and_then(|end| Some((end, *text.as_bytes().get(end)?))) else {
            self.0 = None;
            return Some((text, false));
        };
        self.0 = text.get(end + 1..);
        Some((text.get(..end)?, sign == b'\t'))
    }

    /// A field behind which its line goes on.
    fn inner(&mut self) -> Option<&'a str> {
        self.field().and_then(|(field, on)| on.then_some(field))
    }
}

fn one(left: &mut Left, names: &mut Names) -> Option<Try> {
    let skill = names.of(&unescaped(left.inner()?)?);
    let (right, helped) = match left.inner()? {
        "00" => (false, false),
        "01" => (false, true),
        "10" => (true, false),
        "11" => (true, true),
        _ => return None,
    };
    let seconds = perhaps(left.inner()?).ok()?;
    let (options, on) = left.field()?;
    let options = perhaps(options).ok()?;
    let mistake = if on {
        let (mistake, on) = left.field()?;
        if on {
            return None;
        }
        Some(names.of(&unescaped(mistake)?))
    } else {
        None
    };
    Some(Try {
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
    if memchr(b'\\', text.as_bytes()).is_none() {
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
    use proptest::prelude::*;

    fn any_try() -> impl Strategy<Value = Try> {
        let name = "[a-z \\\\\t\n]{0,6}";
        let truths = (any::<bool>(), any::<bool>());
        let numbers = (any::<Option<u32>>(), any::<Option<u8>>());
        let all = (name, truths, numbers, prop::option::of(name));
        all.prop_map(
            |(skill, (right, helped), (seconds, options), mistake)| Try {
                skill: skill.into(),
                right,
                helped,
                seconds,
                options,
                mistake: mistake.map(Into::into),
            },
        )
    }

    proptest! {
        #[test]
        fn what_is_written_is_read_again(tries in prop::collection::vec(any_try(), 0..6)) {
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

    #[test]
    fn a_mistake_stands_behind_the_rest() {
        let wrong = Try {
            skill: "cable-drop".into(),
            right: false,
            helped: true,
            seconds: Some(31),
            options: None,
            mistake: Some("one-way".into()),
        };
        assert_eq!(written(&[wrong]), "cable-drop\t01\t31\t\tone-way");
    }
}

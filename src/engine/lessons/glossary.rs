//! The glossary: what the words of the trade mean, how one is looked up by a few
//! letters, and which of them stand in a text.

use std::collections::BTreeSet;

use super::fault::nearest;
use super::fields::{Fields, Reader, Text, text};
use super::node::Block;
use super::source::Sources;

/// How many words are found that are only like the one that was typed.
const MISSES: usize = 3;

/// A word of the trade.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Word {
    /// The word, with a bracket where it has two meanings: `drawdown (tank)`.
    pub term: String,
    /// What else it is called, and how else it is written.
    pub also: Vec<String>,
    /// What it means.
    pub means: String,
    /// What to watch for.
    pub care: Option<String>,
    /// Words that stand near it.
    pub near: Vec<String>,
}

impl Word {
    /// The word as it stands in a text, without its bracket.
    pub fn spoken(&self) -> &str {
        bare(&self.term)
    }

    /// Every way in which it is written, lowercase.
    fn names(&self) -> impl Iterator<Item = String> {
        let own = std::iter::once(self.term.as_str()).chain(self.also.iter().map(String::as_str));
        own.flat_map(|name| [name.to_lowercase(), bare(name).to_lowercase()])
    }
}

/// All words, in their order.
#[derive(Debug, Clone, Default)]
pub struct Glossary {
    words: Vec<Word>,
    source: String,
}

/// What was found for some letters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Nearness {
    /// The word itself, or another name of it.
    Same,
    /// A name begins so.
    Begins,
    /// A later word of a name begins so.
    Inside,
    /// The letters stand in what it means.
    Meant,
}

impl Glossary {
    /// All words, in alphabetical order.
    pub fn words(&self) -> &[Word] {
        &self.words
    }

    /// Where the words come from.
    pub fn source(&self) -> &str {
        &self.source
    }

    /// The word of exactly this name, or these where it has two meanings.
    pub fn exactly(&self, name: &str) -> Vec<&Word> {
        let wanted = plain(name);
        let own = |word: &&Word| word.term.to_lowercase() == wanted;
        if let Some(word) = self.words.iter().find(own) {
            return vec![word];
        }
        let singular = ["", "s", "es"].map(|ending| wanted.strip_suffix(ending));
        let named = |word: &&Word| {
            word.names()
                .any(|name| singular.contains(&Some(name.as_str())))
        };
        self.words.iter().filter(named).collect()
    }

    /// The words that some letters lead to, the nearest first; where none begins so,
    /// those that are written much like it.
    pub fn find(&self, typed: &str) -> Vec<&Word> {
        let wanted = plain(typed);
        if wanted.is_empty() {
            return self.words.iter().collect();
        }
        let mut found: Vec<(Nearness, &Word)> = self
            .words
            .iter()
            .filter_map(|word| Some((nearness(word, &wanted)?, word)))
            .collect();
        found.sort_by_key(|(near, _)| *near);
        if found.iter().any(|(near, _)| *near < Nearness::Meant) {
            return found.into_iter().map(|(_, word)| word).collect();
        }
        let meant = found.into_iter().map(|(_, word)| word);
        self.misses(&wanted).into_iter().chain(meant).collect()
    }

    /// The words that are written much like one that is not there.
    pub fn misses(&self, typed: &str) -> Vec<&Word> {
        let wanted = plain(typed);
        let names: Vec<(String, &Word)> = self
            .words
            .iter()
            .flat_map(|word| word.names().map(move |name| (name, word)))
            .collect();
        let mut found: Vec<&Word> = Vec::new();
        for near in nearest(&wanted, names.iter().map(|(name, _)| name.as_str())) {
            for (_, word) in names.iter().filter(|(name, _)| *name == near) {
                if !found.contains(word) {
                    found.push(word);
                }
            }
        }
        found.truncate(MISSES);
        found
    }

    /// The words that stand in a text, in the order in which they come first; of two
    /// that begin at one place, the longer.
    pub fn standing_in(&self, text: &str) -> Vec<&Word> {
        let text = text.to_lowercase();
        let mut spans: Vec<(usize, usize, usize)> = Vec::new();
        for (at, word) in self.words.iter().enumerate() {
            let names: BTreeSet<String> = word.names().collect();
            for name in names {
                let places = text.match_indices(name.as_str());
                let whole = places.filter_map(|(start, _)| {
                    let end = end_of_word(&text, start, name.len())?;
                    Some((start, end, at))
                });
                spans.extend(whole);
            }
        }
        // The longest first at each place; what lies inside a longer word is part of it.
        spans.sort_by(|a, b| a.0.cmp(&b.0).then(b.1.cmp(&a.1)).then(a.2.cmp(&b.2)));
        let mut found: Vec<usize> = Vec::new();
        let (mut from, mut to) = (0, 0);
        for (start, end, at) in spans {
            let same = (start, end) == (from, to);
            if start < to && !same {
                continue;
            }
            (from, to) = (start, end);
            if !found.contains(&at) {
                found.push(at);
            }
        }
        found
            .into_iter()
            .filter_map(|at| self.words.get(at))
            .collect()
    }
}

/// Where a name that begins at a place ends, with an ending of the plural; none where it
/// is a part of another word.
fn end_of_word(text: &str, start: usize, long: usize) -> Option<usize> {
    let letter = |c: char| c.is_alphanumeric();
    if text[..start].chars().next_back().is_some_and(letter) {
        return None;
    }
    let end = start + long;
    let rest = &text[end..];
    ["", "s", "es", "ed"].iter().find_map(|ending| {
        let after = rest.strip_prefix(ending)?;
        (!after.chars().next().is_some_and(letter)).then(|| end + ending.len())
    })
}

fn nearness(word: &Word, wanted: &str) -> Option<Nearness> {
    let mut best = None;
    let mut take = |near: Nearness| {
        if best.is_none_or(|known| near < known) {
            best = Some(near);
        }
    };
    for name in word.names() {
        if name == wanted {
            take(Nearness::Same);
        } else if name.starts_with(wanted) {
            take(Nearness::Begins);
        } else if name
            .split([' ', '-', '('])
            .any(|part| part.starts_with(wanted))
        {
            take(Nearness::Inside);
        }
    }
    // One or two letters stand in everything.
    if wanted.chars().count() > 2 && word.means.to_lowercase().contains(wanted) {
        take(Nearness::Meant);
    }
    best
}

/// A name without its bracket.
fn bare(name: &str) -> &str {
    name.split_once(" (").map_or(name, |(word, _)| word)
}

/// What was typed, as it is compared.
fn plain(typed: &str) -> String {
    typed
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ")
        .to_lowercase()
}

/// Reads the file of the glossary.
pub(super) fn read(reader: &mut Reader<'_>, file: &Block, sources: &Sources) -> Glossary {
    let mut fields = Fields::new(file, "the glossary");
    super::format_of(reader, &mut fields);
    let source = fields
        .needed(reader, "source")
        .map_or_else(String::new, |text| sources.cite(reader, &text));
    let mut words: Vec<Word> = Vec::new();
    let mut near: Vec<Text> = Vec::new();
    for block in fields.blocks(reader, "word") {
        let Some((word, named)) = read_word(reader, block, &words) else {
            continue;
        };
        words.push(word);
        near.extend(named);
    }
    fields.finish(reader);
    for named in near {
        if words.iter().all(|word| word.term != named.text) {
            let message = format!("there is no word \"{}\"", named.text);
            let close = nearest(&named.text, words.iter().map(|word| word.term.as_str()));
            let fault = reader.fault(&named.span, message);
            fault.remedy = Some(match close.first() {
                Some(best) => format!("write \"{best}\""),
                None => "add a [[word]] for it, or take it out".to_owned(),
            });
            fault.has = close;
        }
    }
    words.sort_by_key(|word| word.term.to_lowercase());
    Glossary { words, source }
}

/// One `[[word]]`, with the words that it points to and where it does so.
fn read_word(reader: &mut Reader<'_>, block: &Block, before: &[Word]) -> Option<(Word, Vec<Text>)> {
    let mut fields = Fields::new(block, "the word");
    let term = fields.needed(reader, "term")?;
    fields.what = format!("word \"{}\"", term.text);
    let also = texts(reader, &mut fields, "also");
    let means = fields.needed(reader, "means");
    let care = fields.string(reader, "care");
    let near = texts(reader, &mut fields, "near");
    fields.finish(reader);
    for name in std::iter::once(&term).chain(&also) {
        let wanted = name.text.to_lowercase();
        let holder = before.iter().find(|word| {
            let mut own = std::iter::once(&word.term).chain(&word.also);
            own.any(|known| known.to_lowercase() == wanted)
        });
        if let Some(holder) = holder {
            let message = format!("\"{}\" is the word \"{}\" already", name.text, holder.term);
            let remedy =
                "take one of the two out, or tell them apart by a bracket: drawdown (tank)";
            reader.refuse(&name.span, message, remedy);
            return None;
        }
    }
    let word = Word {
        term: term.text,
        also: also.into_iter().map(|name| name.text).collect(),
        means: means?.text,
        care,
        near: near.iter().map(|name| name.text.clone()).collect(),
    };
    Some((word, near))
}

/// A list of texts with their places.
fn texts(reader: &mut Reader<'_>, fields: &mut Fields<'_>, key: &'static str) -> Vec<Text> {
    let mut found = Vec::new();
    for item in fields.list(reader, key).unwrap_or_default() {
        match text(item) {
            Some(text) => found.push(text),
            None => fields.wrong_kind(reader, key, item, "texts in quotes"),
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    fn glossary() -> Glossary {
        let word = |term: &str, also: &[&str], means: &str| Word {
            term: term.into(),
            also: also.iter().map(|name| (*name).to_owned()).collect(),
            means: means.into(),
            care: None,
            near: Vec::new(),
        };
        Glossary {
            words: vec![
                word("cut-in", &[], "starts the pump"),
                word("drawdown (tank)", &[], "water that a tank gives"),
                word("drawdown (well)", &[], "how far the water falls"),
                word("drop pipe", &[], "holds the pump"),
                word("PE", &["polyethylene"], "black plastic pipe"),
                word("tank tee", &[], "joins tank and switch"),
            ],
            source: String::new(),
        }
    }

    fn terms(found: Vec<&Word>) -> Vec<&str> {
        found.into_iter().map(|word| word.term.as_str()).collect()
    }

    #[test]
    fn a_word_with_two_meanings_is_found_with_both() {
        let glossary = glossary();
        let both = ["drawdown (tank)", "drawdown (well)"];
        assert_eq!(terms(glossary.exactly("Drawdown")), both);
        assert_eq!(
            terms(glossary.exactly("drawdown (well)")),
            ["drawdown (well)"]
        );
        assert_eq!(terms(glossary.find("draw")), both);
        assert_eq!(terms(glossary.exactly("Drop pipes")), ["drop pipe"]);
    }

    #[test]
    fn another_name_a_later_word_and_a_near_miss_are_found() {
        let glossary = glossary();
        assert_eq!(terms(glossary.find("polyeth")), ["PE"]);
        assert_eq!(terms(glossary.find("tee")), ["tank tee"]);
        assert_eq!(
            terms(glossary.find("drawdwon (tank)"))[0],
            "drawdown (tank)"
        );
        assert_eq!(terms(glossary.find("plastic")), ["PE"]);
        assert!(glossary.find("qqqq").is_empty());
        assert_eq!(glossary.find("  ").len(), 6);
    }

    #[test]
    fn words_are_found_where_they_stand_and_not_inside_others() {
        let glossary = glossary();
        let text = "Drop pipes of PE. At cut-in the drawdown is read. A pet drops.";
        assert_eq!(
            terms(glossary.standing_in(text)),
            [
                "drop pipe",
                "PE",
                "cut-in",
                "drawdown (tank)",
                "drawdown (well)"
            ]
        );
        assert!(
            glossary
                .standing_in("cut-inward, tank teeth, spent")
                .is_empty()
        );
    }
}

//! A paper as a file for answering on screen. It has no place for a seed, a value, a
//! mistake or an answer: what is not there cannot be read out of it.

use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};

use super::make_up::{nth, owner};
use super::paper::{Head, Paper, PaperItem};
use super::printed::{FORMAT, short};
use super::roster::Person;
use crate::figures::{self, Frame, Signs, View};
use crate::marking::{read_match, read_order, read_pick};
use crate::problems::{Asks, Line, TRAINING};
use crate::quantities::{DecimalSign, Unit, read_for};

/// What the file says it is.
const KIND: &str = "pumpwright paper";

/// A paper for the screen.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SitPaper {
    /// What the file is.
    pub kind: String,
    /// The format of the file.
    pub format: u32,
    /// The head.
    pub head: Head,
    /// Whose it is.
    pub person: Person,
    /// The items in the order of the paper.
    pub items: Vec<SitItem>,
}

/// An item for the screen.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SitItem {
    /// Its number on the paper, from one.
    pub number: usize,
    /// The code without what draws it again: `cable-drop.2us`.
    pub code: String,
    /// The job in a few words.
    pub title: String,
    /// The caution before the numbers.
    pub caution: Option<String>,
    /// The job, as paragraphs, with its house rules and sheets.
    pub text: Vec<String>,
    /// The figure, as the sheet shows it before it is handed in.
    pub figure: Option<SitFigure>,
    /// The lines that are asked.
    pub lines: Vec<SitLine>,
    /// The marks of the item.
    pub marks: u32,
}

/// A figure for the screen.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SitFigure {
    /// Drawn in cells, row by row.
    pub drawn: Vec<String>,
    /// As a list, to hear.
    pub list: Vec<String>,
}

/// A line that is asked.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SitLine {
    /// Its number in the item, from one.
    pub number: usize,
    /// What is asked.
    pub label: String,
    /// The unit beside the blank.
    pub unit: Option<String>,
    /// How it is to be written.
    pub form: String,
    /// The marks that it bears.
    pub marks: u32,
    /// How it is filled in.
    pub asks: SitAsks,
}

impl SitLine {
    /// Why what is written here cannot be read, if it cannot: never whether it is right. A row
    /// is looked up in a table that the paper does not have; it is not read here.
    pub fn unreadable(&self, typed: &str, decimal: DecimalSign) -> Option<String> {
        let typed = typed.trim();
        if typed.is_empty() {
            return None;
        }
        match &self.asks {
            SitAsks::Row => None,
            SitAsks::Figure => {
                let unit = Unit::parse(self.unit.as_deref()?).ok()?;
                let cannot = read_for(typed, decimal, &unit).err()?;
                Some(cannot.to_string())
            }
            SitAsks::Pick(offers) => {
                let offers = offers
                    .iter()
                    .map(|own| (own.letter.as_str(), own.text.as_str()));
                read_pick(typed, &offers.collect::<Vec<_>>()).err()
            }
            SitAsks::Order(jobs) => read_order(typed, jobs.len()).err(),
            SitAsks::Match { parts, meanings } => {
                let letters: Vec<&str> = meanings.iter().map(|own| own.letter.as_str()).collect();
                read_match(typed, parts.len(), &letters).err()
            }
        }
    }

    /// Whether a job or a part stands on each row of it, so that one sign for each is written.
    pub const fn is_arranged(&self) -> bool {
        matches!(self.asks, SitAsks::Order(_) | SitAsks::Match { .. })
    }
}

/// How a line is filled in.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase", deny_unknown_fields)]
pub enum SitAsks {
    /// By a figure with its unit.
    Figure,
    /// By the name or the figure of a row of a table.
    Row,
    /// By the letter of an offer.
    Pick(Vec<Lettered>),
    /// By the numbers of the jobs from top to bottom, `-` for one left out.
    Order(Vec<String>),
    /// By the letters of the meanings for the parts from top to bottom.
    Match {
        /// The parts.
        parts: Vec<String>,
        /// The meanings.
        meanings: Vec<Lettered>,
    },
}

/// An offer or a meaning with its letter.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Lettered {
    /// The letter.
    pub letter: String,
    /// The text.
    pub text: String,
}

impl SitPaper {
    /// The file of a paper.
    pub fn of(paper: &Paper) -> Self {
        Self {
            kind: KIND.to_owned(),
            format: FORMAT,
            head: paper.head.clone(),
            person: paper.person.clone(),
            items: paper.items.iter().map(item).collect(),
        }
    }

    /// The text of the file.
    pub fn text(&self) -> String {
        super::json(self)
    }

    /// Reads the text of a file.
    ///
    /// # Errors
    /// A sentence without the name of the file: what is wrong with it, and what to do.
    pub fn read(text: &str) -> Result<Self, String> {
        let paper: Self = super::read_json(text, KIND, "paper for the screen")?;
        if paper.kind != KIND {
            return Err("is no paper for the screen; name one that the instructor gave".to_owned());
        }
        // Files are named by both, and every text goes to somebody's screen.
        let plain = serde_json::from_str(text).is_ok_and(|value| is_plain(&value));
        let number = &paper.person.id;
        let is_number = is_name(owner(number)) && nth(number).is_some();
        if !is_name(&paper.head.plan) || !is_number || !plain {
            return Err(
                "holds what no paper of this program does; ask for the file once more".to_owned(),
            );
        }
        Ok(paper)
    }

    /// The sum by which answers know their paper.
    pub fn sum(&self) -> String {
        short(&Sha256::digest(self.text().as_bytes()))
    }
}

/// Whether a plan's or a person's id can stand in the name of a file.
fn is_name(id: &str) -> bool {
    let letter = |c: char| c.is_ascii_alphanumeric() || matches!(c, '-' | '_');
    !id.is_empty() && id.chars().all(letter)
}

/// Whether no text of a file moves a terminal about.
fn is_plain(value: &serde_json::Value) -> bool {
    match value {
        serde_json::Value::String(text) => !text.chars().any(char::is_control),
        serde_json::Value::Array(values) => values.iter().all(is_plain),
        serde_json::Value::Object(fields) => fields.values().all(is_plain),
        _ => true,
    }
}

fn item(item: &PaperItem) -> SitItem {
    let problem = &item.problem;
    let rules = problem
        .rules
        .iter()
        .map(|rule| format!("House rule: {}", rule.text));
    let training = problem.training.then(|| TRAINING.to_owned());
    let text = problem.story.iter().cloned().chain(rules);
    let text = text.chain(problem.sheets.iter().cloned()).chain(training);
    let scene = figures::scene(problem, &View::before(problem), Frame::SCREEN);
    SitItem {
        number: item.number,
        code: problem.shown_code(),
        title: problem.family.title.clone(),
        caution: problem.caution(),
        text: text.collect(),
        figure: scene.map(|scene| SitFigure {
            drawn: figures::cells(&scene, Signs::Drawn).rows(),
            list: figures::list(&scene),
        }),
        lines: problem
            .asked()
            .map(|(number, own)| line(number, own))
            .collect(),
        marks: item.marks,
    }
}

fn line(number: usize, line: &Line) -> SitLine {
    let lettered = |list: &[crate::problems::Offer]| {
        let list = list.iter().map(|offer| Lettered {
            letter: offer.mark.clone(),
            text: offer.text.clone(),
        });
        list.collect::<Vec<_>>()
    };
    let asks = match &line.asks {
        Asks::Nothing | Asks::Figure => SitAsks::Figure,
        Asks::Row => SitAsks::Row,
        Asks::Pick { offers, .. } => SitAsks::Pick(lettered(offers)),
        Asks::Order { cards } => {
            SitAsks::Order(cards.iter().map(|card| card.text.clone()).collect())
        }
        Asks::Match { parts, meanings } => SitAsks::Match {
            parts: parts.iter().map(|(part, _)| part.clone()).collect(),
            meanings: lettered(meanings),
        },
    };
    SitLine {
        number,
        label: line.label.clone(),
        unit: line.unit.as_ref().map(|unit| unit.symbol().to_owned()),
        form: line.form.clone(),
        marks: line.marks,
        asks,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn why(unit: Option<&str>, asks: SitAsks, typed: &str) -> Option<String> {
        let line = SitLine {
            number: 1,
            label: String::new(),
            unit: unit.map(str::to_owned),
            form: String::new(),
            marks: 1,
            asks,
        };
        line.unreadable(typed, DecimalSign::Point)
    }

    fn lettered(texts: &[&str]) -> Vec<Lettered> {
        let texts = ('a'..).zip(texts);
        texts
            .map(|(letter, text)| Lettered {
                letter: letter.to_string(),
                text: (*text).to_owned(),
            })
            .collect()
    }

    #[test]
    fn what_cannot_be_read_is_told_for_every_way_to_ask() {
        let figure = |typed: &str| why(Some("ft"), SitAsks::Figure, typed);
        assert_eq!((figure(""), figure("38 m")), (None, None));
        assert_eq!(
            figure("abc").as_deref(),
            Some(
                "cannot read this as a quantity: \"abc\" is no number (character 1); write the number first, then its unit"
            )
        );
        let pick = |typed: &str| why(None, SitAsks::Pick(lettered(&["Yes", "No"])), typed);
        assert_eq!((pick("B"), pick("yes.")), (None, None));
        assert_eq!(
            pick("80").as_deref(),
            Some("cannot read 80 as an offer: write one letter, a to b, or the words of one")
        );
        let jobs = || SitAsks::Order(["one", "two", "three"].map(str::to_owned).to_vec());
        assert_eq!(
            (why(None, jobs(), "2 - 1"), why(None, jobs(), "312")),
            (None, None)
        );
        assert_eq!(
            why(None, jobs(), "2 2 1").as_deref(),
            Some("2 is written twice: give each job its own number")
        );
        let pairs = |typed: &str| {
            let parts = vec!["pump".to_owned(), "motor".to_owned()];
            let meanings = lettered(&["lifts", "turns", "holds"]);
            why(None, SitAsks::Match { parts, meanings }, typed)
        };
        assert_eq!(pairs("ab"), None);
        assert_eq!(
            pairs("a d").as_deref(),
            Some("cannot read d as a letter: write a to c")
        );
        assert_eq!(why(None, SitAsks::Row, "anything"), None);
    }
}

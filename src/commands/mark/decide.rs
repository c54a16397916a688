//! What the instructor decides beside the marks: items that count for nobody, marks set by
//! hand; and taking such a decision back.

use std::collections::BTreeMap;

use pumpwright_engine::classes::marks::{ClassMarks, Decisions, Dropped, Judged, Ready, State};

use super::super::pair;
use crate::classroom::PaperFolder;
use crate::cli::Mark;
use crate::failure::{Failure, shown};

/// More half marks than any item bears, so that no figure runs over.
const HALVES: f64 = 1e6;

/// How an item is dropped.
const DROP: &str = "ITEM=REASON";
/// How an item is judged.
const JUDGE: &str = "PAPER.ITEM=MARKS REASON";

/// What was decided before, with what is asked for now.
#[derive(Default)]
pub(super) struct Decided {
    /// Everything that stands.
    pub decisions: Decisions,
    /// A sentence for each decision that is taken back.
    pub notes: Vec<String>,
    /// The papers and items that are judged now.
    judged: Vec<(String, usize)>,
}

impl Decided {
    /// Reads what is asked for, and keeps it.
    ///
    /// # Errors
    /// When it is not in order, or cannot be kept.
    pub(super) fn of(
        asked: &Mark,
        folder: &PaperFolder,
        items: usize,
        ready: &BTreeMap<String, Ready>,
    ) -> Result<Self, Failure> {
        let mut own = Self {
            decisions: folder.decisions()?,
            ..Self::default()
        };
        for given in &asked.drop {
            own.drop(given, items)?;
        }
        for given in &asked.judge {
            own.judge(given, items, ready)?;
        }
        if !asked.drop.is_empty() || !asked.judge.is_empty() {
            folder.keep_decisions(&own.decisions)?;
        }
        Ok(own)
    }

    fn drop(&mut self, given: &str, items: usize) -> Result<(), Failure> {
        let (number, reason) = pair(given, DROP)?;
        let item = item(number, items)?;
        let dropped = &mut self.decisions.dropped;
        let before = dropped.len();
        dropped.retain(|known| known.item != item);
        let reason = reason.trim();
        if reason.is_empty() {
            self.notes.push(if dropped.len() < before {
                format!("item {item} counts again")
            } else {
                format!("item {item} was not dropped; nothing is taken back")
            });
        } else {
            dropped.push(Dropped {
                item,
                reason: reason.to_owned(),
            });
        }
        Ok(())
    }

    fn judge(
        &mut self,
        given: &str,
        items: usize,
        ready: &BTreeMap<String, Ready>,
    ) -> Result<(), Failure> {
        let (place, rest) = pair(given, JUDGE)?;
        let (paper, number) = place.rsplit_once('.').unwrap_or((place, ""));
        let Some(of_paper) = ready.get(paper) else {
            return Err(no_paper(paper, ready));
        };
        let item = item(number, items)?;
        let place = (paper.to_owned(), item);
        let judged = &mut self.decisions.judged;
        let same = |known: &Judged| known.paper == paper && known.item == item;
        if rest.trim().is_empty() {
            let before = judged.len();
            judged.retain(|known| !same(known));
            self.judged.retain(|known| *known != place);
            self.notes.push(if judged.len() < before {
                format!("item {item} of paper {paper} has the marks again that are worked out")
            } else {
                format!("item {item} of paper {paper} was not judged; nothing is taken back")
            });
            return Ok(());
        }
        let bears = of_paper.printed.bears(item);
        let (marks, reason) = rest.trim().split_once(' ').unwrap_or((rest.trim(), ""));
        let halves = halves_of(marks)?;
        if halves > f64::from(bears) * 2.0 {
            return Err(Failure::Input(format!(
                "item {item} of paper {paper} bears {bears} marks; {marks} are more"
            )));
        }
        let reason = reason.trim();
        if reason.is_empty() {
            return Err(Failure::Input(format!(
                "\"{}\" gives no reason; write it as {JUDGE}, or {paper}.{item}= alone to take the marks back",
                shown(given)
            )));
        }
        judged.retain(|known| !same(known));
        judged.push(Judged {
            paper: paper.to_owned(),
            item,
            halves: halves as u32,
            reason: reason.to_owned(),
        });
        self.judged.push(place);
        Ok(())
    }

    /// A sentence for each paper that is judged now and of which nothing came in yet.
    pub(super) fn waiting(&self, class: &ClassMarks) -> Vec<String> {
        let is_in = |paper: &str| {
            let mut people = class.people.iter();
            people.any(|own| own.person.id == paper && own.state != State::NotIn)
        };
        let waiting = self.judged.iter().filter(|(paper, _)| !is_in(paper));
        let said = waiting.map(|(paper, item)| {
            format!(
                "paper {paper} has nothing in yet; what item {item} is judged counts once it is in"
            )
        });
        said.collect()
    }
}

/// The number of an item of the plan.
fn item(text: &str, items: usize) -> Result<usize, Failure> {
    let number = text.trim().parse::<usize>().ok();
    number
        .filter(|number| (1..=items).contains(number))
        .ok_or_else(|| {
            Failure::Input(format!(
                "there is no item \"{}\"; the plan has items 1 to {items}",
                shown(text)
            ))
        })
}

/// Marks, counted in halves.
fn halves_of(marks: &str) -> Result<f64, Failure> {
    let number = marks.replace(',', ".").parse::<f64>().ok();
    let halves = number.map(|marks| marks * 2.0);
    let halves = halves.filter(|halves| halves.fract() == 0.0 && (0.0..=HALVES).contains(halves));
    halves.ok_or_else(|| {
        Failure::Input(format!(
            "\"{}\" are no marks; write whole or half ones, as in 2.5",
            shown(marks)
        ))
    })
}

/// Says that there is no such paper, and which there are.
fn no_paper(paper: &str, ready: &BTreeMap<String, Ready>) -> Failure {
    let there = match (ready.first_key_value(), ready.last_key_value()) {
        (Some((first, _)), Some((last, _))) if first != last => {
            format!("; it has {first} to {last}")
        }
        (Some((only, _)), _) => format!("; it has {only} alone"),
        _ => String::new(),
    };
    Failure::Input(format!(
        "there is no paper \"{}\" in this class{there}",
        shown(paper)
    ))
}

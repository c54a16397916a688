//! The key: each problem once, worked, with the marks of every step at the right edge.
//! For the instructor; no part of it stands on a paper.

use pumpwright_engine::problems::{Asks, Problem, SetLine, WorkedLine, typeset, working};
use serde::Serialize;

use super::formula::{Part, Parts, parts};
use super::head::{Dated, Head, HeadData};
use super::text::{clean, marks};
use super::typesetter::{PdfFault, Template, printable};

/// A key.
#[derive(Debug, Clone, PartialEq)]
pub struct Key {
    /// What stands over every page; a name and a number are not printed.
    pub head: Head,
    /// The problems, each once.
    pub items: Vec<KeyItem>,
}

/// A problem with its solution.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct KeyItem {
    /// Where it stands: "Paper 019, problem 3".
    pub place: String,
    /// Whether it opens a page: the first of a paper. Pages that are opened are set on several
    /// cores, and a paper's key can be taken out.
    pub opens: bool,
    /// The job.
    pub title: String,
    /// The whole code, which draws it again; of a sealed problem, which no code draws, its
    /// face.
    pub code: String,
    /// What can hurt where such work is done.
    pub cautions: Vec<String>,
    /// The story, as paragraphs.
    pub story: Vec<String>,
    /// The house rules that the story does not print.
    pub rules: Vec<String>,
    /// Its steps.
    pub steps: Vec<KeyStep>,
    /// "4 marks".
    pub marks_said: String,
    /// What the figure is good for on the job.
    pub on_the_job: String,
    /// What varies by place or maker, with the day of each sheet; empty where nothing does.
    pub varies: String,
    /// Whether figures made for training stand in it.
    #[serde(skip)]
    pub training: bool,
}

/// A step of the working.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct KeyStep {
    /// The number of its line on the paper; none where no line asks it.
    pub number: Option<usize>,
    /// What it finds; empty for a step that only says what to do.
    pub label: String,
    /// The answer as it is written.
    pub answer: String,
    /// Of a choice, an order or a match: the whole right answer, a line each.
    pub right: Vec<String>,
    words: Parts,
    numbers: Vec<Parts>,
    /// The principle, or what to do.
    pub says: String,
    /// Why it is done or rounded so.
    pub why: String,
    /// Its marks; empty where it bears none.
    pub marks: String,
}

impl KeyItem {
    /// A drawn problem with its solution. `place` says where it stands.
    pub fn of(problem: &Problem, place: String) -> Self {
        let lines = working(problem).into_iter().zip(typeset(problem));
        Self {
            place,
            opens: false,
            title: problem.family.title.clone(),
            code: problem.shown_code(),
            cautions: problem
                .caution()
                .into_iter()
                .map(|text| clean(&text))
                .collect(),
            story: problem.story.iter().map(|text| clean(text)).collect(),
            rules: problem.rules.iter().map(|rule| rule.text.clone()).collect(),
            steps: lines
                .map(|(worked, set)| KeyStep::of(problem, worked, set))
                .collect(),
            marks_said: marks(problem.marks()),
            on_the_job: problem.on_the_job().unwrap_or_default(),
            varies: clean(&problem.varies().unwrap_or_default()),
            training: problem.training,
        }
    }
}

impl KeyStep {
    fn of(problem: &Problem, worked: WorkedLine, set: SetLine) -> Self {
        let asked = problem.asked().find(|(_, line)| line.id == worked.id);
        let asked = asked.filter(|_| !worked.id.is_empty());
        let (answer, right) = match asked.map(|(_, line)| &line.asks) {
            Some(Asks::Pick { .. }) => (format!("{}, {}", worked.typed, worked.text), Vec::new()),
            Some(asks @ (Asks::Order { .. } | Asks::Match { .. })) => (worked.typed, right(asks)),
            _ => (worked.text, Vec::new()),
        };
        Self {
            number: asked.map(|(number, _)| number),
            label: worked.label,
            answer,
            right,
            words: parts(set.words),
            numbers: set.numbers.into_iter().map(parts).collect(),
            says: worked.says,
            why: worked.why.unwrap_or_default(),
            marks: asked.map_or_else(String::new, |(_, line)| match line.marks {
                0 => String::new(),
                count => count.to_string(),
            }),
        }
    }

    /// The formulas of the step, each as the typesetter reads it, and read aloud.
    pub fn formulas(&self) -> impl Iterator<Item = (&str, &str)> {
        let lines = std::iter::once(&self.words).chain(&self.numbers);
        lines.flatten().filter_map(|part| match part {
            Part::Formula { math, said } => Some((math.as_str(), said.as_str())),
            Part::Prose { .. } => None,
        })
    }
}

/// An order or a match, told line by line.
fn right(asks: &Asks) -> Vec<String> {
    match asks {
        Asks::Order { cards } => {
            let mut placed: Vec<(usize, &str)> = cards
                .iter()
                .filter_map(|card| Some((card.place? + 1, card.text.as_str())))
                .collect();
            placed.sort_unstable();
            let placed = placed.into_iter().map(|(at, text)| format!("{at}  {text}"));
            let out = cards.iter().filter(|card| card.place.is_none());
            placed
                .chain(out.map(|card| format!("−  {}", card.text)))
                .collect()
        }
        Asks::Match { parts, meanings } => parts
            .iter()
            .filter_map(|(part, key)| {
                let meaning = meanings.get(*key)?;
                Some(format!("{}  {part}: {}", meaning.mark, meaning.text))
            })
            .collect(),
        _ => Vec::new(),
    }
}

#[derive(Serialize)]
struct Data<'a> {
    title: String,
    author: &'static str,
    format: &'static str,
    day: Option<Dated>,
    head: HeadData,
    items: &'a [KeyItem],
}

/// The key as a file.
///
/// # Errors
/// [`PdfFault`]: a title that cannot be printed, or a fault of this program.
pub fn key(key: &Key) -> Result<Vec<u8>, PdfFault> {
    let places = key.items.iter().map(|item| item.place.as_str());
    printable(places.chain([key.head.title.as_str()]))?;
    let training = key.items.iter().any(|item| item.training);
    super::typesetter::typeset(
        Template::Key,
        &Data {
            title: format!("Key: {}", clean(&key.head.title)),
            author: "pumpwright",
            format: key.head.format.name(),
            day: Dated::of(key.head.day),
            head: HeadData::of(&key.head, 0, training),
            items: &key.items,
        },
    )
}

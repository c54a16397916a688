//! The shapes that `--json` prints. They are promises to scripts: a field is
//! added, never changed or taken away, without a new `format`.

use pumpwright_engine::quantities::print;
use serde::Serialize;

/// The number of these shapes.
pub const FORMAT: u32 = 1;

/// A mark or number and the text that it stands for: printed as a pair of strings.
pub type Marked = (String, String);

/// A value in the unit that is printed beside it.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(untagged)]
pub enum Scalar {
    /// A figure.
    Number(f64),
    /// Yes or no.
    Truth(bool),
    /// A word, or the name of a row of a table.
    Text(String),
}

impl Scalar {
    /// A figure without the noise that arithmetic leaves in its last digits.
    pub fn figure(value: f64) -> Self {
        Self::Number(print::shortest(value).parse().unwrap_or(value))
    }
}

/// A problem.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Problem {
    /// See [`FORMAT`].
    pub format: u32,
    /// What draws it again.
    pub code: String,
    /// The family.
    pub family: String,
    /// The lesson of the family.
    pub lesson: String,
    /// What sort of work it is, a stable word.
    pub kind: String,
    /// The level.
    pub level: u8,
    /// `us` or `si`.
    pub units: String,
    /// What the job is about.
    pub title: String,
    /// The job; an empty line stands between paragraphs.
    pub text: String,
    /// What is given.
    pub givens: Vec<Given>,
    /// The figure beside the job, where values are read off one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub figure: Option<Figure>,
    /// The lines of the sheet.
    pub steps: Vec<Step>,
    /// The known mistakes that can be made here; with the working only.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub mistakes: Option<Vec<Mistake>>,
    /// The house rules that count here and that the job does not print.
    pub house_rules: Vec<HouseRule>,
    /// The jurisdiction sheets whose rows stand in it, each with its day.
    pub sheets: Vec<String>,
    /// What to do before the work, where it can hurt.
    pub cautions: Vec<String>,
    /// Where the figures come from.
    pub sources: Vec<String>,
}

/// Something given.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Given {
    /// Its name.
    pub name: String,
    /// What it is.
    pub label: String,
    /// Its value.
    pub value: Scalar,
    /// The unit of the value.
    pub unit: Option<String>,
    /// The value as the job prints it.
    pub text: String,
}

/// A figure, as the data that a drawing shows.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Figure {
    /// Which drawing it is.
    pub kind: String,
    /// What stands over it.
    pub title: String,
    /// What each point has.
    pub columns: Vec<FigureColumn>,
    /// The curves, or the things drawn side by side.
    pub series: Vec<Series>,
    /// Values marked on an axis.
    pub marks: Vec<FigureMark>,
}

/// One of the things that each point of a figure has.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FigureColumn {
    /// Its name.
    pub name: String,
    /// What it is.
    pub label: String,
    /// Its unit; none for words.
    pub unit: Option<String>,
}

/// A curve, or one of several things drawn side by side.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Series {
    /// Its name.
    pub name: String,
    /// Its points: for each column its value.
    pub points: Vec<Vec<Scalar>>,
}

/// A value marked on an axis of a figure.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FigureMark {
    /// What it is.
    pub label: String,
    /// The name of the column on whose axis it stands.
    pub column: String,
    /// The value.
    pub value: Scalar,
}

/// A line of the sheet.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Step {
    /// Its name.
    pub id: String,
    /// What is asked or done.
    pub label: String,
    /// The unit in which a bare number is read.
    pub unit: Option<String>,
    /// Whether an answer is asked.
    pub asked: bool,
    /// The marks that it bears.
    pub marks: u32,
    /// The offers, each its letter and text, in the order shown.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub offers: Option<Vec<Marked>>,
    /// The jobs to be put in order, each its number and text, in the order shown.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cards: Option<Vec<Marked>>,
    /// The parts to be matched, each its number and text, in the order shown.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub parts: Option<Vec<Marked>>,
    /// The meanings, each its letter and text, in the order shown.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub meanings: Option<Vec<Marked>>,
    /// The working, where it is asked for.
    #[serde(flatten)]
    pub working: Option<Working>,
}

/// The working of a line.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Working {
    /// In words or letters; a line break where it is broken.
    pub formula: String,
    /// With the numbers put in.
    pub numbers: String,
    /// Of a formula with a power or a root: the formula read aloud.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub aloud: Option<String>,
    /// The keys of a plain calculator for it, a line each.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub keys: Vec<String>,
    /// The value.
    pub value: Option<Scalar>,
    /// The answer as it is written; typed in, it earns the marks.
    pub text: String,
    /// How the answer is to be written.
    pub round: Option<String>,
    /// How far off an answer may be; none where no figure is asked.
    pub tolerance: Option<Tolerance>,
    /// Who published the formula; none where the step is plain arithmetic or no sum.
    pub source: Option<String>,
}

/// How far off an answer may be, in the unit of its line.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Tolerance {
    /// Below the value.
    pub below: f64,
    /// Above it.
    pub above: f64,
}

/// A known mistake.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Mistake {
    /// Its name.
    pub id: String,
    /// The line where it is made.
    pub step: String,
    /// The value that it gives there.
    pub value: Option<Scalar>,
    /// The value as it would be written.
    pub text: String,
    /// What is said to whoever makes it.
    pub hint: String,
}

/// A house rule that counts.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct HouseRule {
    /// Its name.
    pub name: String,
    /// Its name and value in words.
    pub text: String,
}

/// A marked response.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Answer {
    /// See [`FORMAT`].
    pub format: u32,
    /// The marks earned.
    pub score: f64,
    /// The marks that could be earned.
    pub out_of: f64,
    /// The lines that bear marks.
    pub steps: Vec<MarkedStep>,
}

/// A marked line.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct MarkedStep {
    /// The line.
    pub id: String,
    /// What was typed.
    pub given: String,
    /// What it was read as.
    pub read_as: Option<String>,
    /// The verdict, a stable word.
    pub verdict: String,
    /// The marks earned.
    pub marks: f64,
    /// What to look at.
    pub hint: Option<String>,
}

/// What a check found.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Check {
    /// See [`FORMAT`].
    pub format: u32,
    /// How many files were read.
    pub files: usize,
    /// How many families can be drawn.
    pub families: usize,
    /// What is wrong in the files.
    pub faults: Vec<Fault>,
    /// What the draws showed.
    pub surveys: Vec<Surveyed>,
}

/// A family at a level in a system, drawn many times.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Surveyed {
    /// The family.
    pub family: String,
    /// The level.
    pub level: u8,
    /// `us` or `si`.
    pub units: String,
    /// The house rule off its default, as `name=value`; none: all at their defaults.
    pub rule: Option<String>,
    /// Problems drawn.
    pub drawn: u32,
    /// Tries made.
    pub tries: u32,
    /// The share of tries that met every requirement.
    pub accepted: f64,
    /// The share of those in which a mistake would have been marked right.
    pub guarded: f64,
    /// What is to be mended.
    pub findings: Vec<String>,
}

/// Something wrong.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Fault {
    /// The file, or the family where no place in a file can be named.
    pub file: String,
    /// The line, from one.
    pub line: Option<usize>,
    /// The column, from one.
    pub column: Option<usize>,
    /// What is wrong.
    pub message: String,
    /// What to do.
    pub remedy: Option<String>,
    /// The whole message, with the excerpt.
    pub text: String,
}

/// The list of formulas.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Formulas {
    /// See [`FORMAT`].
    pub format: u32,
    /// `us` or `si`.
    pub units: String,
    /// The formulas.
    pub formulas: Vec<Formula>,
}

/// A formula, without numbers.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Formula {
    /// Its name.
    pub name: String,
    /// What it gives.
    pub title: String,
    /// The formula in letters, or the name of a law that no line holds.
    pub formula: String,
    /// What goes in.
    pub inputs: Vec<Port>,
    /// What comes out.
    pub gives: Port,
    /// Where it holds.
    pub valid: String,
    /// Who published it.
    pub source: String,
    /// What to do before the work, where it can hurt.
    pub caution: Option<String>,
}

/// An input or a result.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Port {
    /// Its name.
    pub name: String,
    /// The letter that stands for it.
    pub letter: String,
    /// What it is.
    pub label: String,
    /// Its unit in the formula; none where it is a word or a plain number.
    pub unit: Option<String>,
    /// The words that it can be.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub words: Option<Vec<String>>,
}

/// A formula with its numbers.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Worked {
    /// See [`FORMAT`].
    pub format: u32,
    /// `us` or `si`.
    pub units: String,
    /// The formula.
    #[serde(flatten)]
    pub formula: Formula,
    /// With the numbers put in; none for a law that no line holds.
    pub numbers: Option<String>,
    /// What was put in, in the order of the inputs.
    pub values: Vec<Named>,
    /// What comes out.
    pub result: Named,
}

/// A value by its name.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Named {
    /// The name of the input or result.
    pub name: String,
    /// The value.
    pub value: Scalar,
    /// The unit of the value.
    pub unit: Option<String>,
    /// The value as it is read.
    pub text: String,
}

/// Words of the trade.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Words {
    /// The format of this shape.
    pub format: u32,
    /// The words, the nearest first where some were asked for.
    pub words: Vec<Word>,
}

/// A word of the trade.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Word {
    /// The word, with a bracket where it has two meanings.
    pub term: String,
    /// What else it is called.
    pub also: Vec<String>,
    /// What it means.
    pub means: String,
    /// What to watch for.
    pub care: Option<String>,
    /// Words that stand near it.
    pub near: Vec<String>,
    /// The lessons that explain it.
    pub lessons: Vec<String>,
}

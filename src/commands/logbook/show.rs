//! Where somebody stands, and the last sheets: in plain lines, or as JSON.

use pumpwright_engine::entries::{Entry, moment};
use pumpwright_engine::learner::{Curriculum, Record, Stage, Standing, standing};
use pumpwright_engine::lessons::Library;

use super::{Desk, count, json, sheets, shown};
use crate::cli::Show;
use crate::console::Console;
use crate::failure::Failure;
use crate::logbook::{Sheet, times};
use crate::platform;

/// Room for the name of a family.
const NAMES: usize = 24;

/// Prints where somebody stands.
pub fn run(
    asked: &Show,
    desk: &Desk,
    library: &Library,
    console: &mut Console,
) -> Result<(), Failure> {
    let logbook = desk.there(console)?;
    let person = &desk.person;
    let history = logbook.history(person)?;
    let latest = logbook.latest(person, asked.count)?;
    let latest = latest.into_iter().map(|sheet: Sheet| sheet.entry).collect();
    let shown = Shown {
        desk,
        first: history.in_order().first().map(|first| first.when.seconds),
        sheets: history.len(),
        others: others(&logbook.persons()?, person),
        met: met(library, &Record::replay(&Curriculum::of(library), &history)),
        families: library.families().count(),
        latest,
    };
    if asked.json {
        console.json(&shown.as_json())
    } else {
        shown.print(console)
    }
}

/// Who else has sheets here.
fn others(persons: &[(String, usize)], person: &str) -> Vec<(String, usize)> {
    let others = persons.iter().filter(|(name, _)| name != person);
    others.cloned().collect()
}

/// A family that was met.
pub struct Met {
    /// Its id.
    pub id: String,
    /// Its lesson.
    pub lesson: String,
    /// Its title.
    pub title: String,
    /// Sheets of it that counted.
    pub responses: u32,
    /// Where the person stands in it now.
    pub standing: Standing,
}

/// The families that were met, in the order of the lessons.
fn met(library: &Library, record: &Record) -> Vec<Met> {
    let (milliseconds, zone) = platform::clock();
    let now = moment(milliseconds, zone);
    let curriculum = Curriculum::of(library);
    let families = curriculum.families().iter().enumerate();
    let met = families.filter_map(|(place, facts)| {
        let standing = standing(record, place, now);
        let family = library.family(&facts.id)?;
        (standing.stage != Stage::NotMet).then(|| Met {
            id: facts.id.clone(),
            lesson: facts.lesson.clone(),
            title: family.title.clone(),
            responses: record.families[place].responses,
            standing,
        })
    });
    met.collect()
}

/// The stage, in one stable word or two.
pub const fn stage(stage: Stage) -> &'static str {
    match stage {
        Stage::NotMet => "not met",
        Stage::Building => "building",
        Stage::Holding => "holding",
        Stage::Slipping => "slipping",
    }
}

/// What is shown.
pub struct Shown<'a> {
    /// Which logbook, and who.
    pub desk: &'a Desk,
    /// When the first sheet was handed in, in seconds since 1970.
    pub first: Option<i64>,
    /// How many sheets there are.
    pub sheets: usize,
    /// Who else has some.
    pub others: Vec<(String, usize)>,
    /// What was met.
    pub met: Vec<Met>,
    /// How many families there are.
    pub families: usize,
    /// The last sheets, the latest first.
    pub latest: Vec<Entry>,
}

impl Shown<'_> {
    fn as_json(&self) -> json::Logbook {
        json::Logbook::of(self)
    }

    fn print(&self, console: &mut Console) -> Result<(), Failure> {
        let person = shown(&self.desk.person);
        let file = self.desk.file()?.display().to_string();
        let span = match (self.first, self.latest.first()) {
            (Some(first), Some(last)) => format!(
                ", from {} to {}",
                day(first.saturating_mul(1000), last.zone),
                day(last.at, last.zone)
            ),
            _ => String::new(),
        };
        console.line(format_args!("{person}: {}{span}", sheets(self.sheets)))?;
        console.line(format_args!("in {file}"))?;
        for (name, count) in &self.others {
            console.line(format_args!(
                "also there: {}, {}",
                shown(name),
                sheets(*count)
            ))?;
        }
        if !self.met.is_empty() {
            console.gap()?;
            console.line("STANDING: the chance of a right line now, and its 80 % interval")?;
            for met in &self.met {
                let words = in_words(&met.standing);
                console.line(format_args!("  {:<NAMES$}  {words}", met.id))?;
            }
            let unmet = self.families.saturating_sub(self.met.len());
            let kinds = count(unmet, "kind of job was", "kinds of job were");
            console.line(format_args!("  {kinds} not met yet"))?;
        }
        if !self.latest.is_empty() {
            console.gap()?;
            console.line("LATEST")?;
        }
        for entry in &self.latest {
            let marks = format!("{} of {}", entry.marks, entry.out_of);
            console.line(format_args!(
                "  {}  {marks:<11}  {}  {}",
                times::wall(entry.at, entry.zone),
                entry.code,
                what_for(entry)
            ))?;
        }
        Ok(())
    }
}

fn day(at: i64, zone: i32) -> String {
    let wall = times::wall(at, zone);
    wall.split(' ').next().unwrap_or_default().to_owned()
}

fn what_for(entry: &Entry) -> String {
    format!("({}, {})", entry.purpose.name(), entry.place.name())
}

fn in_words(standing: &Standing) -> String {
    let share = |share: f64| (share * 100.0).round();
    let (low, high) = standing.between;
    let due = match standing.due_in {
        Some(0) => "; refresher due".to_owned(),
        Some(1) => "; refresher due tomorrow".to_owned(),
        Some(days) => format!("; refresher in {days} days"),
        None => String::new(),
    };
    format!(
        "{:<8}  {:>3} %, {} to {} %{due}",
        stage(standing.stage),
        share(standing.success),
        share(low),
        share(high)
    )
}

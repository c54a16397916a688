//! What the plan shows.

use std::collections::BTreeSet;

use pumpwright_engine::classes::plan::Item;

use super::state::{PlanSheet, SAMPLES};
use crate::keys::{Key, hint};
use crate::office::Pages;
use crate::page::{Cell, Drop, Entry, Page, Role};
use crate::theme::Sign;
use crate::words;

const NUMBER: usize = 6;
const SHORT: usize = 6;
const SAMPLE: usize = 10;

/// The page in so many columns.
pub fn page(sheet: &PlanSheet, width: usize) -> Page {
    let plan = &sheet.samples.plan;
    // In a narrow window the samples stand below the list.
    let beside = width >= 70;
    let samples = if beside { SAMPLES * SAMPLE } else { 0 };
    let family = width.saturating_sub(2 + NUMBER + 3 * SHORT + samples);
    let row = |texts: [&str; 5], samples: &[String], pen: bool| {
        let [number, job, level, marks, minutes] = texts;
        let mut cells = vec![
            Cell::columns(number, NUMBER),
            Cell::columns(job, family).hang(1),
            Cell::columns(level, SHORT),
            Cell::columns(marks, SHORT),
            Cell::columns(minutes, SHORT),
        ];
        let texts = samples
            .iter()
            .map(|text| Cell::columns(text.as_str(), SAMPLE).hang(1));
        cells.extend(texts.filter(|_| beside));
        Entry::of(Role::Line, cells)
            .signed(pen.then_some(Sign::Pen))
            .focused(pen)
    };
    let heads = ["sample A", "B", "C"].map(str::to_owned);
    let mut flow = vec![row(["item", "job", "level", "marks", "min"], &heads, false)];
    for (place, (_, item)) in plan.places().enumerate() {
        let pen = place == sheet.picked.pen;
        let answers: Vec<String> = (0..SAMPLES)
            .filter(|_| pen)
            .map(|sample| format!("{} ", sheet.answer(place, sample)))
            .collect();
        let (number, marks) = ((place + 1).to_string(), item.marks.to_string());
        let (level, minutes) = (level(item), item.minutes.to_string());
        let texts = [&*number, &job(item), &level, &marks, &minutes];
        flow.push(row(texts, &answers, pen));
    }
    let (marks, minutes) = (plan.marks().to_string(), plan.minutes().to_string());
    flow.push(row(["", "", "", &marks, &minutes], &[], false));
    flow.push(Entry::rule());
    if !beside {
        for sample in 0..SAMPLES {
            let cells = vec![
                Cell::columns(format!("sample {}", PlanSheet::letter(sample)), 10),
                Cell::rest(sheet.answer(sheet.picked.pen, sample)),
            ];
            flow.push(Entry::of(Role::Note, cells));
        }
    }
    flow.extend(fairness(sheet));
    Page {
        title: "PLAN".into(),
        place: plan.title.clone(),
        fixed: vec![head(sheet), Entry::rule().dropping(Drop::SecondHead)],
        flow,
        foot: foot(sheet),
        next: next(sheet),
        strip: vec![
            hint(Key::Enter, "see sample"),
            hint(Key::UpDown, "items"),
            hint(Key::Ask, "ask: X sit it, N next, I print"),
            hint(Key::Pages, "scroll"),
            hint(Key::Escape, "back"),
        ],
        ..Page::default()
    }
}

fn head(sheet: &PlanSheet) -> Entry {
    let plan = &sheet.samples.plan;
    let pass = plan.pass_marks().map_or_else(String::new, |pass| {
        format!("     Pass  {pass} of {}", plan.marks())
    });
    let text = format!(
        "Versions  {}     Marks by  {}{pass}",
        plan.versions,
        plan.marks_by.word()
    );
    Entry::text(Role::Head, text).dropping(Drop::SecondHead)
}

fn fairness(sheet: &PlanSheet) -> Vec<Entry> {
    let plan = &sheet.samples.plan;
    let tried = sheet.samples.papers.len();
    let mut entries = Vec::new();
    if let Some(spread) = sheet.samples.spread {
        let text = format!("Fairness: {spread}, tried on {tried} papers drawn for this page.");
        entries.push(Entry::text(Role::Note, text));
    }
    entries.push(Entry::text(Role::Note, pages(sheet)));
    let people = words::count(sheet.samples.people, "person", "people");
    let text = format!("For {people}. {}", plan.tables_allowed());
    entries.push(Entry::text(Role::Note, text).dropping(Drop::Counts));
    entries
}

/// What the printer will need.
fn pages(sheet: &PlanSheet) -> String {
    let people = words::count(sheet.samples.people, "person", "people");
    match &sheet.samples.pages {
        Pages::Awaited => "Working out pages.".to_owned(),
        Pages::Unknown(why) => why.clone(),
        Pages::Counted {
            least,
            most,
            together,
            about,
        } => {
            let one = if least == most {
                words::count(*most, "page", "pages")
            } else {
                format!("{least} to {most} pages")
            };
            let about = if *about { "about " } else { "" };
            format!("{one} a paper; for {people} {about}{together}, each on a leaf of its own.")
        }
    }
}

fn job(item: &Item) -> String {
    match (&item.lesson, item.families.first()) {
        (Some(lesson), _) => format!("{lesson}, one of {}", item.families.len()),
        (None, family) => family.map_or_else(String::new, |family| family.family.clone()),
    }
}

fn level(item: &Item) -> String {
    let levels: BTreeSet<u8> = item.families.iter().map(|family| family.level).collect();
    let levels: Vec<String> = levels.iter().map(u8::to_string).collect();
    levels.join(", ")
}

fn foot(sheet: &PlanSheet) -> Vec<Entry> {
    let cells = vec![
        Cell::columns("Take item", 12),
        Cell::blank(
            sheet.picked.number.text(),
            6,
            Some(sheet.picked.number.before()),
        ),
        Cell::rest(""),
    ];
    vec![Entry::rule(), Entry::of(Role::Text, cells)]
}

fn next(sheet: &PlanSheet) -> String {
    let letter = PlanSheet::letter(sheet.sample);
    match sheet.named() {
        Some(item) => format!(
            "Enter: see sample {letter} of item {}, as it will be printed",
            item + 1
        ),
        None => format!("Enter: write an item number first, 1 to {}", sheet.count()),
    }
}

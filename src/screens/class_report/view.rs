//! What the report shows: the turns to teach again first.

use pumpwright_engine::classes::report::{PlanFigures, Reliability, Sitting, Turn};

use super::state::ReportSheet;
use crate::keys::{Key, hint};
use crate::page::{Cell, Entry, Page, Role};
use crate::theme::Sign;
use crate::words;

const NUMBER: usize = 6;
const FAMILY: usize = 19;
const MANY: usize = 11;
const LIKELY: usize = 9;
const LABEL: usize = 13;
/// As wide as the longest bar.
const BAR: usize = 24;

/// The page in so many columns.
pub fn page(sheet: &ReportSheet, width: usize) -> Page {
    let report = &sheet.report;
    let (came, papers) = report.came_in();
    let mut flow = vec![Entry::heading("TEACH THIS AGAIN")];
    flow.extend(turns(sheet, width));
    for sitting in &report.sittings {
        flow.push(Entry::rule());
        flow.extend(marks(sitting, report.sittings.len() > 1));
    }
    flow.push(Entry::rule());
    for plan in &report.plans {
        flow.extend(figures(plan));
    }
    flow.extend((report.notes.iter()).map(|note| Entry::text(Role::Note, format!("{note}."))));
    let title = report.sittings.first().map_or("", |own| own.title.as_str());
    Page {
        title: "CLASS REPORT".into(),
        place: format!("{title}, {came} of {papers} in"),
        flow,
        foot: foot(sheet),
        next: next(sheet),
        strip: vec![
            hint(Key::Enter, "board"),
            hint(Key::UpDown, "lines"),
            hint(Key::Ask, "ask: B plan, C class"),
            hint(Key::Pages, "scroll"),
            hint(Key::Escape, "back"),
        ],
        ..Page::default()
    }
}

fn turns(sheet: &ReportSheet, width: usize) -> Vec<Entry> {
    if sheet.count() == 0 {
        return vec![Entry::text(Role::Text, sheet.report.without_turns())];
    }
    let did = width.saturating_sub(2 + NUMBER + FAMILY + MANY + LIKELY);
    let row = |texts: [&str; 5], pen: bool| {
        let [number, taken, family, many, likely] = texts;
        let cells = vec![
            Cell::columns(number, NUMBER),
            Cell::columns(taken, did).hang(1),
            Cell::columns(family, FAMILY).hang(1),
            Cell::columns(many, MANY),
            Cell::columns(likely, LIKELY),
        ];
        Entry::of(Role::Line, cells)
            .signed(pen.then_some(Sign::Pen))
            .focused(pen)
    };
    let mut entries = vec![row(
        ["line", "turn taken", "job, level", "how many", "likely"],
        false,
    )];
    for (at, turn) in sheet.report.teach.iter().enumerate() {
        let number = (at + 1).to_string();
        let family = format!("{}, {} ", turn.family, turn.level);
        let many = format!("{} of {}", turn.made, turn.met);
        let did = format!("{} ", turn.did);
        let texts = [&*number, &did, &family, &many, &likely(turn)];
        entries.push(row(texts, at == sheet.picked.pen));
        if at == sheet.picked.pen {
            entries.extend(told(turn));
        }
    }
    let meant = "\"Likely\" is the 80 % interval: what another such class might show. Who took a \
                 turn is counted, and nobody is named.";
    entries.push(Entry::text(Role::Note, meant));
    entries
}

/// What is told of the turn with the pen.
fn told(turn: &Turn) -> Vec<Entry> {
    let mut said = vec![turn.says.clone()];
    if turn.fatal {
        said.push("This can kill or maim: teach it whatever its place.".to_owned());
    }
    if turn.perhaps > 0 {
        said.push(format!(
            "{} of the {} may have taken another turn that gives the same figure.",
            turn.perhaps, turn.made
        ));
    }
    if turn.comes_back {
        said.push("It came back in a later paper.".to_owned());
    }
    let said = said.into_iter();
    said.map(|text| {
        let cells = vec![Cell::columns("", NUMBER), Cell::rest(text)];
        Entry::of(Role::Note, cells)
    })
    .collect()
}

fn likely(turn: &Turn) -> String {
    let of = |share: f64| format!("{:.0}", 100.0 * share);
    format!("{}-{} %", of(turn.between.low), of(turn.between.high))
}

fn labelled(label: &str, text: String) -> Entry {
    let cells = vec![Cell::columns(label, LABEL).bold(), Cell::rest(text)];
    Entry::of(Role::Text, cells)
}

fn marks(sitting: &Sitting, several: bool) -> Vec<Entry> {
    let spread = &sitting.spread;
    let mut entries = Vec::new();
    if several {
        let day = sitting.date.as_deref().unwrap_or("no date");
        let name = format!("{}, {}, {day}", sitting.class, sitting.title);
        entries.push(Entry::text(Role::Head, name));
    }
    let (Some(mean), Some(middle)) = (spread.mean, spread.middle) else {
        entries.push(labelled("MARKS", "no hand-in is marked yet".to_owned()));
        return entries;
    };
    let deviation = spread.deviation;
    let deviation = deviation.map_or_else(String::new, |own| format!(", spread (SD) {own:.1}"));
    let said = format!(
        "mean {mean:.1} of {}, middle {middle:.1}{deviation}.",
        spread.of
    );
    entries.push(labelled("MARKS", said));
    if let Some(pass) = &spread.pass {
        let text = format!(
            "{} or more: {} of {}.",
            pass.from, pass.passed, spread.hand_ins
        );
        entries.push(labelled("", text));
    }
    let most = spread.bins.iter().map(|bin| bin.count).max().unwrap_or(1);
    for bin in &spread.bins {
        let marks = if bin.from == bin.to {
            bin.from.to_string()
        } else {
            format!("{}-{}", bin.from, bin.to)
        };
        // No bar where nobody is, and a bar where somebody is.
        let long = (bin.count * BAR).div_ceil(most.max(1));
        let cells = vec![
            Cell::columns("", LABEL),
            Cell::columns(marks, 9),
            Cell::columns(bin.count.to_string(), 5),
            Cell::rest("=".repeat(long)),
        ];
        entries.push(Entry::of(Role::Text, cells));
    }
    entries
}

fn figures(plan: &PlanFigures) -> Vec<Entry> {
    let text = match &plan.reliability {
        Reliability::Known(known) => {
            let between = known.between.map_or_else(String::new, |own| {
                format!(", likely between {:.2} and {:.2}", own.low, own.high)
            });
            format!(
                "{} {:.2}{between}; standard error {:.1} marks; {}.",
                known.name(),
                known.alpha,
                known.error,
                words::count(plan.hand_ins, "hand-in", "hand-ins")
            )
        }
        other => format!("{}.", other.missing().unwrap_or_default()),
    };
    let mut entries = vec![labelled("RELIABILITY", text)];
    let least = plan.items.iter().filter(|item| item.hand_ins > 0);
    let least = least.min_by_key(|item| item.whole * 1000 / item.hand_ins);
    if let Some(item) = least {
        let family = match item.families.as_slice() {
            [(family, _)] => family.clone(),
            several => format!("one of {} jobs", several.len()),
        };
        let text = format!(
            "least often right whole: item {}, {family}: {} of {}.",
            item.item, item.whole, item.hand_ins
        );
        entries.push(labelled("ITEMS", text));
    }
    entries
}

fn foot(sheet: &ReportSheet) -> Vec<Entry> {
    if sheet.count() == 0 {
        return Vec::new();
    }
    let cells = vec![
        Cell::columns("Take line", 12),
        Cell::blank(
            sheet.picked.number.text(),
            6,
            Some(sheet.picked.number.before()),
        ),
        Cell::rest(""),
    ];
    vec![Entry::rule(), Entry::of(Role::Text, cells)]
}

fn next(sheet: &ReportSheet) -> String {
    match (sheet.count(), sheet.named()) {
        (0, _) => "Esc: back to the work order".to_owned(),
        (_, Some(line)) => format!("Enter: put a problem for line {} on the board", line + 1),
        (count, None) => format!("Enter: write a line number first, 1 to {count}"),
    }
}

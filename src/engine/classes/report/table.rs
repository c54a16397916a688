//! The report as one table for a spreadsheet: a row a figure, the first cell says which
//! part it is of. `read_table` reads from it what next week's plan needs.

use super::plain::fixed;
use super::{PlanFigures, Reliability, Report, Sitting, Step, Turn};
use crate::cells;
use crate::classes::sheet::SheetForm;
use crate::quantities::DecimalSign;

/// What the table begins with: the mark tells a spreadsheet that accents are UTF-8.
pub const BEGINS: &str = "\u{feff}part";

/// The columns.
const HEAD: [&str; 17] = [
    "part", "what", "class", "plan", "date", "item", "family", "level", "name", "words", "count",
    "of", "classes", "figure", "low", "high", "code",
];

/// One row, most of whose cells stay empty.
#[derive(Debug, Clone, Default)]
struct Cells {
    part: &'static str,
    what: String,
    class: String,
    plan: String,
    date: String,
    item: String,
    family: String,
    level: String,
    name: String,
    words: String,
    count: String,
    of: String,
    /// How many classes or years a figure is pooled from.
    classes: String,
    figure: Option<f64>,
    between: Option<(f64, f64)>,
    code: String,
}

/// The table.
pub fn table(report: &Report, form: SheetForm) -> String {
    let mut rows: Vec<Cells> = Vec::new();
    rows.extend(report.sittings.iter().map(paper));
    rows.extend(report.families.iter().map(|met| Cells {
        part: "met",
        what: if met.lately { "last paper" } else { "earlier" }.to_owned(),
        family: met.family.clone(),
        level: met.level.to_string(),
        ..Cells::default()
    }));
    for turn in &report.teach {
        teach(report, turn, &mut rows);
    }
    for step in &report.steps {
        lines(step, &mut rows);
    }
    for plan in &report.plans {
        items(plan, &mut rows);
    }
    for sitting in &report.sittings {
        marks(sitting, &mut rows);
    }
    rows.extend(report.notes.iter().map(|note| Cells {
        part: "note",
        words: note.clone(),
        ..Cells::default()
    }));
    let mut text = String::from("\u{feff}");
    text.push_str(&cells::row(HEAD, form.separator));
    for row in rows {
        text.push_str(&cells::row(row.written(form.decimal), form.separator));
    }
    text
}

impl Cells {
    fn written(self, decimal: DecimalSign) -> Vec<String> {
        let number = |value: Option<f64>| {
            let text = value.map_or_else(String::new, |value| fixed(value, 4));
            match decimal {
                DecimalSign::Point => text,
                DecimalSign::Comma => text.replace('.', ","),
            }
        };
        let (low, high) = (self.between.map(|own| own.0), self.between.map(|own| own.1));
        vec![
            self.part.to_owned(),
            self.what,
            self.class,
            self.plan,
            self.date,
            self.item,
            self.family,
            self.level,
            self.name,
            self.words,
            self.count,
            self.of,
            self.classes,
            number(self.figure),
            number(low),
            number(high),
            self.code,
        ]
    }
}

fn of_sitting(own: &Sitting, part: &'static str, what: &str) -> Cells {
    Cells {
        part,
        what: what.to_owned(),
        class: own.class.clone(),
        plan: own.plan.clone(),
        date: own.date.clone().unwrap_or_default(),
        ..Cells::default()
    }
}

fn paper(own: &Sitting) -> Cells {
    Cells {
        words: own.title.clone(),
        name: own.units.clone(),
        count: own.came_in.to_string(),
        of: own.papers.to_string(),
        ..of_sitting(own, "paper", "handed in")
    }
}

fn teach(report: &Report, turn: &Turn, rows: &mut Vec<Cells>) {
    let own = Cells {
        family: turn.family.clone(),
        level: turn.level.to_string(),
        name: turn.mistake.clone(),
        ..Cells::default()
    };
    rows.push(Cells {
        part: "teach",
        what: if turn.tied { "place shared" } else { "place" }.to_owned(),
        item: turn.rank.to_string(),
        words: turn.did.clone(),
        count: turn.made.to_string(),
        of: turn.met.to_string(),
        figure: Some(turn.made as f64 / turn.met.max(1) as f64),
        between: Some((turn.between.low, turn.between.high)),
        code: turn.board.clone().unwrap_or_default(),
        ..own.clone()
    });
    if turn.perhaps > 0 {
        rows.push(Cells {
            part: "teach, of these",
            what: "perhaps another".into(),
            count: turn.perhaps.to_string(),
            of: turn.made.to_string(),
            ..own.clone()
        });
    }
    if report.sittings.len() < 2 {
        return;
    }
    for (sitting, seen) in report.sittings.iter().zip(&turn.seen) {
        if let Some((made, met)) = seen {
            rows.push(Cells {
                family: own.family.clone(),
                level: own.level.clone(),
                name: own.name.clone(),
                count: made.to_string(),
                of: met.to_string(),
                ..of_sitting(sitting, "teach, by paper", "people")
            });
        }
    }
}

fn lines(step: &Step, rows: &mut Vec<Cells>) {
    let counts = [
        ("missed", step.missed),
        ("of these empty", step.empty),
        ("of these not followed", step.unfollowed),
        ("follows", step.follows),
        ("borne by a later line", step.carried),
        ("right", step.right),
    ];
    // What nobody did has a row only where it is the question.
    let counts = counts
        .into_iter()
        .enumerate()
        .filter(|(at, (_, count))| *at == 0 || *count > 0);
    rows.extend(counts.map(|(_, (what, count))| Cells {
        part: "line",
        what: what.to_owned(),
        plan: step.plan.clone(),
        item: step.item.to_string(),
        family: step.family.clone(),
        level: step.level.to_string(),
        name: step.step.clone(),
        words: step.label.clone(),
        count: count.to_string(),
        of: step.met.to_string(),
        ..Cells::default()
    }));
}

fn items(plan: &PlanFigures, rows: &mut Vec<Cells>) {
    let pooled = Cells {
        class: plan.of.clone(),
        plan: plan.plan.clone(),
        classes: plan.classes.to_string(),
        ..Cells::default()
    };
    let whole = Cells {
        count: plan.hand_ins.to_string(),
        ..pooled.clone()
    };
    match &plan.reliability {
        Reliability::Known(found) => {
            rows.push(Cells {
                part: "reliability",
                what: found.name().to_owned(),
                figure: Some(found.alpha),
                between: found.between.map(|own| (own.low, own.high)),
                ..whole.clone()
            });
            rows.push(Cells {
                part: "reliability",
                what: "standard error of measurement, marks".into(),
                figure: Some(found.error),
                ..whole.clone()
            });
            if let Some(near) = found.near_pass {
                rows.push(Cells {
                    part: "reliability",
                    what: "within it of the pass mark".into(),
                    count: near.to_string(),
                    of: plan.hand_ins.to_string(),
                    ..pooled.clone()
                });
            }
        }
        other => rows.push(Cells {
            part: "reliability",
            what: "missing".into(),
            words: other.missing().unwrap_or_default(),
            ..whole.clone()
        }),
    }
    for item in &plan.items {
        let families = item
            .families
            .iter()
            .map(|(family, level)| format!("{family}, {level}"));
        let own = Cells {
            item: item.item.to_string(),
            words: families.collect::<Vec<_>>().join("; "),
            ..pooled.clone()
        };
        rows.push(Cells {
            part: "item",
            what: "all of its marks".into(),
            count: item.whole.to_string(),
            of: item.hand_ins.to_string(),
            ..own.clone()
        });
        let Some(found) = &item.figures else { continue };
        rows.push(Cells {
            part: "item",
            what: "difficulty".into(),
            count: item.hand_ins.to_string(),
            figure: Some(found.difficulty),
            between: Some((found.difficulty_between.low, found.difficulty_between.high)),
            ..own.clone()
        });
        rows.push(Cells {
            part: "item",
            what: "correlation with the rest".into(),
            count: item.hand_ins.to_string(),
            figure: found.with_rest,
            between: found.with_rest_between.map(|own| (own.low, own.high)),
            ..own
        });
    }
}

fn marks(own: &Sitting, rows: &mut Vec<Cells>) {
    let spread = &own.spread;
    let figures = [
        ("mean", spread.mean),
        ("middle", spread.middle),
        ("SD", spread.deviation),
    ];
    for (what, figure) in figures {
        if figure.is_some() {
            rows.push(Cells {
                figure,
                count: spread.hand_ins.to_string(),
                words: format!("of {}", spread.of),
                ..of_sitting(own, "marks", what)
            });
        }
    }
    if let Some(pass) = &spread.pass {
        rows.push(Cells {
            words: format!("{} or more", pass.from),
            count: pass.passed.to_string(),
            of: spread.hand_ins.to_string(),
            figure: Some(pass.passed as f64 / spread.hand_ins.max(1) as f64),
            between: Some((pass.between.low, pass.between.high)),
            ..of_sitting(own, "marks", "pass")
        });
    }
    for bin in &spread.bins {
        rows.push(Cells {
            words: format!("{} to {}", bin.from, bin.to),
            count: bin.count.to_string(),
            of: spread.hand_ins.to_string(),
            ..of_sitting(own, "marks", "bar")
        });
    }
}

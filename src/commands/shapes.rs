//! From the engine's problem and marking to the shapes that `--json` prints.

use pumpwright_engine::formulas::Value;
use pumpwright_engine::lessons::{StepPlan, show};
use pumpwright_engine::marking::{Marked, MarkedLine};
use pumpwright_engine::problems::{
    self, Asks, Figure, Line, LiveMistake, Offer, Problem, Series, WorkedLine,
};
use pumpwright_engine::quantities::{Unit, print};

use super::json;
use crate::telling;

/// A problem, with its working where it is asked for.
pub fn problem(problem: &Problem, worked: bool) -> json::Problem {
    let working = if worked {
        problems::working(problem)
    } else {
        Vec::new()
    };
    let step = |line: &Line| {
        let own = working
            .iter()
            .find(|worked| worked.id == line.id && worked.label == line.label);
        json::Step {
            working: own.map(|own| self::working(problem, line, own)),
            ..step(line)
        }
    };
    let rule = |rule: &problems::RuleLine| json::HouseRule {
        name: rule.name.clone(),
        text: rule.text.clone(),
    };
    let given = |given: &problems::GivenLine| json::Given {
        name: given.name.clone(),
        label: given.label.clone(),
        value: scalar(&given.value, given.unit.as_ref()),
        unit: symbol(given.unit.as_ref()),
        text: given.text.clone(),
    };
    json::Problem {
        format: json::FORMAT,
        code: problem.code.to_string(),
        family: problem.family.id.clone(),
        lesson: problem.family.lesson.clone(),
        kind: problem.variant.kind.word().to_owned(),
        level: problem.variant.level,
        units: problem.variant.system.letters().to_owned(),
        title: problem.family.title.clone(),
        text: problem.story.join("\n\n"),
        givens: problem.told().iter().map(given).collect(),
        figure: problem.figure.as_ref().map(figure),
        steps: problem.lines.iter().map(step).collect(),
        mistakes: worked.then(|| mistakes(problem)),
        house_rules: problem.rules.iter().map(rule).collect(),
        sheets: problem.sheets.clone(),
        cautions: problem.caution().into_iter().collect(),
        sources: telling::sources(problem),
    }
}

fn figure(figure: &Figure) -> json::Figure {
    let unit = |at: usize| {
        figure
            .columns
            .get(at)
            .and_then(|column| column.unit.as_ref())
    };
    let point = |point: &Vec<Value>| {
        let cells = point.iter().enumerate();
        cells.map(|(at, value)| scalar(value, unit(at))).collect()
    };
    let series = |series: &Series| json::Series {
        name: series.name.clone(),
        points: series.points.iter().map(point).collect(),
    };
    let columns = figure.columns.iter().map(|column| json::FigureColumn {
        name: column.name.clone(),
        label: column.label.clone(),
        unit: symbol(column.unit.as_ref()),
    });
    let marks = figure.marks.iter().filter_map(|mark| {
        Some(json::FigureMark {
            label: mark.label.clone(),
            column: figure.columns.get(mark.column)?.name.clone(),
            value: scalar(&mark.at, unit(mark.column)),
        })
    });
    json::Figure {
        kind: figure.kind.clone(),
        title: figure.title.clone(),
        columns: columns.collect(),
        series: figure.series.iter().map(series).collect(),
        marks: marks.collect(),
    }
}

fn step(line: &Line) -> json::Step {
    let numbered = |texts: Vec<&String>| {
        let pair = |(at, text): (usize, &String)| ((at + 1).to_string(), text.clone());
        texts.into_iter().enumerate().map(pair).collect()
    };
    let lettered = |offers: &[Offer]| {
        offers
            .iter()
            .map(|offer| (offer.mark.clone(), offer.text.clone()))
            .collect()
    };
    let mut step = json::Step {
        id: line.id.clone(),
        label: line.label.clone(),
        unit: symbol(line.unit.as_ref()),
        asked: line.asks != Asks::Nothing,
        marks: line.marks,
        offers: None,
        cards: None,
        parts: None,
        meanings: None,
        working: None,
    };
    match &line.asks {
        Asks::Nothing | Asks::Figure | Asks::Row => {}
        Asks::Pick { offers, .. } => step.offers = Some(lettered(offers)),
        Asks::Order { cards } => {
            step.cards = Some(numbered(cards.iter().map(|card| &card.text).collect()));
        }
        Asks::Match { parts, meanings } => {
            step.parts = Some(numbered(parts.iter().map(|(part, _)| part).collect()));
            step.meanings = Some(lettered(meanings));
        }
    }
    step
}

fn working(problem: &Problem, line: &Line, worked: &WorkedLine) -> json::Working {
    let plan = problem.variant.steps.get(line.step);
    let value = plan.and_then(|plan| problem.values.get(plan.slot?)?.as_ref());
    json::Working {
        formula: worked.words.join("\n"),
        numbers: worked.numbers.join("\n"),
        aloud: worked.aloud.clone(),
        keys: worked.keys.clone(),
        value: value.map(|value| scalar(value, line.unit.as_ref())),
        text: worked.typed.clone(),
        round: (!line.form.is_empty()).then(|| line.form.clone()),
        tolerance: tolerance(problem, line),
        source: plan.and_then(source),
    }
}

/// To so many figures a tolerance is printed; the rest is noise of arithmetic.
const TOLERANCE_FIGURES: usize = 4;

fn tolerance(problem: &Problem, line: &Line) -> Option<json::Tolerance> {
    let (below, above) = problem.tolerance(line)?;
    let shown = |off: f64| {
        print::figures(off, TOLERANCE_FIGURES)
            .parse()
            .unwrap_or(off)
    };
    Some(json::Tolerance {
        below: shown(below),
        above: shown(above),
    })
}

/// Who published the calculations that a step calls.
fn source(plan: &StepPlan) -> Option<String> {
    let mut sources: Vec<&str> = Vec::new();
    for function in plan.body.formula()?.calls() {
        if !sources.contains(&function.source) {
            sources.push(function.source);
        }
    }
    (!sources.is_empty()).then(|| sources.join("; "))
}

/// The known mistakes that can be made in a problem.
pub fn mistakes(problem: &Problem) -> Vec<json::Mistake> {
    problem
        .mistakes
        .iter()
        .map(|mistake| self::mistake(problem, mistake))
        .collect()
}

fn mistake(problem: &Problem, mistake: &LiveMistake) -> json::Mistake {
    let variant = &problem.variant;
    let hint = variant
        .mistakes
        .get(mistake.index)
        .map_or_else(String::new, |plan| {
            let told = |text: &pumpwright_engine::lessons::Template| {
                text.render(&variant.names, &problem.values)
            };
            format!("{} {}", told(&plan.did), told(&plan.says))
        });
    let line = problem.lines.iter().find(|line| line.id == mistake.step);
    let unit = line.and_then(|line| unit_of(problem, line));
    json::Mistake {
        id: mistake.id.clone(),
        step: mistake.step.clone(),
        value: mistake.value.as_ref().map(|value| scalar(value, unit)),
        text: mistake.text.clone(),
        hint,
    }
}

/// A marked response.
pub fn answer(marked: &Marked) -> json::Answer {
    json::Answer {
        format: json::FORMAT,
        score: marked.score.number(),
        out_of: marked.out_of.number(),
        steps: marked.lines.iter().map(marked_step).collect(),
    }
}

fn marked_step(line: &MarkedLine) -> json::MarkedStep {
    json::MarkedStep {
        id: line.id.clone(),
        given: line.typed.clone(),
        read_as: line.read_as.clone(),
        verdict: line.verdict.name().to_owned(),
        marks: line.marks.number(),
        hint: hint(line),
    }
}

/// The likely turns and the note, as one text.
fn hint(line: &MarkedLine) -> Option<String> {
    let mut said: Vec<&str> = Vec::new();
    for turn in &line.turns {
        said.extend([turn.did.as_str(), turn.says.as_str()]);
        said.extend(turn.look.as_deref());
    }
    said.extend(line.note.as_deref());
    (!said.is_empty()).then(|| said.join(" "))
}

fn symbol(unit: Option<&Unit>) -> Option<String> {
    unit.map(|unit| unit.symbol().to_owned())
}

/// A value in the unit that is printed beside it; a row by its name or figure.
fn scalar(value: &Value, unit: Option<&Unit>) -> json::Scalar {
    match value {
        Value::Number(quantity) => {
            json::Scalar::figure(unit.map_or(quantity.si, |unit| unit.from_si(quantity.si)))
        }
        Value::Truth(truth) => json::Scalar::Truth(*truth),
        Value::Word(_) | Value::Row(_) | Value::Rows(_) => json::Scalar::Text(show(value, unit)),
    }
}

/// The unit in which a line is written: its own, or that of the rows it names.
fn unit_of<'a>(problem: &'a Problem, line: &'a Line) -> Option<&'a Unit> {
    line.unit.as_ref().or_else(|| {
        let table = problem.variant.row_tables.get(&line.step)?;
        table.columns.get(table.key)?.unit.as_ref()
    })
}

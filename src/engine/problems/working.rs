//! The worked solution: each step in words, with its numbers, and its result.
//!
//! Every printed line is true of its printed figures. A result starts at three
//! figures; where the next line would not come true with it, it gets one more,
//! until every line recomputes from what stands printed above it.

use super::arrange::right_answer;
use super::judge::Judge;
use super::problem::{Asks, Line, Problem};
use super::written;
use crate::formulas::{Figures, Leaf, Value, aloud, in_words_taken, keys, with_numbers};
use crate::lessons::{Body, Printed, StepPlan, basis};
use crate::quantities::{Unit, print, print::Direction};

/// One step of the worked solution.
#[derive(Debug, Clone, PartialEq)]
pub struct WorkedLine {
    /// The step's name; empty for a line that only says what to do.
    pub id: String,
    /// What it finds.
    pub label: String,
    /// The formula in words, a line each; empty for arrangements.
    pub words: Vec<String>,
    /// The formula with its numbers, a line each, without its result.
    pub sums: Vec<String>,
    /// The same with the result in the last line.
    pub numbers: Vec<String>,
    /// Of a formula with a power or a root, the formula read aloud.
    pub aloud: Option<String>,
    /// The same as keys of a plain calculator, a line each.
    pub keys: Vec<String>,
    /// The answer as it is written on the sheet.
    pub text: String,
    /// The answer as it would be typed: a letter, numbers, letters or the text.
    pub typed: String,
    /// The value in the unit of the line, of a figure.
    pub value: Option<f64>,
    /// The principle, or what to do.
    pub says: String,
    /// Why it is done or rounded so.
    pub why: Option<String>,
}

/// The most figures that a line is given to make the next one true.
const MOST_EXTRA: usize = 7;

/// What a calculator shows is this near to the result: the figures pressed are printed ones.
const KEYS_NEAR: f64 = 0.006;

/// No figure is carried beyond this grid, give or take the last bits of a double.
const FINEST: f64 = 1.5e-6;

/// Without a rule for writing, a result is shown to this many figures.
const FIGURES: i32 = 3;

/// The worked solution of a problem.
pub fn working(problem: &Problem) -> Vec<WorkedLine> {
    let shown = Shown::of(problem);
    let steps = problem.variant.steps.iter().enumerate();
    let mut lines: Vec<WorkedLine> = steps.map(|(at, step)| shown.line(at, step)).collect();
    say_once(problem, &mut lines);
    lines
}

/// Where line after line has one reason, the first tells it. What the sheet asks keeps
/// its own, since help is drawn from it.
fn say_once(problem: &Problem, lines: &mut [WorkedLine]) {
    let asked = |line: &&Line| line.asks != Asks::Nothing;
    let asked: Vec<&Line> = problem.lines.iter().filter(asked).collect();
    let unasked = |id: &str| asked.iter().all(|line| line.id != id);
    let mut last = String::new();
    for line in lines {
        if line.says == last && !line.id.is_empty() && unasked(&line.id) {
            line.says.clear();
        } else {
            last.clone_from(&line.says);
        }
    }
}

/// The steps as they are printed, as values: what a learner who works from the
/// printed figures has.
pub(crate) fn printed_values(problem: &Problem) -> Vec<Option<Value>> {
    let shown = Shown::of(problem);
    let mut values = problem.values.clone();
    for (slot, place) in values.iter_mut().enumerate() {
        shown.put_printed(slot, place);
    }
    values
}

/// Whether every printed line is true of its printed figures.
pub(crate) fn comes_true(problem: &Problem) -> bool {
    let shown = Shown::of(problem);
    let mut steps = problem.variant.steps.iter();
    steps.all(|step| step.slot.is_none_or(|slot| shown.comes_true(step, slot)))
}

/// How far each step's printed figure is carried.
pub(super) struct Shown<'p> {
    problem: &'p Problem,
    /// Figures beyond the first three, or beyond the step's grid, by slot.
    extra: Vec<usize>,
    /// The steps' figures as they are printed so far, in SI, by slot.
    printed: Vec<Option<f64>>,
}

impl<'p> Shown<'p> {
    pub(super) fn of(problem: &'p Problem) -> Self {
        let mut shown = Self {
            problem,
            extra: vec![0; problem.values.len()],
            printed: vec![None; problem.values.len()],
        };
        for step in &problem.variant.steps {
            shown.print_anew(step);
        }
        // Each round settles at least one step, or none is left to settle.
        let rounds = problem.variant.steps.len() * MOST_EXTRA + 1;
        for _ in 0..rounds {
            if !shown.carry_further() {
                break;
            }
        }
        shown
    }

    /// Gives one more figure to the steps that a line needs to come true; says
    /// whether any line did.
    fn carry_further(&mut self) -> bool {
        let variant = &*self.problem.variant;
        for step in &variant.steps {
            let Some(slot) = step.slot else { continue };
            if self.comes_true(step, slot) {
                continue;
            }
            let used = step.body.formula().map(|formula| formula.slots().clone());
            let mut carried = false;
            for used in used.unwrap_or_default() {
                let step = variant.steps.iter().find(|step| step.slot == Some(used));
                if let (Some(extra), Some(step)) = (self.extra.get_mut(used), step)
                    && *extra < MOST_EXTRA
                {
                    *extra += 1;
                    carried = true;
                    self.print_anew(step);
                }
            }
            if carried {
                return true;
            }
        }
        false
    }

    /// Notes the step's figure as it is printed now.
    fn print_anew(&mut self, step: &StepPlan) {
        let (Some(slot), Some(unit)) = (step.slot, &step.unit) else {
            return;
        };
        let value = self.problem.values.get(slot).and_then(Option::as_ref);
        let figure = value.and_then(Value::number).map(|quantity| {
            let text = self.figure(slot, step, unit, quantity.si);
            unit.to_si(written::parse(&text))
        });
        if let Some(place) = self.printed.get_mut(slot) {
            *place = figure;
        }
    }

    /// Puts the printed figure of a step in the place of its full value.
    fn put_printed(&self, slot: usize, place: &mut Option<Value>) {
        if let (Some(Value::Number(quantity)), Some(Some(figure))) = (place, self.printed.get(slot))
        {
            quantity.si = *figure;
        }
    }

    /// Whether the step's printed result follows from the figures printed above it.
    fn comes_true(&self, step: &StepPlan, slot: usize) -> bool {
        let variant = &*self.problem.variant;
        let Some(formula) = step.body.formula().filter(|_| step.reads.is_none()) else {
            return true;
        };
        let Some(Some(right)) = self.problem.values.get(slot) else {
            return true;
        };
        let mut printed = self.problem.values.clone();
        for used in formula.slots() {
            if let Some(place) = printed.get_mut(*used) {
                self.put_printed(*used, place);
            }
        }
        let Ok(found) = formula.evaluate(&printed, basis(variant.system)) else {
            return false;
        };
        match (&found, right, &step.unit) {
            (Value::Number(found), Value::Number(right), Some(unit)) => {
                // Compared as figures: 5.1 that came out short is the 5.10 of a longer value.
                let theirs = self.figure(slot, step, unit, right.si);
                let mut ours = self.figure(slot, step, unit, found.si);
                // A short result is printed whole, with more places than a longer one
                // would be: 60 ÷ 13.020833 is 4.608 as far as it is written.
                if places(&theirs) > places(&ours) {
                    ours = format!("{:.*}", places(&theirs), unit.from_si(found.si));
                }
                same_figure(&ours, &theirs)
                    && final_text(step, unit, found.si) == final_text(step, unit, right.si)
            }
            (found, right, _) => found == right,
        }
    }

    /// A step's figure as the working prints it, without its unit.
    fn figure(&self, slot: usize, step: &StepPlan, unit: &Unit, si: f64) -> String {
        let number = unit.from_si(si);
        let whole = print::shortest(number);
        if step
            .body
            .formula()
            .is_some_and(crate::formulas::Formula::decides)
            || written::is_short_text(&whole)
        {
            return whole;
        }
        let grid = match step.write {
            // Halves, fives and tens are coarser than their last place says.
            Some(write)
                if write.direction == Direction::Nearest && shows_its_grid(write.grid_shown) =>
            {
                write.grid_shown
            }
            // Finer than the grid that it is taken to, so that the taking shows.
            Some(write) if shows_its_grid(write.grid_shown) => {
                three_figures(number).min(write.grid_shown / 10.0)
            }
            // As far as what is written of it goes, so that halves are seen to be taken.
            Some(write) => three_figures(number).min(last_place(write.grid_shown)),
            None => three_figures(number),
        };
        let extra = self.extra.get(slot).copied().unwrap_or(0);
        let grid = (0..extra).fold(grid, |grid, _| finer(grid));
        taken_further(step, unit, number, grid)
    }

    fn line(&self, at: usize, step: &StepPlan) -> WorkedLine {
        let problem = self.problem;
        let variant = &*problem.variant;
        let render = |text: &crate::lessons::Template| text.render(&variant.names, &problem.values);
        let (words, sums, numbers) = self.formula_lines(step);
        let says = match &step.body {
            Body::Does(text) => render(text),
            _ => render(&step.says),
        };
        let value = problem.value(at);
        let sheet = problem.lines.iter().find(|line| line.step == at);
        let (text, typed) = answer(problem, at, sheet);
        let (aloud, keys) = self.pressed(step).unwrap_or_default();
        WorkedLine {
            id: step.id.clone(),
            label: step.label.clone(),
            words,
            sums,
            numbers,
            aloud,
            keys,
            text,
            typed,
            value: match (value, &step.unit) {
                (Some(Value::Number(quantity)), Some(unit)) => {
                    Some(clean(unit.from_si(quantity.si)))
                }
                _ => None,
            },
            says,
            why: step.why.as_ref().map(render),
        }
    }

    /// The step read aloud and as keys. Keys work with bare figures; where the units
    /// of the line ask for more than that, there are none.
    fn pressed(&self, step: &StepPlan) -> Option<(Option<String>, Vec<String>)> {
        let variant = &*self.problem.variant;
        let formula = step.body.formula().filter(|_| step.reads.is_none())?;
        let (names, values) = (&variant.names, &self.problem.values);
        let basis = basis(variant.system);
        let aloud = aloud(formula, names, values, basis)?;
        let right = self.problem.values.get(step.slot?)?.as_ref()?.number()?;
        let unit = step.unit.as_ref()?;
        let right = unit.from_si(right.si);
        let near = |shown: f64| (shown - right).abs() <= KEYS_NEAR * right.abs();
        let mut lines = Vec::new();
        if let Some(keys) = keys(formula, names, values, basis, self) {
            lines = keys.lines;
            if near(100.0 * keys.shows) {
                if let Some(last) = lines.last_mut() {
                    last.push_str(" × 100 =");
                }
            } else if !near(keys.shows) {
                lines.clear();
            }
        }
        Some((Some(aloud), lines))
    }

    fn formula_lines(&self, step: &StepPlan) -> (Vec<String>, Vec<String>, Vec<String>) {
        let problem = self.problem;
        let variant = &*problem.variant;
        let (Some(formula), Some(slot)) = (step.body.formula(), step.slot) else {
            return Default::default();
        };
        let Some(Some(value)) = problem.values.get(slot) else {
            return Default::default();
        };
        if let Some(column) = &step.reads {
            let result = self.result(step, slot, value);
            return (
                vec![format!("read off the figure: {column}")],
                Vec::new(),
                vec![result],
            );
        }
        let basis = basis(variant.system);
        let words = in_words_taken(formula, &variant.names, &problem.values, basis);
        let sums = with_numbers(formula, &variant.names, &problem.values, basis, self);
        let mut numbers = sums.clone();
        let result = self.result(step, slot, value);
        let end = ending(numbers.last().map(String::as_str), &result, value);
        match (numbers.last_mut(), end) {
            (Some(last), Some(end)) => last.push_str(&end),
            (None, Some(end)) => numbers.push(end),
            (_, None) => {}
        }
        (vec![words], sums, numbers)
    }

    /// The result as the working prints it: with what is written of it, where that differs.
    pub(super) fn result(&self, step: &StepPlan, slot: usize, value: &Value) -> String {
        let (Value::Number(quantity), Some(unit)) = (value, &step.unit) else {
            return written::plain(step, value);
        };
        let number = unit.from_si(quantity.si);
        let figure = self.figure(slot, step, unit, quantity.si);
        let text = print::with_unit(&figure, unit, number);
        let Some(write) = step.write else { return text };
        let Some(last) = final_text(step, unit, quantity.si) else {
            return text;
        };
        if same_figure(&last, &figure) {
            return print::with_unit(&last, unit, number);
        }
        let last = print::with_unit(&last, unit, number);
        match write.direction {
            Direction::Up => format!("{text}, up to {last}"),
            Direction::Down => format!("{text}, down to {last}"),
            Direction::Nearest => format!("{text}, written {last}"),
        }
    }
}

/// A value on a grid, or on a finer one where the figure would otherwise be taken
/// up or down to another than the value is: 7.196, not 7.20, down to 7.1.
fn taken_further(step: &StepPlan, unit: &Unit, number: f64, grid: f64) -> String {
    let text = print::on_grid(number, grid);
    let last = final_text(step, unit, unit.to_si(number));
    let leads_there =
        |text: &String| final_text(step, unit, unit.to_si(written::parse(text))) == last;
    if last.is_none() || leads_there(&text) {
        return text;
    }
    let grids = std::iter::successors(Some(finer(grid)), |grid| Some(finer(*grid)));
    let mut texts = grids
        .take(MOST_EXTRA)
        .map(|grid| print::on_grid(number, grid));
    texts.find(leads_there).unwrap_or(text)
}

/// A grid ten times as fine, down to the last that is printed without a power of ten.
fn finer(grid: f64) -> f64 {
    if grid > FINEST { grid / 10.0 } else { grid }
}

/// The figure as the step has it written.
fn final_text(step: &StepPlan, unit: &Unit, si: f64) -> Option<String> {
    let write = step.write?;
    let shown = print::rounded(unit.from_si(si), write.grid_shown, write.direction);
    Some(print::on_grid(shown, write.grid_shown))
}

/// How many places after the point a figure is written with.
fn places(figure: &str) -> usize {
    figure.split_once('.').map_or(0, |(_, places)| places.len())
}

fn same_figure(a: &str, b: &str) -> bool {
    crate::formulas::same(written::parse(a), written::parse(b))
}

/// A result with a true minus sign, as the formula beside it has.
fn true_minus(result: &str) -> String {
    let words = result.split(' ').map(|word| match word.strip_prefix('-') {
        Some(figure) if figure.starts_with(|c: char| c.is_ascii_digit()) => format!("−{figure}"),
        _ => word.to_owned(),
    });
    words.collect::<Vec<_>>().join(" ")
}

/// Whether a line is its own result already, give or take a nought: 23.0 ft is 23 ft.
fn says_the_same(line: &str, result: &str) -> bool {
    match (line.split_once(' '), result.split_once(' ')) {
        (Some((line, unit)), Some((result, same))) if unit == same => same_figure(line, result),
        _ => line == result,
    }
}

/// What stands behind the last line of numbers to say its result; nothing where the
/// line says it already. A search or a comparison ends in words.
pub(super) fn ending(line: Option<&str>, result: &str, value: &Value) -> Option<String> {
    let Some(line) = line else {
        return Some(result.to_owned());
    };
    // A search ends with the row that passes: nothing is to be added.
    if matches!(value, Value::Row(_)) || says_the_same(line, result) {
        return None;
    }
    let result = true_minus(result);
    Some(match value {
        Value::Number(_) => format!(" = {result}"),
        // Behind the sentence of a trial.
        _ if line.ends_with('.') => format!(" So {result}."),
        _ => format!(": {result}"),
    })
}

/// The answer to a step as it is written, and as it would be typed.
fn answer(problem: &Problem, at: usize, line: Option<&Line>) -> (String, String) {
    let judge = Judge {
        variant: &problem.variant,
        values: &problem.values,
        even: problem.even_rounding,
    };
    let value = problem.value(at);
    let text = value.map(|value| written::answer(&judge, at, value));
    let asks = line.map_or(&Asks::Nothing, |line| &line.asks);
    match (right_answer(asks), text) {
        (Some(typed), Some(text)) => (text, typed),
        (Some(typed), None) => (typed.clone(), typed),
        (None, text) => {
            let text = text.unwrap_or_default();
            (text.clone(), text)
        }
    }
}

/// Whether the last place of a figure on a grid says how fine the grid is: one,
/// and tenths of it. On tens the last nought could be a figure of its own.
fn shows_its_grid(grid: f64) -> bool {
    let power = libm::log10(grid);
    grid <= 1.0 && (power - libm::round(power)).abs() < 1e-9
}

/// One in the last place that a figure on a grid is written with: 0.1 for halves, one for tens.
fn last_place(grid: f64) -> f64 {
    (0..places(&print::shortest(grid))).fold(1.0, |place, _| place / 10.0)
}

/// The grid that leaves three figures, never coarser than whole numbers.
fn three_figures(number: f64) -> f64 {
    if number == 0.0 || !number.is_finite() {
        return 1.0;
    }
    let lead = libm::floor(libm::log10(number.abs())) as i32;
    let places = (FIGURES - 1 - lead).max(0);
    (0..places).fold(1.0, |grid, _| grid / 10.0)
}

/// A figure freed of the last bits that unit factors leave.
fn clean(value: f64) -> f64 {
    let text = print::figures(value, 12);
    text.parse().unwrap_or(value)
}

impl Figures for Shown<'_> {
    fn text(&self, leaf: Leaf) -> String {
        let Some(printed) = self.find(leaf) else {
            return String::new();
        };
        match (&printed.value, &printed.unit) {
            (Value::Number(quantity), Some(unit)) => {
                let figure = self.bare_in(leaf, &printed, quantity.si, unit);
                print::with_unit(&figure, unit, unit.from_si(quantity.si))
            }
            _ => printed.text(),
        }
    }

    fn bare(&self, leaf: Leaf, unit: &Unit) -> String {
        let Some(printed) = self.find(leaf) else {
            return String::new();
        };
        match &printed.value {
            Value::Number(quantity) => self.bare_in(leaf, &printed, quantity.si, unit),
            _ => printed.text(),
        }
    }
}

impl Shown<'_> {
    fn find(&self, leaf: Leaf) -> Option<Printed> {
        let problem = self.problem;
        Printed::of(
            leaf.slot,
            leaf.column,
            &problem.variant.names,
            &problem.values,
        )
    }

    /// A figure in a unit: a step's as it is printed, a given's as it is written.
    fn bare_in(&self, leaf: Leaf, printed: &Printed, si: f64, unit: &Unit) -> String {
        let steps = &self.problem.variant.steps;
        let step = steps.iter().find(|step| step.slot == Some(leaf.slot));
        if let (None, Some(step)) = (leaf.column, step)
            && let Some(own) = &step.unit
        {
            let figure = self.figure(leaf.slot, step, own, si);
            if own.same_size(unit) {
                return figure;
            }
            return print::shortest(unit.from_si(own.to_si(written::parse(&figure))));
        }
        if printed.unit.as_ref().is_some_and(|own| own.same_size(unit)) {
            return printed.figure();
        }
        print::shortest(unit.from_si(si))
    }
}

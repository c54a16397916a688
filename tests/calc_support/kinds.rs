//! What calc answers to a reference row, kind by kind. Nothing where calc does
//! not cover it; several answers where calc has several ways.

use pumpwright_calc::registry::{Basis, Value, find};

use super::inputs::Inputs;

/// Standard gravity, for rows that give a weight or a head for a pressure.
const GRAVITY: f64 = 9.806_65;

/// What calc gives.
#[derive(Debug, Clone, PartialEq)]
pub enum Answer {
    /// An SI value.
    Number(f64),
    /// A word.
    Word(&'static str),
    /// A refusal, in its words.
    Refused(String),
}

type Answers = Option<Vec<Answer>>;

/// Calc's answers to a row of this kind and quantity, wanted in this unit.
pub fn answers(kind: &str, quantity: &str, unit: &str, inputs: &Inputs) -> Answers {
    match kind {
        "head_pressure" => head_pressure(inputs),
        "water_properties" => quantity.contains("density").then(|| density(inputs))?,
        "hazen_williams" => hazen_williams(inputs),
        "total_dynamic_head" => total_dynamic_head(inputs),
        "specific_capacity" => (quantity == "drawdown").then(|| levels(inputs))?,
        "tank_drawdown" => tank_drawdown(inputs),
        "relief_valve" => relief_valve(inputs),
        "conductor_resistance" => conductor(quantity, unit, inputs),
        "voltage_drop" => voltage_drop(quantity, unit, inputs),
        "megohm_band" => megohm_band(inputs),
        _ => None,
    }
}

fn call(name: &str, basis: Basis, values: &[Value]) -> Answer {
    let function = find(name).unwrap_or_else(|| panic!("no function {name}"));
    match (function.call)(basis, values) {
        Ok(Value::Number(figure)) => Answer::Number(figure),
        Ok(Value::Word(word)) => Answer::Word(word),
        Err(refusal) => Answer::Refused(refusal.to_string()),
    }
}

fn numbers(name: &str, basis: Basis, figures: &[f64]) -> Answer {
    let values: Vec<Value> = figures.iter().copied().map(Value::Number).collect();
    call(name, basis, &values)
}

#[allow(
    clippy::unnecessary_wraps,
    reason = "ends functions that may cover nothing"
)]
fn only(answer: Answer) -> Answers {
    Some(vec![answer])
}

/// An answer that the next call needs: its figure, or the refusal for good.
fn figure(answer: Answer) -> Result<f64, Answer> {
    match answer {
        Answer::Number(figure) => Ok(figure),
        other => Err(other),
    }
}

/// How a row weighs its water: a trade's factor, or a density.
enum Weight {
    Trade(Basis),
    Density(f64),
}

fn weight(inputs: &Inputs) -> Option<Weight> {
    if !inputs.agrees("g", GRAVITY) {
        return None;
    }
    if inputs.agrees("head_per_pressure", 2.31 * 0.3048 / 6_894.757_293_168_361)
        && inputs.word("head_per_pressure").is_some()
    {
        return Some(Weight::Trade(Basis::UsTrade));
    }
    if let Some(per) = inputs.si("head_per_pressure") {
        return Some(Weight::Density(1.0 / (per * GRAVITY)));
    }
    if let Some(weight) = inputs.si("specific_weight") {
        return Some(Weight::Density(weight / GRAVITY));
    }
    if let Some(density) = inputs.first(&["density", "water_density"]) {
        return Some(Weight::Density(density));
    }
    let warmth = inputs.first(&["water_temperature", "temperature"])?;
    let density = numbers("water.density", Basis::Physical, &[warmth]);
    figure(density).ok().map(Weight::Density)
}

impl Weight {
    fn turn(&self, name: &str, figure: f64) -> Answer {
        match self {
            Self::Trade(basis) => numbers(&format!("head.{name}"), *basis, &[figure]),
            Self::Density(density) => numbers(
                &format!("head.{name}_at_density"),
                Basis::Physical,
                &[figure, *density],
            ),
        }
    }
}

fn head_pressure(inputs: &Inputs) -> Answers {
    let weight = weight(inputs)?;
    if let Some(pressure) = inputs.si("pressure") {
        return only(weight.turn("from_pressure", pressure));
    }
    only(weight.turn("to_pressure", inputs.si("head")?))
}

fn density(inputs: &Inputs) -> Answers {
    let warmth = inputs.si("temperature")?;
    only(numbers("water.density", Basis::Physical, &[warmth]))
}

/// By the trade's factor for the row's units, and by the one behind it.
fn hazen_williams(inputs: &Inputs) -> Answers {
    let length = inputs.first(&["length", "pipe_length"])?;
    friction(inputs, length)
}

fn friction(inputs: &Inputs, length: f64) -> Answers {
    let (bore, flow, c) = (
        inputs.si("inside_diameter")?,
        inputs.si("flow")?,
        inputs.si("C")?,
    );
    let us = inputs.has_unit("flow", "gpm");
    let trade = if us { Basis::UsTrade } else { Basis::SiTrade };
    let by = |basis| numbers("friction.hazen_williams", basis, &[length, bore, flow, c]);
    Some(vec![by(trade), by(Basis::Physical)])
}

fn total_dynamic_head(inputs: &Inputs) -> Answers {
    let lift = lift(inputs)?;
    let rise = inputs.si("tank_above_wellhead").unwrap_or(0.0);
    let pressure = inputs.first(&["pressure", "cut_out_pressure", "tank_pressure"])?;
    let held = weight(inputs)?.turn("from_pressure", pressure);
    let frictions = if let Some(given) = inputs.si("friction_head") {
        vec![Answer::Number(given)]
    } else {
        let fittings = inputs.si("fitting_equivalent_length").unwrap_or(0.0);
        friction(inputs, inputs.si("pipe_length")? + fittings)?
    };
    let total = |friction: Answer| -> Result<Answer, Answer> {
        let parts = [lift, rise, figure(held.clone())?, figure(friction)?];
        Ok(numbers("head.total", Basis::Physical, &parts))
    };
    let each = frictions
        .into_iter()
        .map(|friction| total(friction).unwrap_or_else(|why| why));
    Some(each.collect())
}

fn lift(inputs: &Inputs) -> Option<f64> {
    let given = inputs.first(&["vertical_distance", "pumping_level", "lift"]);
    given.or_else(|| Some(inputs.si("static_level")? + inputs.si("drawdown")?))
}

fn levels(inputs: &Inputs) -> Answers {
    let levels = [inputs.si("static_level")?, inputs.si("pumping_level")?];
    only(numbers("well.drawdown", Basis::Physical, &levels))
}

/// The row's own air decides the function: a basis has one, other air is given.
fn tank_drawdown(inputs: &Inputs) -> Answers {
    let mut figures = vec![
        inputs.first(&["tank_volume", "volume"])?,
        inputs.si("precharge")?,
        inputs.si("cut_in")?,
        inputs.si("cut_out")?,
    ];
    let Some(air) = inputs.first(&["atmospheric", "atmosphere"]) else {
        let us = inputs.has_unit("cut_in", "psig") || inputs.has_unit("cut_in", "psi");
        let basis = if us { Basis::UsTrade } else { Basis::SiTrade };
        return only(numbers("tank.drawdown", basis, &figures));
    };
    let bases = [Basis::UsTrade, Basis::SiTrade, Basis::Physical];
    let same = bases.into_iter().find(|basis| {
        let ours = numbers("pressure.absolute", *basis, &[0.0]);
        figure(ours).is_ok_and(|ours| (ours / air - 1.0).abs() < 5e-6)
    });
    if let Some(basis) = same {
        return only(numbers("tank.drawdown", basis, &figures));
    }
    figures.push(air);
    only(numbers("tank.drawdown_under", Basis::Physical, &figures))
}

fn relief_valve(inputs: &Inputs) -> Answers {
    if let Some(cut_out) = inputs.si("cut_out") {
        let margin = inputs.si("margin")?;
        return only(numbers(
            "relief.lowest_setting",
            Basis::Physical,
            &[cut_out, margin],
        ));
    }
    let head = inputs.si("shutoff_head")?;
    let level = inputs.si("static_level")?;
    let rise = inputs.si("tank_above_wellhead").unwrap_or(0.0);
    only(match weight(inputs)? {
        Weight::Trade(basis) => numbers("relief.shut_off_pressure", basis, &[head, level, rise]),
        density @ Weight::Density(_) => density.turn("to_pressure", head - level - rise),
    })
}

/// Whether the constants for copper that a row gives are calc's.
fn our_copper(inputs: &Inputs) -> bool {
    let metal = inputs.word("metal").unwrap_or("copper");
    let plain = ["copper", "copper uncoated", "uncoated copper"].contains(&metal);
    plain
        && inputs.agrees("resistivity_20C", 1e-6 / 58.0)
        && inputs.agrees("temperature_coefficient_20C", 0.003_93)
        && inputs.agrees("coefficient_75C", 0.003_23)
}

fn construction(quantity: &str, inputs: &Inputs) -> Option<&'static str> {
    let said = inputs.word("construction").unwrap_or(quantity);
    ["solid", "stranded"]
        .into_iter()
        .find(|word| said.contains(word))
}

fn conductor(quantity: &str, unit: &str, inputs: &Inputs) -> Answers {
    if !our_copper(inputs) {
        return None;
    }
    if ["cmil", "mm2"].contains(&unit) {
        return only(numbers(
            "conductor.area_awg",
            Basis::Physical,
            &[inputs.si("AWG")?],
        ));
    }
    if let Some(printed) = inputs.si("resistance_75C") {
        // The size is named beside its resistance.
        inputs.word("AWG");
        return warmed(printed, inputs);
    }
    let made = construction(quantity, inputs)?;
    let warmth = inputs.si("temperature");
    let at = Value::Number(warmth.unwrap_or(348.15));
    if let Some(area) = inputs.si("area") {
        let values = [Value::Number(area), Value::Word(made), at];
        return only(call("conductor.resistance_mm2", Basis::Physical, &values));
    }
    let size = Value::Number(inputs.si("AWG")?);
    let worked = call(
        "conductor.resistance_awg",
        Basis::Physical,
        &[size, Value::Word(made), at],
    );
    let printed = call(
        "conductor.table_ohms",
        Basis::Physical,
        &[size, Value::Word(made)],
    );
    Some(match (warmth, printed) {
        (None, Answer::Number(printed)) => vec![worked, Answer::Number(printed)],
        _ => vec![worked],
    })
}

/// The table's figure at another temperature, and the loop where a run is given.
fn warmed(printed: f64, inputs: &Inputs) -> Answers {
    let name = "conductor.table_resistance_at_temperature";
    let figures = [printed, inputs.si("temperature")?];
    let one = numbers(name, Basis::Physical, &figures);
    let Some(run) = inputs.si("one_way_length") else {
        return only(one);
    };
    only(match figure(one) {
        Ok(one) => numbers("cable.loop_ohms", Basis::Physical, &[2.0 * one, run]),
        Err(refused) => refused,
    })
}

fn voltage_drop(quantity: &str, unit: &str, inputs: &Inputs) -> Answers {
    if let Some(first) = inputs.si("length1") {
        let figures = [
            first,
            inputs.si("allowed1")?,
            inputs.si("length2")?,
            inputs.si("allowed2")?,
        ];
        return only(numbers("cable.share_used", Basis::Physical, &figures));
    }
    if let Some(lost) = inputs.si("voltage_drop") {
        let figures = [lost, inputs.si("voltage")?];
        return only(numbers("cable.drop_share", Basis::Physical, &figures));
    }
    let one = match one_conductor(inputs)? {
        Ok(one) => one,
        Err(refused) => return only(refused),
    };
    let amps = inputs.si("current")?;
    if let Some(share) = inputs.si("allowed_drop") {
        let volts = share * inputs.si("voltage")?;
        return only(numbers(
            "cable.longest_run",
            Basis::Physical,
            &[volts, amps, one],
        ));
    }
    let three = quantity.contains("three phase");
    let name = if three {
        "cable.drop_three_phase"
    } else {
        "cable.drop"
    };
    let lost = numbers(
        name,
        Basis::Physical,
        &[amps, one, inputs.si("one_way_length")?],
    );
    if unit != "%" {
        return only(lost);
    }
    let supply = inputs.si("voltage")?;
    only(match figure(lost) {
        Ok(lost) => numbers("cable.drop_share", Basis::Physical, &[lost, supply]),
        Err(refused) => refused,
    })
}

fn one_conductor(inputs: &Inputs) -> Option<Result<f64, Answer>> {
    if let Some(given) = inputs.si("resistance") {
        inputs.word("AWG");
        return Some(Ok(given));
    }
    if !our_copper(inputs) {
        return None;
    }
    let (area, warmth) = (inputs.si("area")?, inputs.si("temperature")?);
    let values = [
        Value::Number(area),
        Value::Word("solid"),
        Value::Number(warmth),
    ];
    Some(figure(call(
        "conductor.resistance_mm2",
        Basis::Physical,
        &values,
    )))
}

fn megohm_band(inputs: &Inputs) -> Answers {
    let place = match inputs.word("place")? {
        place if place.contains("well") => "in the well with its cable",
        place if place.contains("bench") => "on the bench",
        _ => return None,
    };
    let values = [Value::Number(inputs.si("resistance")?), Value::Word(place)];
    only(call("insulation.band", Basis::Physical, &values))
}

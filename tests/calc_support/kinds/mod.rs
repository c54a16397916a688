//! What calc answers to a reference row, kind by kind. A kind, quantity or input
//! that is not known is trouble to be told, never a row passed over.

mod electrical;
mod hydraulics;
mod mechanical;
mod operating;
mod tank_pipe;
mod well;

use pumpwright_calc::registry::{Basis, Kind, Value, find};

use super::inputs::{Inputs, Trouble};

/// Standard gravity, for rows that give a weight or a head for a pressure.
const GRAVITY: f64 = 9.806_65;

/// What calc gives.
#[derive(Debug, Clone, PartialEq)]
pub enum Answer {
    /// An SI value.
    Number(f64),
    /// A word.
    Word(&'static str),
}

/// An answer, or why there is none.
pub type Found = Result<Answer, Trouble>;

/// Kinds that belong to the analysis of a class and are checked with it.
pub const ELSEWHERE: [&str; 3] = ["reliability", "item_analysis", "rasch"];

/// Calc's answer to a row of this kind and quantity.
pub fn answer(kind: &str, quantity: &str, inputs: &Inputs) -> Found {
    let found = match kind {
        "head_pressure" => hydraulics::head_pressure(quantity, inputs),
        "water_properties" => hydraulics::water(quantity, inputs),
        "reynolds" => hydraulics::reynolds(quantity, inputs),
        "friction_factor" => hydraulics::friction_factor(quantity, inputs),
        "darcy_weisbach" => hydraulics::darcy(quantity, inputs),
        "hazen_williams" => hydraulics::hazen_williams(quantity, inputs),
        "fittings" => hydraulics::fittings(quantity, inputs),
        "total_dynamic_head" => hydraulics::total_dynamic_head(quantity, inputs),
        "system_operating_point" => operating::point(quantity, inputs),
        "affinity" => hydraulics::affinity(quantity, inputs),
        "power_energy" => hydraulics::power(quantity, inputs),
        "tank_drawdown" => tank_pipe::tank_drawdown(quantity, inputs),
        "tank_size" => tank_pipe::tank_size(quantity, inputs),
        "relief_valve" => tank_pipe::relief(quantity, inputs),
        "thermal_expansion_water" => tank_pipe::expansion(quantity, inputs),
        "expansion_tank" => tank_pipe::expansion_tank(quantity, inputs),
        "pe_pipe" => tank_pipe::pe_pipe(quantity, inputs),
        "pe_thermal_length" => tank_pipe::thermal_length(quantity, inputs),
        "water_hammer" => tank_pipe::hammer(quantity, inputs),
        "specific_capacity" => well::specific_capacity(quantity, inputs),
        "demand" => well::demand(quantity, inputs),
        "theis_W" => well::theis_w(quantity, inputs),
        "theis_drawdown" => well::theis(quantity, inputs),
        "cooper_jacob" => well::cooper_jacob(quantity, inputs),
        "casing_volume" => well::casing(quantity, inputs),
        "chlorine_dose" => well::chlorine(quantity, inputs),
        "grout_volume" => well::grout(quantity, inputs),
        "purge" => well::purge(quantity, inputs),
        "motor_cooling" => well::cooling(quantity, inputs),
        "conductor_resistance" => electrical::conductor(quantity, inputs),
        "voltage_drop" => electrical::voltage_drop(quantity, inputs),
        "motor_full_load_current" => electrical::motor(quantity, inputs),
        "voltage_choice_loss" => electrical::voltage_choice(quantity, inputs),
        "insulation_resistance" => electrical::insulation(quantity, inputs),
        "megohm_band" => electrical::megohm_band(quantity, inputs),
        "resistance_network" => electrical::network(quantity, inputs),
        "winding_resistance" => electrical::winding(quantity, inputs),
        "capacitor" => electrical::capacitor(quantity, inputs),
        "generator" => electrical::generator(quantity, inputs),
        "lifting_load" => mechanical::lifting(quantity, inputs),
        "spacing_count" => mechanical::spacing(quantity, inputs),
        _ => return Err(format!("no kind \"{kind}\"")),
    }?;
    let left = inputs.left_over();
    if left.is_empty() {
        Ok(found)
    } else {
        Err(format!("no use for the input {}", left.join(", ")))
    }
}

fn unknown(quantity: &str) -> Found {
    Err(format!("no quantity \"{quantity}\" of this kind"))
}

/// One argument of a call.
#[derive(Debug, Clone, Copy)]
enum Put<'a> {
    Figure(f64),
    Word(&'a str),
}

/// A function called by name, on physical constants unless a basis is given.
fn call(name: &str, basis: Basis, puts: &[Put]) -> Found {
    let function = find(name).unwrap_or_else(|| panic!("no function {name}"));
    let mut values = Vec::new();
    for (put, port) in puts.iter().zip(function.inputs) {
        values.push(match (put, port.kind) {
            (Put::Figure(figure), _) => Value::Number(*figure),
            (Put::Word(word), Kind::Word(words)) => {
                let known = words.iter().find(|known| *known == word);
                Value::Word(known.ok_or_else(|| format!("\"{word}\" is none of {words:?}"))?)
            }
            (Put::Word(word), _) => panic!("{name}: {word} for a number"),
        });
    }
    match (function.call)(basis, &values) {
        Ok(Value::Number(figure)) => Ok(Answer::Number(figure)),
        Ok(Value::Word(word)) => Ok(Answer::Word(word)),
        Err(refusal) => Err(format!("refused: {refusal}")),
    }
}

fn numbers(name: &str, basis: Basis, figures: &[f64]) -> Found {
    let puts: Vec<Put> = figures.iter().copied().map(Put::Figure).collect();
    call(name, basis, &puts)
}

fn physical(name: &str, figures: &[f64]) -> Found {
    numbers(name, Basis::Physical, figures)
}

/// The figure of an answer that the next call needs.
fn figure(name: &str, figures: &[f64]) -> Result<f64, Trouble> {
    match physical(name, figures)? {
        Answer::Number(figure) => Ok(figure),
        Answer::Word(word) => Err(format!("{name} gave the word {word}")),
    }
}

/// How a row weighs its water: the trade's 2.31, or a density.
enum Weight {
    Trade,
    Density(f64),
}

fn weight(inputs: &Inputs) -> Result<Weight, Trouble> {
    let trade = 2.31 * 0.3048 / 6_894.757_293_168_361;
    let gravity = inputs.or("g", GRAVITY)?;
    if inputs.has("head_per_pressure") {
        let per = inputs.si("head_per_pressure")?;
        let ours = (per / trade - 1.0).abs() < 1e-9;
        return Ok(if ours {
            Weight::Trade
        } else {
            Weight::Density(1.0 / (per * GRAVITY))
        });
    }
    if inputs.has("pressure_per_head") {
        return Ok(Weight::Density(inputs.si("pressure_per_head")? / GRAVITY));
    }
    if inputs.has("specific_weight") {
        return Ok(Weight::Density(inputs.si("specific_weight")? / GRAVITY));
    }
    let density = if inputs.any(&["density", "water_density"]) {
        inputs.first(&["density", "water_density"])?
    } else {
        let warmth = inputs.first(&["water_temperature", "temperature"])?;
        figure("water.density", &[warmth])?
    };
    // Another gravity is taken in by the weight that it makes.
    Ok(Weight::Density(density * gravity / GRAVITY))
}

impl Weight {
    fn turn(&self, name: &str, figure: f64) -> Result<f64, Trouble> {
        let found = match self {
            Self::Trade => numbers(&format!("head.{name}"), Basis::UsTrade, &[figure]),
            Self::Density(density) => {
                physical(&format!("head.{name}_at_density"), &[figure, *density])
            }
        };
        match found? {
            Answer::Number(figure) => Ok(figure),
            Answer::Word(word) => Err(format!("head.{name} gave the word {word}")),
        }
    }
}

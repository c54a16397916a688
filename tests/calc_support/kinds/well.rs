//! Wells, aquifers, casing, chlorine, grout, purging, motor cooling.

use pumpwright_calc::registry::Basis;

use super::super::inputs::{Inputs, Trouble};
use super::{Answer, Found, figure, numbers, physical, unknown};

pub fn specific_capacity(quantity: &str, inputs: &Inputs) -> Found {
    let fall = |inputs: &Inputs| {
        figure(
            "well.drawdown",
            &[inputs.si("static_level")?, inputs.si("pumping_level")?],
        )
    };
    match quantity {
        "drawdown" => fall(inputs).map(Answer::Number),
        "specific capacity" => {
            let drawdown = if inputs.has("drawdown") {
                inputs.si("drawdown")?
            } else {
                fall(inputs)?
            };
            physical("well.specific_capacity", &[inputs.si("flow")?, drawdown])
        }
        _ => unknown(quantity),
    }
}

pub fn demand(quantity: &str, inputs: &Inputs) -> Found {
    match quantity {
        "supply rate for a peak period" => physical(
            "demand.peak_flow",
            &[inputs.si("daily_use")?, inputs.si("peak_period")?],
        ),
        _ => unknown(quantity),
    }
}

pub fn theis_w(quantity: &str, inputs: &Inputs) -> Found {
    match quantity {
        "well function W(u)" => physical("aquifer.theis_w", &[inputs.si("u")?]),
        _ => unknown(quantity),
    }
}

/// The trade's constants go with its units.
fn basis(inputs: &Inputs) -> Basis {
    let us = inputs.in_unit("T", "gpd") || inputs.in_unit("drawdown_per_log_cycle", "ft");
    if us { Basis::UsTrade } else { Basis::Physical }
}

fn fall_at(name: &str, distance: &str, inputs: &Inputs) -> Result<f64, Trouble> {
    let figures = [
        inputs.si("flow")?,
        inputs.si("T")?,
        inputs.si("S")?,
        inputs.si(distance)?,
        inputs.si("t")?,
    ];
    match numbers(name, basis(inputs), &figures)? {
        Answer::Number(fall) => Ok(fall),
        Answer::Word(word) => Err(format!("{name} gave the word {word}")),
    }
}

pub fn theis(quantity: &str, inputs: &Inputs) -> Found {
    let name = "aquifer.theis_drawdown";
    match quantity {
        "Theis drawdown, US units"
        | "Theis drawdown"
        | "Theis drawdown of one neighbouring well" => {
            fall_at(name, "r", inputs).map(Answer::Number)
        }
        "drawdown of an end well, three wells in line pumped together" => {
            let neighbors = fall_at(name, "r1", inputs)? + fall_at(name, "r2", inputs)?;
            Ok(Answer::Number(inputs.si("own_drawdown")? + neighbors))
        }
        _ => unknown(quantity),
    }
}

pub fn cooper_jacob(quantity: &str, inputs: &Inputs) -> Found {
    match quantity {
        "transmissivity from one log cycle" => {
            let figures = [inputs.si("flow")?, inputs.si("drawdown_per_log_cycle")?];
            numbers("jacob.transmissivity", basis(inputs), &figures)
        }
        "storage coefficient from zero-drawdown intercept" => {
            let figures = [inputs.si("T")?, inputs.si("t0")?, inputs.si("r")?];
            numbers("jacob.storage", basis(inputs), &figures)
        }
        "Cooper-Jacob drawdown" => fall_at("jacob.drawdown", "r", inputs).map(Answer::Number),
        _ => unknown(quantity),
    }
}

fn column(inputs: &Inputs) -> Result<f64, Trouble> {
    if inputs.has("water_column") {
        return inputs.si("water_column");
    }
    figure(
        "casing.column",
        &[inputs.si("well_depth")?, inputs.si("static_level")?],
    )
}

fn bore(inputs: &Inputs) -> Result<f64, Trouble> {
    inputs.first(&["inside_diameter", "casing_diameter"])
}

fn standing(inputs: &Inputs) -> Result<f64, Trouble> {
    figure("casing.volume", &[bore(inputs)?, column(inputs)?])
}

pub fn casing(quantity: &str, inputs: &Inputs) -> Found {
    inputs.note(&["casing"]);
    match quantity {
        "water per foot of casing" => physical("casing.volume_per_length", &[bore(inputs)?]),
        "water stored in a well" => standing(inputs).map(Answer::Number),
        "water to pump into clean storage (twice the casing volume)" => Ok(Answer::Number(
            inputs.or("multiple", 2.0)? * standing(inputs)?,
        )),
        _ => unknown(quantity),
    }
}

/// Water to be treated: as given, as stands in the casing, or what a meter of casing
/// holds so many times over.
fn treated(inputs: &Inputs) -> Result<f64, Trouble> {
    if inputs.has("water_volume") {
        return inputs.si("water_volume");
    }
    let times = inputs.or("multiple", 1.0)?;
    if inputs.any(&["water_column", "well_depth"]) {
        return Ok(times * standing(inputs)?);
    }
    Ok(times * figure("casing.volume", &[bore(inputs)?, 1.0])?)
}

/// By the product: an answer for each length where no length of water was given.
pub fn chlorine(quantity: &str, inputs: &Inputs) -> Found {
    let known = ["bleach", "hypochlorite"];
    if !known.iter().any(|word| quantity.contains(word)) {
        return unknown(quantity);
    }
    let (volume, dose) = (treated(inputs)?, inputs.si("dose")?);
    if inputs.has("available_chlorine") {
        return physical(
            "chlorine.powder",
            &[volume, dose, inputs.si("available_chlorine")?],
        );
    }
    if inputs.has("strength_weight_percent") {
        let strength = inputs.si("strength_weight_percent")?;
        let density = inputs.si("bleach_density")?;
        return physical(
            "chlorine.bleach_by_weight",
            &[volume, dose, strength, density],
        );
    }
    // One trade percent, a gram in 100 mL, is ten kilograms in a cubic meter.
    let strength = if inputs.in_unit("strength_trade_percent", "%") {
        inputs.si("strength_trade_percent")?
    } else {
        inputs.si("strength_trade_percent")? / 1e3
    };
    physical("chlorine.bleach", &[volume, dose, strength])
}

pub fn grout(quantity: &str, inputs: &Inputs) -> Found {
    match quantity {
        "annular volume" => {
            let figures = [
                inputs.si("bore")?,
                inputs.si("casing_OD")?,
                inputs.si("length")?,
            ];
            physical("grout.annulus", &figures)
        }
        _ => unknown(quantity),
    }
}

pub fn purge(quantity: &str, inputs: &Inputs) -> Found {
    match quantity {
        "standing volume" => standing(inputs).map(Answer::Number),
        "time to purge casing volumes" => {
            let figures = [standing(inputs)?, inputs.si("volumes")?, inputs.si("flow")?];
            physical("casing.purge_time", &figures)
        }
        _ => unknown(quantity),
    }
}

pub fn cooling(quantity: &str, inputs: &Inputs) -> Found {
    let ring = [inputs.si("casing_ID")?, inputs.si("motor_OD")?];
    match quantity {
        "minimum flow past a motor" => {
            physical("cooling.flow", &[inputs.si("velocity")?, ring[0], ring[1]])
        }
        "velocity past a motor" => {
            physical("cooling.speed", &[inputs.si("flow")?, ring[0], ring[1]])
        }
        _ => unknown(quantity),
    }
}

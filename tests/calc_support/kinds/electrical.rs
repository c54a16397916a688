//! Conductors, volts lost, motors, insulation, windings, capacitors, generators.

use pumpwright_calc::registry::Basis;

use super::super::inputs::{Inputs, Trouble};
use super::{Answer, Found, Put, call, figure, physical, unknown};

/// Copper as NBS Handbook 100 has it, where a row does not say.
const COPPER: f64 = 1e-6 / 58.0;
const COPPER_RISE: f64 = 0.003_93;

/// An AWG size as rows write it: 1/0 is 0, 2/0 is -1.
fn awg(inputs: &Inputs) -> Result<f64, Trouble> {
    let text = inputs.word("AWG")?;
    let aught = text
        .strip_suffix("/0")
        .and_then(|count| count.parse::<f64>().ok());
    match aught {
        Some(count) => Ok(1.0 - count),
        None => text.parse().map_err(|_| format!("no AWG size: {text}")),
    }
}

/// The code table's word for the metal of a row; plain copper where it does not say.
fn metal(inputs: &Inputs) -> Result<&'static str, Trouble> {
    if !inputs.has("metal") {
        return Ok("uncoated copper");
    }
    match inputs.word("metal")? {
        "copper" | "copper uncoated" | "uncoated copper" => Ok("uncoated copper"),
        "copper coated" | "coated copper" | "copper tinned" | "tinned copper" => {
            Ok("coated copper")
        }
        "aluminum" | "aluminium" => Ok("aluminum"),
        metal => Err(format!("no table for the metal \"{metal}\"")),
    }
}

/// A conductor from the resistivity of its metal.
fn worked(area: f64, inputs: &Inputs) -> Result<f64, Trouble> {
    let each = if inputs.has("temperature_coefficient_20C") {
        inputs.interval("temperature_coefficient_20C")?
    } else {
        COPPER_RISE
    };
    let figures = [
        inputs.or("resistivity_20C", COPPER)?,
        each,
        area,
        inputs.si("temperature")?,
    ];
    figure("metal.resistance", &figures)
}

/// A figure of the code's table at another temperature. The table's note has 0.00323 for
/// copper; a row that gives its own coefficient from 75 °C is followed.
fn warmed(inputs: &Inputs) -> Result<f64, Trouble> {
    let ohms = inputs.si("resistance_75C")?;
    let to = inputs.si("temperature")?;
    if inputs.has("coefficient_75C") {
        let each = inputs.interval("coefficient_75C")?;
        return figure("metal.at_temperature", &[ohms, each, 75.0 + 273.15, to]);
    }
    figure("conductor.table_resistance_at_temperature", &[ohms, to])
}

pub fn conductor(quantity: &str, inputs: &Inputs) -> Found {
    let metal = metal(inputs)?;
    match quantity {
        "DC resistance per 1000 ft at 75 degC" => {
            let puts = [
                Put::Figure(awg(inputs)?),
                Put::Word(inputs.word("construction")?),
                Put::Word(metal),
            ];
            call("metal.table_ohms", Basis::Physical, &puts)
        }
        "DC resistance per 1000 ft, solid copper" => {
            let area = figure("conductor.area_awg", &[awg(inputs)?])?;
            worked(area, inputs).map(Answer::Number)
        }
        "conductor area" => physical("conductor.area_awg", &[awg(inputs)?]),
        "table 8 resistance corrected for temperature" => warmed(inputs).map(Answer::Number),
        "loop resistance of a drop cable pair" => {
            inputs.note(&["AWG"]);
            let pair = 2.0 * warmed(inputs)?;
            physical("cable.loop_ohms", &[pair, inputs.si("one_way_length")?])
        }
        _ => unknown(quantity),
    }
}

/// Volts lost out and back, from current, conductor and run.
fn lost(name: &str, inputs: &Inputs) -> Result<f64, Trouble> {
    inputs.note(&["AWG"]);
    let (amps, run) = (inputs.si("current")?, inputs.si("one_way_length")?);
    figure(name, &[amps, inputs.si("resistance")?, run])
}

pub fn voltage_drop(quantity: &str, inputs: &Inputs) -> Found {
    match quantity {
        "voltage drop, single phase" => lost("cable.drop", inputs).map(Answer::Number),
        "voltage drop, three phase" => lost("cable.drop_three_phase", inputs).map(Answer::Number),
        "voltage drop percent" | "voltage drop percent, three phase" => {
            let volts = if inputs.has("voltage_drop") {
                inputs.si("voltage_drop")?
            } else if quantity.ends_with("three phase") {
                lost("cable.drop_three_phase", inputs)?
            } else {
                lost("cable.drop", inputs)?
            };
            physical("cable.drop_share", &[volts, inputs.si("voltage")?])
        }
        "share of allowed drop used by two cable sizes" => {
            let figures = [
                inputs.si("length1")?,
                inputs.si("allowed1")?,
                inputs.si("length2")?,
                inputs.si("allowed2")?,
            ];
            physical("mixed_cable.share_used", &figures)
        }
        "longest single-phase cable for a drop" => {
            inputs.note(&["AWG"]);
            let volts = inputs.si("voltage")? * inputs.si("allowed_drop")?;
            let figures = [volts, inputs.si("current")?, inputs.si("resistance")?];
            physical("cable.longest_run", &figures)
        }
        "voltage drop, single phase, metric cable at 70 degC"
        | "voltage drop, three phase, metric cable at 70 degC" => {
            let conductor = worked(inputs.si("area")?, inputs)?;
            let (amps, run) = (inputs.si("current")?, inputs.si("one_way_length")?);
            let name = if quantity.contains("three phase") {
                "cable.drop_three_phase"
            } else {
                "cable.drop"
            };
            physical(name, &[amps, conductor, run])
        }
        _ => unknown(quantity),
    }
}

pub fn motor(quantity: &str, inputs: &Inputs) -> Found {
    let name = match quantity {
        "full-load current, single phase" => "motor.single_phase_amps",
        "full-load current, three phase" => "motor.three_phase_amps",
        "minimum conductor ampacity, one continuous motor" => {
            let factor = inputs.or("factor", 1.25)?;
            if (factor - 1.25).abs() > 1e-9 {
                return Err(format!("the code's factor is 1.25, not {factor}"));
            }
            return physical("motor.ampacity", &[inputs.si("full_load_current")?]);
        }
        _ => return unknown(quantity),
    };
    let puts = [
        Put::Word(inputs.word("power")?),
        Put::Word(inputs.word("voltage")?),
    ];
    call(name, Basis::Physical, &puts)
}

/// The voltages that a quantity names: `ratio of cable loss, 120 V to 240 V`.
fn named_volts(quantity: &str) -> Vec<f64> {
    let words: Vec<&str> = quantity.split(' ').collect();
    let before = words.windows(2).filter(|pair| pair[1] == "V");
    before.filter_map(|pair| pair[0].parse().ok()).collect()
}

pub fn voltage_choice(quantity: &str, inputs: &Inputs) -> Found {
    let named = named_volts(quantity);
    let amps = |volts: f64| {
        let factor = inputs.or("power_factor", 1.0)?;
        figure("supply.current", &[inputs.si("power")?, volts, factor])
    };
    let loss = |volts: f64| {
        figure(
            "supply.loss",
            &[amps(volts)?, inputs.si("loop_resistance")?],
        )
    };
    let volts = |inputs: &Inputs| match named.first() {
        Some(named) => inputs.or("voltage", *named),
        None => inputs.si("voltage"),
    };
    if quantity.starts_with("line current at ") {
        amps(volts(inputs)?).map(Answer::Number)
    } else if quantity.starts_with("I2R loss at ") {
        loss(volts(inputs)?).map(Answer::Number)
    } else if let (true, [first, second]) = (
        quantity.starts_with("ratio of cable loss, "),
        named.as_slice(),
    ) {
        let (one, other) = (loss(*first)?, loss(*second)?);
        let ratio = figure("supply.loss_ratio", &[*first, *second])?;
        if (one / other / ratio - 1.0).abs() > 1e-9 {
            return Err(format!(
                "the losses stand as {one} to {other}, the ratio is {ratio}"
            ));
        }
        Ok(Answer::Number(ratio))
    } else {
        unknown(quantity)
    }
}

pub fn insulation(quantity: &str, inputs: &Inputs) -> Found {
    match quantity {
        "insulation resistance at another temperature"
        | "insulation resistance corrected to 40 degC" => {
            let from = inputs.si("temperature")?;
            let to = inputs.or("new_temperature", 313.15)?;
            physical(
                "insulation.at_temperature",
                &[inputs.si("resistance")?, from, to],
            )
        }
        _ => unknown(quantity),
    }
}

pub fn megohm_band(quantity: &str, inputs: &Inputs) -> Found {
    if quantity != "condition from a megohm reading" {
        return unknown(quantity);
    }
    let place = match inputs.word("place")? {
        place if place.contains("well") => "in the well with its cable",
        place if place.contains("bench") => "on the bench",
        place => return Err(format!("no place \"{place}\"")),
    };
    let puts = [Put::Figure(inputs.si("resistance")?), Put::Word(place)];
    call("insulation.band", Basis::Physical, &puts)
}

pub fn network(quantity: &str, inputs: &Inputs) -> Found {
    let name = match quantity {
        "parallel resistance" => "winding.in_parallel",
        "series resistance" => "winding.in_series",
        _ => return unknown(quantity),
    };
    let mut sum = inputs.si("R1")?;
    for at in 2.. {
        let next = format!("R{at}");
        if !inputs.has(&next) {
            break;
        }
        sum = figure(name, &[sum, inputs.si(&next)?])?;
    }
    Ok(Answer::Number(sum))
}

pub fn winding(quantity: &str, inputs: &Inputs) -> Found {
    match quantity {
        "end-to-end reading of a 3-lead motor" => {
            let figures = [inputs.si("main_winding")?, inputs.si("start_winding")?];
            physical("winding.end_to_end", &figures)
        }
        "motor winding resistance from a reading through the cable" => {
            let figures = [inputs.si("reading")?, inputs.si("cable_pair_resistance")?];
            physical("winding.from_reading", &figures)
        }
        _ => unknown(quantity),
    }
}

pub fn capacitor(quantity: &str, inputs: &Inputs) -> Found {
    match quantity {
        "capacitive reactance" => {
            let figures = [inputs.si("capacitance")?, inputs.si("frequency")?];
            physical("capacitor.reactance", &figures)
        }
        "capacitance from measured current and voltage" => {
            let (amps, volts) = (inputs.si("current")?, inputs.si("voltage")?);
            physical(
                "capacitor.from_current",
                &[amps, volts, inputs.si("frequency")?],
            )
        }
        _ => unknown(quantity),
    }
}

pub fn generator(quantity: &str, inputs: &Inputs) -> Found {
    match quantity {
        "minimum generator rating, 3-wire motor" => {
            let puts = [
                Put::Word(inputs.word("power")?),
                Put::Word(inputs.word("regulation")?),
            ];
            call("generator.three_wire", Basis::Physical, &puts)
        }
        "generator for a split-phase 2-wire motor" => {
            let figures = [inputs.si("three_wire_rating")?, inputs.or("increase", 0.5)?];
            physical("generator.two_wire", &figures)
        }
        _ => unknown(quantity),
    }
}

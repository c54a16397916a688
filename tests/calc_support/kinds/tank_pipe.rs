//! Tanks, relief valves, thermal expansion, plastic pipe, water hammer.

use pumpwright_calc::curve::Curve;
use pumpwright_calc::dimension::Measured;
use pumpwright_calc::registry::Basis;
use uom::si::f64::Length;

use super::super::inputs::{Inputs, Trouble};
use super::{Answer, Found, Put, Weight, call, figure, operating, physical, unknown, weight};

const STANDARD_ATMOSPHERE: f64 = 101_325.0;

fn charged(inputs: &Inputs) -> Result<[f64; 4], Trouble> {
    Ok([
        inputs.si("precharge")?,
        inputs.si("cut_in")?,
        inputs.si("cut_out")?,
        inputs.or("atmospheric", STANDARD_ATMOSPHERE)?,
    ])
}

pub fn tank_drawdown(quantity: &str, inputs: &Inputs) -> Found {
    if quantity != "tank drawdown" {
        return unknown(quantity);
    }
    let [precharge, cut_in, cut_out, air] = charged(inputs)?;
    let volume = inputs.si("tank_volume")?;
    physical(
        "tank.drawdown_under",
        &[volume, precharge, cut_in, cut_out, air],
    )
}

pub fn tank_size(quantity: &str, inputs: &Inputs) -> Found {
    match quantity {
        "minimum tank volume for run time" => {
            let [precharge, cut_in, cut_out, air] = charged(inputs)?;
            let (flow, time) = (inputs.si("pump_flow")?, inputs.si("minimum_run_time")?);
            physical(
                "tank_size.for_run_time_under",
                &[flow, time, precharge, cut_in, cut_out, air],
            )
        }
        "shortest pump cycle over all demands" => physical(
            "cycle.shortest",
            &[inputs.si("drawdown")?, inputs.si("pump_flow")?],
        ),
        _ => unknown(quantity),
    }
}

pub fn relief(quantity: &str, inputs: &Inputs) -> Found {
    let rise = inputs.or("tank_above_wellhead", 0.0)?;
    match quantity {
        "pressure at the tank with the pump at shutoff" => {
            let (head, level) = (inputs.si("shutoff_head")?, inputs.si("static_level")?);
            match weight(inputs)? {
                Weight::Trade => super::numbers(
                    "relief.shut_off_pressure",
                    Basis::UsTrade,
                    &[head, level, rise],
                ),
                density @ Weight::Density(_) => density
                    .turn("to_pressure", head - level - rise)
                    .map(Answer::Number),
            }
        }
        "flow the relief valve must pass at its setting" => {
            // Read off a printed curve, from point to point.
            let curve = Curve::by_lines(&operating::points(inputs)?)
                .map_err(|refusal| format!("refused: {refusal}"))?;
            let held = weight(inputs)?.turn("from_pressure", inputs.si("setting")?)?;
            let head = inputs.si("pumping_level")? + rise + held;
            let flow = curve.flow_at(Length::from_si(head));
            let flow = flow.map_err(|refusal| format!("refused: {refusal}"))?;
            Ok(Answer::Number(flow.si()))
        }
        _ => unknown(quantity),
    }
}

fn grown(inputs: &Inputs) -> Result<f64, Trouble> {
    let volume = inputs.first(&["volume", "heater_volume"])?;
    figure(
        "expansion.growth_between",
        &[volume, inputs.si("cold")?, inputs.si("hot")?],
    )
}

pub fn expansion(quantity: &str, inputs: &Inputs) -> Found {
    match quantity {
        "expanded volume of heated water" => grown(inputs).map(Answer::Number),
        _ => unknown(quantity),
    }
}

pub fn expansion_tank(quantity: &str, inputs: &Inputs) -> Found {
    if quantity != "expansion tank volume" {
        return unknown(quantity);
    }
    let water = if inputs.has("acceptance_volume") {
        inputs.si("acceptance_volume")?
    } else {
        grown(inputs)?
    };
    let figures = [
        water,
        inputs.si("precharge")?,
        inputs.si("maximum_pressure")?,
        inputs.or("atmospheric", STANDARD_ATMOSPHERE)?,
    ];
    physical("expansion.tank_under", &figures)
}

pub fn pe_pipe(quantity: &str, inputs: &Inputs) -> Found {
    match quantity {
        "dimension ratio DR" => {
            let figures = [inputs.si("outside_diameter")?, inputs.si("wall")?];
            physical("pipe.dimension_ratio", &figures)
        }
        "pressure rating at 73 degF, inside-diameter pipe" => {
            let figures = [inputs.si("SIDR")?, inputs.si("hydrostatic_design_stress")?];
            physical("pipe.rating_by_inside", &figures)
        }
        "pressure rating at 73 degF, outside-diameter pipe" => {
            let figures = [inputs.si("DR")?, inputs.si("hydrostatic_design_stress")?];
            physical("pipe.rating_by_outside", &figures)
        }
        "minimum wall of inside-diameter PE pipe" => {
            inputs.note(&["nominal"]);
            let figures = [inputs.si("inside_diameter")?, inputs.si("SIDR")?];
            physical("pipe.wall_by_inside", &figures)
        }
        "pressure rating at temperature" => {
            inputs.note(&["temperature"]);
            let factor = if inputs.has("multiplier") {
                inputs.si("multiplier")?
            } else {
                let puts = [
                    Put::Word("PE by AWWA M55"),
                    Put::Figure(inputs.si("temperature")?),
                ];
                match call("pipe.temperature_factor", Basis::Physical, &puts)? {
                    Answer::Number(factor) => factor,
                    Answer::Word(word) => return Err(format!("the factor is the word {word}")),
                }
            };
            physical("pipe.rating_warm", &[inputs.si("rating_73F")?, factor])
        }
        "working pressure at the bottom of a drop pipe" => {
            let (lift, cut_out) = (inputs.si("lift")?, inputs.si("cut_out_pressure")?);
            match weight(inputs)? {
                Weight::Trade => {
                    super::numbers("pipe.pressure_at_pump", Basis::UsTrade, &[lift, cut_out])
                }
                density @ Weight::Density(_) => {
                    Ok(Answer::Number(cut_out + density.turn("to_pressure", lift)?))
                }
            }
        }
        _ => unknown(quantity),
    }
}

pub fn thermal_length(quantity: &str, inputs: &Inputs) -> Found {
    if quantity != "length change of PE pipe" {
        return unknown(quantity);
    }
    let figures = [
        inputs.si("length")?,
        inputs.interval("temperature_change")?,
        inputs.interval("coefficient")?,
    ];
    physical("pipe.length_change", &figures)
}

pub fn hammer(quantity: &str, inputs: &Inputs) -> Found {
    match quantity {
        "pressure wave speed" => {
            let figures = [
                inputs.si("bulk_modulus")?,
                inputs.si("density")?,
                inputs.si("inside_diameter")?,
                inputs.si("wall")?,
                inputs.si("pipe_modulus")?,
            ];
            physical("hammer.wave_speed", &figures)
        }
        "Joukowsky pressure rise" => {
            let (wave, change) = (inputs.si("wave_speed")?, inputs.si("velocity_change")?);
            let density = if inputs.has("head_per_pressure") {
                1.0 / (inputs.si("head_per_pressure")? * inputs.or("g", super::GRAVITY)?)
            } else {
                inputs.first(&["density", "water_density"])?
            };
            physical("hammer.surge", &[wave, change, density])
        }
        _ => unknown(quantity),
    }
}

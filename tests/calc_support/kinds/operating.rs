//! Where pump and system meet, from the lists of points and pipes that rows give.

use pumpwright_calc::curve::{Curve, Point};
use pumpwright_calc::darcy::RoughPipe;
use pumpwright_calc::dimension::{FlowPerLength, Measured, WellLoss};
use pumpwright_calc::friction::Pipe;
use pumpwright_calc::operating::{Leg, Lift, System, operate};
use uom::si::f64::{KinematicViscosity, Length, VolumeRate};

use super::super::inputs::{Inputs, Trouble};
use super::super::units::to_si;
use super::{Answer, Found, figure, unknown, weight};

/// The pump's points: `(0,250) (10,190) (16,100)`.
pub fn points(inputs: &Inputs) -> Result<Vec<Point>, Trouble> {
    let lists = [
        ("pump_curve_gpm_ft", "gpm", "ft"),
        ("pump_curve_Ls_m", "L/s", "m"),
        ("pump_curve_Lmin_m", "L/min", "m"),
        ("pump_curve_m3h_m", "m3/h", "m"),
    ];
    let list = lists.iter().find(|(name, ..)| inputs.has(name));
    let (name, flow, head) = list.ok_or("no pump curve is given")?;
    inputs
        .word(name)?
        .split_whitespace()
        .map(|pair| {
            let inner = pair.trim_matches(['(', ')']);
            let (one, other) = inner.split_once(',').ok_or(format!("no point: {pair}"))?;
            let number = |text: &str, unit: &str| {
                let figure = text.parse().map_err(|_| format!("no figure: {text}"))?;
                to_si(figure, unit).ok_or(format!("no unit {unit}"))
            };
            Ok(Point {
                flow: VolumeRate::from_si(number(one, flow)?),
                head: Length::from_si(number(other, head)?),
            })
        })
        .collect()
}

/// The pump's curve through its points as EPANET draws it.
fn curve(inputs: &Inputs) -> Result<Curve, Trouble> {
    Curve::through(&points(inputs)?).map_err(|refusal| format!("refused: {refusal}"))
}

/// `140ft/1.049in/C150/K4 + 60ft/1.38in/C150/K2`.
fn legs(text: &str) -> Result<Vec<Leg>, Trouble> {
    text.split('+').map(|leg| one_leg(leg.trim())).collect()
}

fn one_leg(text: &str) -> Result<Leg, Trouble> {
    let (mut lengths, mut c, mut minor) = (Vec::new(), None, 0.0);
    for part in text.split('/') {
        let number = |text: &str| {
            text.parse::<f64>()
                .map_err(|_| format!("no figure: {part}"))
        };
        if let Some(smooth) = part.strip_prefix('C') {
            c = Some(number(smooth)?);
        } else if let Some(k) = part.strip_prefix('K') {
            minor = number(k)?;
        } else {
            let at = part
                .find(|c: char| c.is_alphabetic())
                .ok_or(format!("no unit: {part}"))?;
            let (figure, unit) = part.split_at(at);
            lengths.push(to_si(number(figure)?, unit).ok_or(format!("no unit {unit}"))?);
        }
    }
    match (lengths.as_slice(), c) {
        ([length, bore], Some(c)) => Ok(Leg::HazenWilliams {
            pipe: Pipe {
                length: Length::from_si(*length),
                bore: Length::from_si(*bore),
                c,
            },
            minor,
        }),
        _ => Err(format!("no pipe: {text}")),
    }
}

fn piping(inputs: &Inputs) -> Result<Vec<Leg>, Trouble> {
    if inputs.has("pipes") {
        return legs(inputs.word("pipes")?);
    }
    let length = Length::from_si(inputs.first(&["pipe_length", "length"])?);
    let bore = Length::from_si(inputs.si("inside_diameter")?);
    let minor = inputs.or("minor_K", 0.0)?;
    if inputs.has("C") {
        let pipe = Pipe {
            length,
            bore,
            c: inputs.si("C")?,
        };
        return Ok(vec![Leg::HazenWilliams { pipe, minor }]);
    }
    let viscosity = if inputs.has("kinematic_viscosity") {
        inputs.si("kinematic_viscosity")?
    } else {
        figure("water.kinematic_viscosity", &[inputs.si("temperature")?])?
    };
    Ok(vec![Leg::Darcy {
        pipe: RoughPipe {
            length,
            bore,
            roughness: Length::from_si(inputs.si("roughness")?),
        },
        viscosity: KinematicViscosity::from_si(viscosity),
        minor,
    }])
}

pub fn point(quantity: &str, inputs: &Inputs) -> Found {
    let level = inputs.first(&["pumping_level", "static_level"])?;
    let capacity = if inputs.has("specific_capacity") {
        Some(FlowPerLength::from_si(inputs.si("specific_capacity")?))
    } else {
        None
    };
    let held = weight(inputs)?.turn("from_pressure", inputs.or("tank_pressure", 0.0)?)?;
    let lift = Lift {
        level: Length::from_si(level),
        capacity,
        well_loss: WellLoss::from_si(0.0),
        rise: Length::from_si(inputs.or("tank_above_wellhead", 0.0)?),
        tank_head: Length::from_si(held),
    };
    let (curve, legs) = (curve(inputs)?, piping(inputs)?);
    let system = System {
        curve: &curve,
        lift,
        legs: &legs,
    };
    let at = operate(&system).map_err(|refusal| format!("refused: {refusal}"))?;
    match quantity {
        "operating flow" => Ok(Answer::Number(at.flow.si())),
        "operating pump head" => Ok(Answer::Number(at.head.si())),
        "pumping level" => Ok(Answer::Number(at.pumping_level.si())),
        _ => unknown(quantity),
    }
}

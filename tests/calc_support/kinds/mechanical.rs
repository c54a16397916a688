//! Hoist loads and counts along a string.

use super::super::inputs::{Inputs, Trouble};
use super::{Answer, Found, figure, physical, unknown};

/// Water of 62.4 lb/ft3, where a row does not say.
const WATER: f64 = 62.4 * 16.018_463_373_960_14;

fn string(inputs: &Inputs) -> Result<[f64; 6], Trouble> {
    Ok([
        inputs.si("length")?,
        inputs.si("pipe_weight")?,
        inputs.si("inside_diameter")?,
        inputs.or("pump_and_motor", 0.0)?,
        inputs.or("cable_weight", 0.0)?,
        inputs.or("water_weight", WATER)?,
    ])
}

pub fn lifting(quantity: &str, inputs: &Inputs) -> Found {
    match quantity {
        "hoist load in air with a full steel drop pipe" => {
            physical("lifting.load", &string(inputs)?)
        }
        "hoist load with the string partly under water" => {
            let mut figures = string(inputs)?.to_vec();
            figures.push(inputs.si("submerged_length")?);
            figures.push(inputs.or("pump_volume", 0.0)?);
            figures.push(inputs.si("steel_weight")?);
            physical("lifting.load_submerged", &figures)
        }
        "apparent weight under water" => {
            let gravity = inputs.or("g", super::GRAVITY)?;
            let water = inputs.first(&["water_density", "water_weight"])?;
            let figures = [inputs.si("mass")?, inputs.si("volume")?, water];
            let force = figure("lifting.apparent_weight", &figures)?;
            Ok(Answer::Number(force * gravity / super::GRAVITY))
        }
        "buoyant weight of steel pipe per foot" => {
            let (air, steel) = (inputs.si("weight_in_air")?, inputs.si("steel_weight")?);
            let water = inputs.or("water_weight", WATER)?;
            physical("lifting.weight_in_water", &[air, steel, water])
        }
        _ => unknown(quantity),
    }
}

pub fn spacing(quantity: &str, inputs: &Inputs) -> Found {
    inputs.note(&["item"]);
    match quantity {
        "number of places along a string" => {
            let (length, spacing) = (inputs.si("length")?, inputs.si("spacing")?);
            physical(
                "spacing.places",
                &[length, spacing, inputs.or("first_at", spacing)?],
            )
        }
        "joints of steel drop pipe" => physical(
            "spacing.joints",
            &[inputs.si("length")?, inputs.si("joint_length")?],
        ),
        _ => unknown(quantity),
    }
}

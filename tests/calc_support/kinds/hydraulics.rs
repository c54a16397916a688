//! Head, water, friction, fittings, pumps, power.

use pumpwright_calc::registry::Basis;

use super::super::inputs::{Inputs, Trouble};
use super::{Answer, Found, Put, Weight, call, figure, numbers, physical, unknown, weight};

pub fn head_pressure(quantity: &str, inputs: &Inputs) -> Found {
    let weight = weight(inputs)?;
    let turned = match quantity {
        "head from pressure, trade factor" | "head from pressure, real density" => {
            weight.turn("from_pressure", inputs.si("pressure")?)?
        }
        "pressure from head, trade factor" | "pressure from head, real density" => {
            weight.turn("to_pressure", inputs.si("head")?)?
        }
        _ => return unknown(quantity),
    };
    Ok(Answer::Number(turned))
}

pub fn water(quantity: &str, inputs: &Inputs) -> Found {
    let name = match quantity {
        "density of water at 1 atm" => "water.density",
        "dynamic viscosity of water at 1 atm" => "water.viscosity",
        "kinematic viscosity of water at 1 atm" => "water.kinematic_viscosity",
        _ => return unknown(quantity),
    };
    physical(name, &[inputs.si("temperature")?])
}

fn viscosity(inputs: &Inputs) -> Result<f64, Trouble> {
    if inputs.has("kinematic_viscosity") {
        return inputs.si("kinematic_viscosity");
    }
    let warmth = inputs.first(&["temperature", "water_temperature"])?;
    figure("water.kinematic_viscosity", &[warmth])
}

pub fn reynolds(quantity: &str, inputs: &Inputs) -> Found {
    if quantity != "Reynolds number" {
        return unknown(quantity);
    }
    let (flow, bore) = (inputs.si("flow")?, inputs.si("inside_diameter")?);
    physical("velocity.reynolds", &[flow, bore, viscosity(inputs)?])
}

pub fn friction_factor(quantity: &str, inputs: &Inputs) -> Found {
    let re = inputs.si("Re")?;
    let name = match quantity {
        "Darcy friction factor, laminar" => {
            inputs.note(&["relative_roughness"]);
            return physical("darcy.laminar", &[re]);
        }
        "Darcy friction factor, Colebrook" => "darcy.colebrook",
        "Darcy friction factor, Swamee-Jain" => "darcy.swamee_jain",
        "Darcy friction factor, Haaland" => "darcy.haaland",
        _ => return unknown(quantity),
    };
    physical(name, &[re, inputs.si("relative_roughness")?])
}

pub fn darcy(quantity: &str, inputs: &Inputs) -> Found {
    if quantity != "head loss, Darcy-Weisbach with Colebrook" {
        return unknown(quantity);
    }
    let figures = [
        inputs.first(&["length", "pipe_length"])?,
        inputs.si("inside_diameter")?,
        inputs.si("roughness")?,
        inputs.si("flow")?,
        viscosity(inputs)?,
    ];
    physical("darcy.head_loss", &figures)
}

pub fn hazen_williams(quantity: &str, inputs: &Inputs) -> Found {
    match quantity {
        "friction head, Hazen-Williams" => {
            friction(inputs, inputs.first(&["length", "pipe_length"])?)
        }
        "friction head per 1000 ft, Hazen-Williams" => {
            friction(inputs, inputs.or("length", 1_000.0 * 0.3048)?)
        }
        _ => unknown(quantity),
    }
}

fn friction(inputs: &Inputs, length: f64) -> Found {
    let (bore, flow) = (inputs.si("inside_diameter")?, inputs.si("flow")?);
    physical(
        "friction.hazen_williams",
        &[length, bore, flow, inputs.si("C")?],
    )
}

/// Valves by the names that rows give them.
const VALVES: &[(&str, &str)] = &[
    ("gate", "gate valve"),
    ("ball", "ball valve"),
    ("globe", "globe valve"),
    ("angle", "angle valve"),
    ("angle_y", "Y-pattern angle valve"),
    ("swing_check_angled", "swing check with angled seat"),
    ("swing_check_straight", "swing check with straight seat"),
    ("swing_check", "swing check with angled seat"),
    ("lift_check", "lift check in a globe body"),
    ("lift_check_straight", "lift check in a globe body"),
    ("lift_check_globe", "lift check in a globe body"),
    ("lift_check_angled", "lift check in an angle body"),
    ("foot_poppet", "foot valve with poppet"),
    ("foot_hinged", "foot valve with hinged disk"),
    ("plug", "plug valve"),
    ("plug_straight", "plug valve"),
    ("diaphragm_weir", "diaphragm valve over a weir"),
    ("diaphragm_straight", "straight diaphragm valve"),
    ("elbow_90", "90 elbow"),
    ("elbow_45", "45 elbow"),
    ("tee_run", "tee straight through"),
    ("tee_branch", "tee through branch"),
];

pub fn fittings(quantity: &str, inputs: &Inputs) -> Found {
    match quantity {
        "loss coefficient K of a valve" => {
            let named = inputs.word("valve")?;
            let valve = VALVES.iter().find(|(name, _)| *name == named);
            let (_, word) = valve.ok_or_else(|| format!("no valve \"{named}\""))?;
            let factor = inputs.si("fully_turbulent_friction_factor")?;
            let puts = [Put::Word(word), Put::Figure(factor)];
            call("fittings.coefficient", Basis::Physical, &puts)
        }
        "fitting head loss from K" => {
            let gravity = inputs.or("g", super::GRAVITY)?;
            let figures = [
                inputs.si("K")?,
                inputs.si("flow")?,
                inputs.si("inside_diameter")?,
            ];
            let head = figure("fittings.head_lost", &figures)?;
            Ok(Answer::Number(head * super::GRAVITY / gravity))
        }
        "equivalent length from K" => {
            let (k, bore) = (inputs.si("K")?, inputs.si("inside_diameter")?);
            let figures = [k, bore, inputs.si("friction_factor")?];
            physical("fittings.length_from_coefficient", &figures)
        }
        "total equivalent length from L/D" => {
            let (count, ratio) = (inputs.or("count", 1.0)?, inputs.si("L_over_D")?);
            physical(
                "fittings.equivalent_length",
                &[count, ratio, inputs.si("inside_diameter")?],
            )
        }
        _ => unknown(quantity),
    }
}

/// Depth from the well head to the water while pumping.
pub fn lift(inputs: &Inputs) -> Result<f64, Trouble> {
    if inputs.any(&["vertical_distance", "pumping_level"]) {
        return inputs.first(&["vertical_distance", "pumping_level"]);
    }
    let drawdown = if inputs.has("specific_capacity") {
        inputs.si("flow")? / inputs.si("specific_capacity")?
    } else {
        inputs.or("drawdown", 0.0)?
    };
    Ok(inputs.si("static_level")? + drawdown)
}

pub fn total_dynamic_head(quantity: &str, inputs: &Inputs) -> Found {
    match quantity {
        "total head at a well pump" | "total dynamic head of a well system" => {}
        _ => return unknown(quantity),
    }
    let pressure = inputs.first(&["pressure", "cut_out_pressure", "tank_pressure"])?;
    let held = weight(inputs)?.turn("from_pressure", pressure)?;
    let friction = if inputs.has("friction_head") {
        inputs.si("friction_head")?
    } else {
        let fittings = inputs.or("fitting_equivalent_length", 0.0)?;
        match friction(inputs, inputs.si("pipe_length")? + fittings)? {
            Answer::Number(head) => head,
            Answer::Word(word) => return Err(format!("friction gave the word {word}")),
        }
    };
    let rise = inputs.or("tank_above_wellhead", 0.0)?;
    physical("head.total", &[lift(inputs)?, rise, held, friction])
}

pub fn affinity(quantity: &str, inputs: &Inputs) -> Found {
    let (name, value) = match quantity {
        "flow after speed change" => ("affinity.flow", inputs.first(&["value", "flow"])?),
        "head after speed change" => ("affinity.head", inputs.first(&["value", "head"])?),
        "power after speed change" => ("affinity.power", inputs.first(&["value", "power"])?),
        "head after impeller trim" => {
            let head = inputs.first(&["head", "value"])?;
            let (from, to) = (inputs.si("diameter1")?, inputs.si("diameter2")?);
            return physical("affinity.head_after_trim", &[head, from, to]);
        }
        "flow after impeller trim" => {
            let flow = inputs.first(&["flow", "value"])?;
            let (from, to) = (inputs.si("diameter1")?, inputs.si("diameter2")?);
            return physical("affinity.flow_after_trim", &[flow, from, to]);
        }
        _ => return unknown(quantity),
    };
    physical(name, &[value, inputs.si("speed1")?, inputs.si("speed2")?])
}

/// Water power: by the trade's 3960 where no density is given.
fn water_power(inputs: &Inputs) -> Result<f64, Trouble> {
    let lifted = [inputs.si("flow")?, inputs.si("head")?];
    let found = if inputs.any(&["density", "water_temperature", "specific_weight"]) {
        let Weight::Density(density) = weight(inputs)? else {
            return Err("a trade factor beside a density".to_owned());
        };
        physical(
            "power.water_power_at_density",
            &[lifted[0], lifted[1], density],
        )
    } else {
        let us = inputs.in_unit("flow", "gpm") || inputs.in_unit("head", "ft");
        let basis = if us { Basis::UsTrade } else { Basis::SiTrade };
        numbers("power.water_power", basis, &lifted)
    };
    match found? {
        Answer::Number(power) => Ok(power),
        Answer::Word(word) => Err(format!("power gave the word {word}")),
    }
}

pub fn power(quantity: &str, inputs: &Inputs) -> Found {
    let shaft = |inputs: &Inputs| {
        figure(
            "power.shaft_power",
            &[water_power(inputs)?, inputs.si("pump_efficiency")?],
        )
    };
    match quantity {
        "water horsepower" | "hydraulic power" => water_power(inputs).map(Answer::Number),
        "brake horsepower" | "shaft power" => shaft(inputs).map(Answer::Number),
        "electrical input power" => {
            let figures = [shaft(inputs)?, inputs.si("motor_efficiency")?];
            let us = inputs.in_unit("flow", "gpm");
            let basis = if us { Basis::UsTrade } else { Basis::SiTrade };
            numbers("power.input_power", basis, &figures)
        }
        "energy cost" => {
            let energy = figure(
                "power.energy",
                &[inputs.si("power")?, inputs.si("running_time")?],
            )?;
            physical("power.cost", &[energy, inputs.si("rate")? * 3.6e6])
        }
        "monthly energy cost from daily use" => {
            let figures = [
                inputs.si("daily_use")?,
                inputs.si("pump_flow")?,
                inputs.si("power")?,
                inputs.si("rate")? * 3.6e6,
                inputs.si("days")?,
            ];
            physical("power.cost_of_water", &figures)
        }
        _ => unknown(quantity),
    }
}

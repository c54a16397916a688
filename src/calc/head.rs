//! Pressure and head of water, each turned into the other, and the total head
//! of a pump. Friction comes from its own subject.

use uom::si::f64::{Length, MassDensity, Pressure};

use crate::bounds::{Bounds, Refusal};
use crate::calling::call;
use crate::dimension::Measured;
use crate::ports::{DENSITY, LENGTH, PRESSURE, port};
use crate::registry::{Basis, Function, Law, Pair};
use crate::units::{FOOT, KILOGRAM_PER_CUBIC_METER, KILOPASCAL, METER, PSI, STANDARD_GRAVITY};

/// Feet of water in one psi.
const FEET_PER_PSI: f64 = 2.31;
/// Kilopascals in one meter of water.
const KPA_PER_METER: f64 = 9.81;
/// Kilopascals in one meter of water of 1000 kg/m³ under standard gravity.
const PHYSICAL_KPA_PER_METER: f64 = STANDARD_GRAVITY;

const GAUGE: Bounds = Bounds {
    what: "pressure",
    unit: "psi",
    min: -14.7,
    max: 10_000.0,
};
const HEAD: Bounds = Bounds {
    what: "head",
    unit: "ft",
    min: -34.0,
    max: 25_000.0,
};
const WATER: Bounds = Bounds {
    what: "density of the water",
    unit: "kg/m3",
    min: 900.0,
    max: 1_300.0,
};
const LIFT: Bounds = Bounds {
    what: "lift",
    unit: "ft",
    min: -500.0,
    max: 10_000.0,
};
const RISE: Bounds = Bounds {
    what: "rise",
    unit: "ft",
    min: -5_000.0,
    max: 10_000.0,
};
const PRESSURE_HEAD: Bounds = Bounds {
    what: "pressure head",
    ..HEAD
};
const FRICTION: Bounds = Bounds {
    what: "friction head",
    unit: "ft",
    min: 0.0,
    max: 10_000.0,
};

/// Head of water that a pressure holds up.
///
/// # Formula
/// ```text
/// h = 2.31 · p      h in ft, p in psi         (trade, feet and psi)
/// h = p / 9.81      h in m,  p in kPa         (trade, metric)
/// h = p / 9.80665   h in m,  p in kPa         (physical)
/// ```
/// Arguments carry their own units; the conversion happens inside.
///
/// # Valid for
/// Fresh cold water. The physical basis takes 1000 kg/m³ and standard gravity;
/// where the water's own density is known, use [`from_pressure_at_density`].
///
/// # Source
/// 2.31 ft a psi: MIL-HDBK-1164, appendix A, field head calculation. 9.81 kPa a
/// meter: common practice, no source. The accepted span of p is our own choice;
/// no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] when the pressure lies outside its accepted span.
///
/// # Example
/// *Mathematics and Statistics for the Environment*, example 2.57: 40 psi holds
/// up 92.4 ft.
/// ```
/// use pumpwright_calc::{head::from_pressure, registry::Basis};
/// use uom::si::f64::Pressure;
/// use uom::si::{length::foot, pressure::psi};
///
/// let head = from_pressure(Pressure::new::<psi>(40.0), Basis::UsTrade)?;
/// assert_eq!(format!("{:.1}", head.get::<foot>()), "92.4");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn from_pressure(pressure: Pressure, basis: Basis) -> Result<Length, Refusal> {
    let figure = GAUGE.check(PSI.read(pressure))?;
    Ok(match basis {
        Basis::UsTrade => FOOT.of(FEET_PER_PSI * figure),
        Basis::SiTrade => METER.of(KILOPASCAL.read(pressure) / KPA_PER_METER),
        Basis::Physical => METER.of(KILOPASCAL.read(pressure) / PHYSICAL_KPA_PER_METER),
    })
}

/// Pressure that a head of water makes.
///
/// # Formula
/// ```text
/// p = h / 2.31      p in psi, h in ft         (trade, feet and psi)
/// p = 9.81 · h      p in kPa, h in m          (trade, metric)
/// p = 9.80665 · h   p in kPa, h in m          (physical)
/// ```
/// Arguments carry their own units; the conversion happens inside.
///
/// # Valid for
/// Fresh cold water. The physical basis takes 1000 kg/m³ and standard gravity;
/// where the water's own density is known, use [`to_pressure_at_density`].
///
/// # Source
/// 2.31 ft a psi: MIL-HDBK-1164, appendix A, field head calculation. 9.81 kPa a
/// meter: common practice, no source. The accepted span of h is our own choice;
/// no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] when the head lies outside its accepted span.
///
/// # Example
/// *Mathematics and Statistics for the Environment*, example 2.58: 40 ft makes
/// 17.32 psi.
/// ```
/// use pumpwright_calc::{head::to_pressure, registry::Basis};
/// use uom::si::f64::Length;
/// use uom::si::{length::foot, pressure::psi};
///
/// let pressure = to_pressure(Length::new::<foot>(40.0), Basis::UsTrade)?;
/// assert_eq!(format!("{:.2}", pressure.get::<psi>()), "17.32");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn to_pressure(head: Length, basis: Basis) -> Result<Pressure, Refusal> {
    let figure = HEAD.check(FOOT.read(head))?;
    Ok(match basis {
        Basis::UsTrade => PSI.of(figure / FEET_PER_PSI),
        Basis::SiTrade => KILOPASCAL.of(KPA_PER_METER * METER.read(head)),
        Basis::Physical => KILOPASCAL.of(PHYSICAL_KPA_PER_METER * METER.read(head)),
    })
}

/// Head that a pressure holds up in water of a given density.
///
/// # Formula
/// ```text
/// h = p / (ρ · g)
///
/// h  head       m      p  pressure           Pa
/// ρ  density    kg/m³  g  standard gravity   9.80665 m/s²
/// ```
/// Arguments carry their own units; the conversion happens inside.
///
/// # Valid for
/// Any still water; density from [`crate::water::density`] or a hydrometer.
///
/// # Source
/// Hydrostatics. Standard gravity: third General Conference on Weights and
/// Measures, 1901 (from memory). The accepted spans of p and ρ are our own
/// choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the first argument outside its accepted span.
///
/// # Example
/// 275 kPa at 10 °C, where IAPWS-IF97 gives 999.70154 kg/m³: 28.050568 m.
/// ```
/// use pumpwright_calc::head::from_pressure_at_density;
/// use uom::si::f64::{MassDensity, Pressure};
/// use uom::si::{length::meter, mass_density::kilogram_per_cubic_meter, pressure::kilopascal};
///
/// let water = MassDensity::new::<kilogram_per_cubic_meter>(999.70154);
/// let head = from_pressure_at_density(Pressure::new::<kilopascal>(275.0), water)?;
/// assert_eq!(format!("{:.4}", head.get::<meter>()), "28.0506");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn from_pressure_at_density(
    pressure: Pressure,
    density: MassDensity,
) -> Result<Length, Refusal> {
    GAUGE.check(PSI.read(pressure))?;
    let density = WATER.check(KILOGRAM_PER_CUBIC_METER.read(density))?;
    Ok(METER.of(pressure.si() / (density * STANDARD_GRAVITY)))
}

/// Pressure that a head makes in water of a given density.
///
/// # Formula
/// ```text
/// p = ρ · g · h
///
/// p  pressure   Pa     h  head               m
/// ρ  density    kg/m³  g  standard gravity   9.80665 m/s²
/// ```
/// Arguments carry their own units; the conversion happens inside.
///
/// # Valid for
/// Any still water; density from [`crate::water::density`] or a hydrometer.
///
/// # Source
/// Hydrostatics. Standard gravity: third General Conference on Weights and
/// Measures, 1901 (from memory). The accepted spans of h and ρ are our own
/// choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the first argument outside its accepted span.
///
/// # Example
/// 40.861951 m at 20 °C, where IAPWS-IF97 gives 998.20609 kg/m³: 400 kPa.
/// ```
/// use pumpwright_calc::head::to_pressure_at_density;
/// use uom::si::f64::{Length, MassDensity};
/// use uom::si::{length::meter, mass_density::kilogram_per_cubic_meter, pressure::kilopascal};
///
/// let water = MassDensity::new::<kilogram_per_cubic_meter>(998.20609);
/// let pressure = to_pressure_at_density(Length::new::<meter>(40.861951), water)?;
/// assert_eq!(format!("{:.3}", pressure.get::<kilopascal>()), "400.000");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn to_pressure_at_density(head: Length, density: MassDensity) -> Result<Pressure, Refusal> {
    HEAD.check(FOOT.read(head))?;
    let density = WATER.check(KILOGRAM_PER_CUBIC_METER.read(density))?;
    Ok(Pressure::from_si(density * STANDARD_GRAVITY * head.si()))
}

/// The four parts of a pump's total head.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Parts {
    /// From the pumping level up to the well head.
    pub lift: Length,
    /// From the well head up to the tank; less than zero when the tank is lower.
    pub rise: Length,
    /// Head of the pressure wanted in the tank.
    pub pressure_head: Length,
    /// Lost in pipe and fittings at the flow wanted.
    pub friction: Length,
}

/// Total dynamic head: all that the pump has to make at the flow wanted.
///
/// # Formula
/// ```text
/// H = l + r + p + f
///
/// H  total head      l  lift            r  rise
/// p  pressure head   f  friction head              all one unit
/// ```
///
/// # Valid for
/// A pump that discharges under pressure. Velocity head is left out: about
/// 0.2 ft at household flows. The lift is measured from the pumping level, never
/// from the pump.
///
/// # Source
/// MIL-HDBK-1164, appendix A, field head calculation. The accepted spans are our
/// own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the first part outside its accepted span.
///
/// # Example
/// MIL-HDBK-1164, appendix A, step 5: 60 ft of lift, 80.9 ft of pressure head
/// and 0.9 ft of friction make 141.8 ft.
/// ```
/// use pumpwright_calc::head::{Parts, total};
/// use uom::si::f64::Length;
/// use uom::si::length::foot;
///
/// let parts = Parts {
///     lift: Length::new::<foot>(60.0),
///     rise: Length::new::<foot>(0.0),
///     pressure_head: Length::new::<foot>(80.9),
///     friction: Length::new::<foot>(0.9),
/// };
/// assert_eq!(format!("{:.1}", total(parts)?.get::<foot>()), "141.8");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn total(parts: Parts) -> Result<Length, Refusal> {
    LIFT.check(FOOT.read(parts.lift))?;
    RISE.check(FOOT.read(parts.rise))?;
    PRESSURE_HEAD.check(FOOT.read(parts.pressure_head))?;
    FRICTION.check(FOOT.read(parts.friction))?;
    Ok(parts.lift + parts.rise + parts.pressure_head + parts.friction)
}

const TRADE_SOURCE: &str = "2.31 ft a psi: MIL-HDBK-1164, appendix A, field head calculation; \
    9.81 kPa a meter: common practice, no source";
const HYDROSTATICS: &str = "hydrostatics with standard gravity, 9.80665 m/s2 (third General \
    Conference on Weights and Measures, 1901, from memory)";

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "head.from_pressure",
        title: "head that a pressure holds up",
        inputs: &[port("pressure", "p", "pressure", PRESSURE)],
        gives: port("head", "h", "head", LENGTH),
        law: Law::Shown(Pair {
            us: "2.31 * p",
            si: "p / 9.81",
        }),
        valid: "Fresh cold water.",
        source: TRADE_SOURCE,
        caution: None,
        edition: 1,
        call: call!(basis, (pressure: Pressure) => from_pressure(pressure, basis)),
    },
    Function {
        name: "head.to_pressure",
        title: "pressure that a head makes",
        inputs: &[port("head", "h", "head", LENGTH)],
        gives: port("pressure", "p", "pressure", PRESSURE),
        law: Law::Shown(Pair {
            us: "h / 2.31",
            si: "9.81 * h",
        }),
        valid: "Fresh cold water.",
        source: TRADE_SOURCE,
        caution: None,
        edition: 1,
        call: call!(basis, (head: Length) => to_pressure(head, basis)),
    },
    Function {
        name: "head.from_pressure_at_density",
        title: "head that a pressure holds up in water of a known density",
        inputs: &[
            port("pressure", "p", "pressure", PRESSURE),
            port("density", "w", "density of the water", DENSITY),
        ],
        gives: port("head", "h", "head", LENGTH),
        law: Law::Shown(Pair {
            us: "144 * p / w",
            si: "1000 * p / (9.80665 * w)",
        }),
        valid: "Still water of the density given.",
        source: HYDROSTATICS,
        caution: None,
        edition: 1,
        call: call!(_, (pressure: Pressure, density: MassDensity) =>
            from_pressure_at_density(pressure, density)),
    },
    Function {
        name: "head.to_pressure_at_density",
        title: "pressure that a head makes in water of a known density",
        inputs: &[
            port("head", "h", "head", LENGTH),
            port("density", "w", "density of the water", DENSITY),
        ],
        gives: port("pressure", "p", "pressure", PRESSURE),
        law: Law::Shown(Pair {
            us: "h * w / 144",
            si: "9.80665 * w * h / 1000",
        }),
        valid: "Still water of the density given.",
        source: HYDROSTATICS,
        caution: None,
        edition: 1,
        call: call!(_, (head: Length, density: MassDensity) =>
            to_pressure_at_density(head, density)),
    },
    Function {
        name: "head.total",
        title: "total dynamic head of a pump",
        inputs: &[
            port("lift", "l", "lift from the pumping level", LENGTH),
            port("rise", "r", "rise from the well head to the tank", LENGTH),
            port("pressure_head", "p", "head of the pressure wanted", LENGTH),
            port("friction", "f", "friction head", LENGTH),
        ],
        gives: port("head", "h", "total head", LENGTH),
        law: Law::Shown(Pair::both("l + r + p + f")),
        valid: "Velocity head is left out. Lift is from the pumping level.",
        source: "MIL-HDBK-1164, appendix A, field head calculation",
        caution: None,
        edition: 1,
        call: call!(_, (lift: Length, rise: Length, pressure_head: Length, friction: Length) =>
            total(Parts { lift, rise, pressure_head, friction })),
    },
];

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    const EVERY: [Basis; 3] = [Basis::UsTrade, Basis::SiTrade, Basis::Physical];

    #[test]
    fn a_basis_changes_the_figure() {
        let fifty = PSI.of(50.0);
        let feet = |basis| FOOT.read(from_pressure(fifty, basis).unwrap());
        assert!((feet(Basis::UsTrade) - 115.5).abs() < 1e-9);
        assert!((feet(Basis::SiTrade) - 115.293).abs() < 1e-3);
        assert!((feet(Basis::Physical) - 115.333).abs() < 1e-3);
    }

    #[test]
    fn no_number_and_no_end_is_refused() {
        for figure in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, -15.0, 1e9] {
            assert!(from_pressure(PSI.of(figure), Basis::UsTrade).is_err());
            assert!(to_pressure(FOOT.of(figure * 3.0), Basis::UsTrade).is_err());
        }
        let nothing = MassDensity::from_si(0.0);
        assert!(from_pressure_at_density(PSI.of(1.0), nothing).is_err());
        assert!(to_pressure_at_density(FOOT.of(1.0), nothing).is_err());
    }

    #[test]
    fn nothing_holds_up_nothing() {
        for basis in EVERY {
            assert_eq!(from_pressure(PSI.of(0.0), basis), Ok(FOOT.of(0.0)));
        }
    }

    #[test]
    fn a_tank_below_the_well_head_takes_head_off() {
        let parts = Parts {
            lift: FOOT.of(265.0),
            rise: FOOT.of(-4.0),
            pressure_head: FOOT.of(115.5),
            friction: FOOT.of(13.5),
        };
        assert!((FOOT.read(total(parts).unwrap()) - 390.0).abs() < 1e-9);
        let negative = Parts {
            friction: FOOT.of(-1.0),
            ..parts
        };
        let refusal = total(negative).unwrap_err().to_string();
        assert_eq!(refusal, "friction head is -1 ft; it must be 0 to 10000 ft");
    }

    proptest! {
        #[test]
        fn there_and_back_is_where_it_began(figure in -14.0..9_000.0_f64, at in 0_usize..3) {
            let pressure = PSI.of(figure);
            let back = to_pressure(from_pressure(pressure, EVERY[at]).unwrap(), EVERY[at]).unwrap();
            prop_assert!((PSI.read(back) - figure).abs() <= 1e-12 * figure.abs().max(1.0));
        }

        #[test]
        fn heavier_water_is_held_less_high(figure in 1.0..900.0_f64, density in 950.0..1_100.0_f64) {
            let high = |density| from_pressure_at_density(
                PSI.of(figure), MassDensity::from_si(density)).unwrap().si();
            prop_assert!(high(density + 1.0) < high(density));
            let water = MassDensity::from_si(density);
            let back = to_pressure_at_density(Length::from_si(high(density)), water).unwrap();
            prop_assert!((PSI.read(back) / figure - 1.0).abs() <= 1e-12);
        }
    }
}

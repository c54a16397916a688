//! What a megohm reading from lead to ground says of a motor's insulation. What
//! to do about it is for the one who took it.

use uom::si::f64::{ElectricalResistance, ThermodynamicTemperature};
use uom::si::thermodynamic_temperature::degree_celsius;

use crate::bounds::{Bounds, Refusal};
use crate::calling::{call, words};
use crate::dimension::Measured;
use crate::ports::{MEGOHMS, TEMPERATURE, port, word};
use crate::registry::{Function, Law};
use crate::units::MEGOHM;

const READING: Bounds = Bounds {
    what: "megohm reading",
    unit: "megohm",
    min: 0.0,
    max: 1_000_000.0,
};

const WARMTH: Bounds = Bounds::of("temperature of the winding", "degC", -40.0, 200.0);
const WANTED: Bounds = Bounds::of("temperature wanted", "degC", -40.0, 200.0);
/// Degrees Celsius that halve a resistance.
const HALVING: f64 = 10.0;

/// Where the motor is when the reading is taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Place {
    /// On the bench, without drop cable.
    Bench,
    /// In the well, read through its drop cable.
    Well,
}
words!(Place, "\"on the bench\" or \"in the well with its cable\"", {
    Bench = "on the bench",
    Well = "in the well with its cable",
});

/// Condition of the insulation, in the table's order.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Condition {
    /// As a new motor reads.
    New,
    /// A used motor that can go back into the well; on the bench only.
    Used,
    /// Good condition; in the well only.
    Good,
    /// Insulation damage; in the well only.
    Damage,
    /// Below the lowest figure that the table has for the bench.
    BelowTable,
}
words!(Condition, "a condition", {
    New = "new motor",
    Used = "used motor fit to go back",
    Good = "good condition",
    Damage = "insulation damage",
    BelowTable = "below the table",
});

/// Condition of a submersible motor's insulation from a megohm reading.
///
/// # Formula
/// ```text
///                              on the bench       in the well with its cable
/// new motor                    200 megohm up      2 megohm up
/// used motor fit to go back    10 to 200          -
/// good condition               -                  0.5 to 2
/// insulation damage            -                  under 0.5
/// below the table              under 10           -
/// ```
/// The lower edge belongs to a band.
///
/// # Valid for
/// A 500 V direct-current tester, every lead to ground, power off. Other makers
/// print other bands; one table puts damage under 1 megohm, another does not
/// pull a motor above 0.02. Name the table beside the verdict.
///
/// # Source
/// A submersible-motor installation manual, table 45 (500 V megohmmeter). The
/// table is silent on a bench reading under 10 megohm. The accepted span of the
/// reading is our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] for what is no reading.
///
/// # Example
/// That table: 1.1 megohm in the well is good condition (0.5 to 2.0).
/// ```
/// use pumpwright_calc::insulation::{Condition, Place, band};
/// use uom::si::{electrical_resistance::megaohm, f64::ElectricalResistance};
///
/// let reading = ElectricalResistance::new::<megaohm>(1.1);
/// assert_eq!(band(reading, Place::Well)?, Condition::Good);
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn band(resistance: ElectricalResistance, place: Place) -> Result<Condition, Refusal> {
    let reading = READING.check(MEGOHM.read(resistance))?;
    let bands: &[(f64, Condition)] = match place {
        Place::Bench => &[
            (200.0, Condition::New),
            (10.0, Condition::Used),
            (0.0, Condition::BelowTable),
        ],
        Place::Well => &[
            (2.0, Condition::New),
            (0.5, Condition::Good),
            (0.0, Condition::Damage),
        ],
    };
    let found = bands.iter().find(|(least, _)| reading >= *least);
    found
        .map(|(_, condition)| *condition)
        .ok_or(Refusal::OutOfRange {
            bounds: READING,
            figure: reading,
        })
}

/// Insulation resistance brought to another temperature.
///
/// # Formula
/// ```text
/// r = R · 0.5^((t - T) / 10)
///
/// r  resistance at t   R  resistance at T   t, T  temperatures, °C
/// ```
///
/// # Valid for
/// Old winding insulation, by the rule of halving for every 10 °C. A tester's manual goes
/// in straight lines between tens: 6.0 where the rule gives 8 at 50 °C. Name which.
///
/// # Source
/// IEEE 43, as a temperature-correction page quotes it. The accepted spans are our own
/// choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// An insulation tester's manual, cable example: 150 megohm at 20 °C are 75 at 30 °C.
/// ```
/// use pumpwright_calc::insulation::at_temperature;
/// use uom::si::f64::{ElectricalResistance, ThermodynamicTemperature};
/// use uom::si::electrical_resistance::megaohm;
/// use uom::si::thermodynamic_temperature::degree_celsius;
///
/// let reading = ElectricalResistance::new::<megaohm>(150.0);
/// let warmth = ThermodynamicTemperature::new::<degree_celsius>;
/// let other = at_temperature(reading, warmth(20.0), warmth(30.0))?;
/// assert_eq!(format!("{:.2}", other.get::<megaohm>()), "75.00");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn at_temperature(
    resistance: ElectricalResistance,
    from: ThermodynamicTemperature,
    to: ThermodynamicTemperature,
) -> Result<ElectricalResistance, Refusal> {
    READING.check(MEGOHM.read(resistance))?;
    WARMTH.check(from.get::<degree_celsius>())?;
    WANTED.check(to.get::<degree_celsius>())?;
    Ok(resistance * libm::pow(0.5, (to.si() - from.si()) / HALVING))
}

const TESTED: Option<&str> = Some(
    "Power off, locked out and proved dead before the leads come off; the tester's own 500 V \
    stays on the cable until it is discharged. Other makers print other bands: the manual of \
    the motor at hand decides.",
);

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "insulation.band",
        title: "condition of a motor's insulation from a megohm reading",
        inputs: &[
            port("resistance", "r", "megohm reading", MEGOHMS),
            port("place", "p", "where the motor is", word(Place::WORDS)),
        ],
        gives: port("condition", "c", "condition", word(Condition::WORDS)),
        law: Law::Named("by the motor maker's table of insulation readings"),
        valid: "A 500 V direct-current tester, every lead to ground, power off.",
        source: "a submersible-motor installation manual, table 45 (500 V megohmmeter)",
        caution: TESTED,
        edition: 1,
        call: call!(_, (resistance: ElectricalResistance, place: Place) => band(resistance, place)),
    },
    Function {
        name: "insulation.at_temperature",
        title: "insulation resistance brought to another temperature",
        inputs: &[
            port("resistance", "r", "megohm reading", MEGOHMS),
            port("from", "f", "temperature of the winding", TEMPERATURE),
            port("to", "t", "temperature wanted", TEMPERATURE),
        ],
        gives: port("resistance", "w", "insulation resistance", MEGOHMS),
        law: Law::Named("by the rule that every 10 degC halve it"),
        valid: "Old winding insulation; a tester's manual may go in straight lines.",
        source: "IEEE 43, as a temperature-correction page quotes it",
        caution: TESTED,
        edition: 1,
        call: call!(_, (
        resistance: ElectricalResistance,
        from: ThermodynamicTemperature,
        to: ThermodynamicTemperature
    ) => at_temperature(resistance, from, to)),
    },
];

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn says(reading: f64, place: Place) -> Condition {
        band(MEGOHM.of(reading), place).unwrap()
    }

    #[test]
    fn the_lower_edge_belongs_to_the_band() {
        assert_eq!(says(2.0, Place::Well), Condition::New);
        assert_eq!(says(1.999, Place::Well), Condition::Good);
        assert_eq!(says(0.5, Place::Well), Condition::Good);
        assert_eq!(says(0.499, Place::Well), Condition::Damage);
        assert_eq!(says(200.0, Place::Bench), Condition::New);
        assert_eq!(says(199.9, Place::Bench), Condition::Used);
        assert_eq!(says(10.0, Place::Bench), Condition::Used);
        assert_eq!(says(9.99, Place::Bench), Condition::BelowTable);
    }

    #[test]
    fn a_dead_short_is_damage() {
        assert_eq!(says(0.0, Place::Well), Condition::Damage);
        assert_eq!(says(0.0, Place::Bench), Condition::BelowTable);
    }

    #[test]
    fn what_is_no_reading_is_refused() {
        for figure in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, -0.1] {
            assert!(band(MEGOHM.of(figure), Place::Well).is_err());
        }
    }

    proptest! {
        #[test]
        fn ten_degrees_halve_and_the_way_back_restores(reading in 0.1..900.0_f64,
            from in 0.0..60.0_f64, to in 0.0..60.0_f64) {
            let warm = |celsius| ThermodynamicTemperature::new::<degree_celsius>(celsius);
            let there = at_temperature(MEGOHM.of(reading), warm(from), warm(to)).unwrap();
            let back = at_temperature(there, warm(to), warm(from)).unwrap();
            prop_assert!((MEGOHM.read(back) / reading - 1.0).abs() < 1e-12);
            let half = at_temperature(MEGOHM.of(reading), warm(from), warm(from + 10.0)).unwrap();
            prop_assert!((MEGOHM.read(half) / reading - 0.5).abs() < 1e-12);
        }

        #[test]
        fn a_higher_reading_is_never_worse(reading in 0.0..500.0_f64, more in 0.0..500.0_f64) {
            let rank = |condition: Condition| Condition::WORDS
                .iter().position(|word| *word == condition.word());
            for place in [Place::Bench, Place::Well] {
                prop_assert!(rank(says(reading + more, place)) <= rank(says(reading, place)));
            }
        }
    }
}

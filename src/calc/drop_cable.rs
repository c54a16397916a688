//! Drop cable by two bases: the pair as a motor maker prints it cold, and the smallest
//! metric size for the volts allowed.

use uom::si::f64::{Area, ElectricCurrent, ElectricPotential, Length, ThermodynamicTemperature};
use uom::si::thermodynamic_temperature::degree_celsius;

use crate::bounds::{Bounds, Refusal};
use crate::cable::{Allowance, ohms_allowed};
use crate::calling::call;
use crate::conductor::{Class, table_ohms_mm2};
use crate::dimension::{Measured, ResistancePerLength};
use crate::motor::PLATE;
use crate::ports::{
    CONDUCTOR_AREA, CURRENT, LENGTH, PAIR_OHMS, PLAIN, TEMPERATURE, VOLTS, port, word,
};
use crate::registry::{Function, Law};
use crate::tables::look_up;
use crate::units::{OHM_PER_KILOFOOT, SQUARE_MILLIMETER};

const MAKER: &str = include_str!("tables/drop_cable_pair_50f.csv");
/// Metric sizes, smallest first.
const SIZES: [f64; 7] = [1.5, 2.5, 4.0, 6.0, 10.0, 16.0, 25.0];
/// Rise of copper's resistance a degree Celsius, from 20 °C.
const RISE_FROM_20C: f64 = 0.003_93;
/// What changing units leaves behind must not take the next size.
const DUST: f64 = 1e-9;

const GAUGE: Bounds = Bounds::of("AWG size", "", -3.0, 40.0);
const WARMTH: Bounds = Bounds::of("temperature of the conductor", "degC", -60.0, 150.0);

/// Resistance of a drop cable's pair as a motor maker prints it, at 50 °F.
///
/// # Formula
/// ```text
/// a row of the table
/// ```
///
/// # Valid for
/// A cold reading with a meter through drop cable of 14 to 4 AWG. It lies 5 to 10 percent
/// above plain copper at that temperature: for volts lost take
/// [`crate::conductor::table_ohms`], at 75 °C.
///
/// # Source
/// A submersible-motor manual's table of cable resistance; 14 to 8 AWG read, 6 and 4 from
/// memory.
///
/// # Errors
/// [`Refusal::OutOfRange`] for what is no size; [`Refusal::Conflict`] where the table has
/// no row.
///
/// # Example
/// That table: 0.338 ohm per 100 ft of 12 AWG pair.
/// ```
/// use pumpwright_calc::drop_cable::pair_at_50f;
/// use uom::si::{electrical_resistance::ohm, f64::Length, length::foot};
///
/// let pair = pair_at_50f(12.0)?;
/// assert_eq!(format!("{:.3}", (pair * Length::new::<foot>(100.0)).get::<ohm>()), "0.338");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn pair_at_50f(awg: f64) -> Result<ResistancePerLength, Refusal> {
    let ohms = look_up(MAKER, GAUGE.check(awg)?, "pair");
    ohms.map(|ohms| OHM_PER_KILOFOOT.of(10.0 * ohms))
        .ok_or(Refusal::Conflict(
            "the maker's table has no row for this AWG size",
        ))
}

/// Smallest metric conductor that loses no more than the volts allowed.
///
/// # Formula
/// ```text
/// the first of 1.5, 2.5, 4, 6, 10, 16, 25 mm² whose greatest resistance by IEC 60228, warmed
/// by 0.00393 a degree from 20 °C, is out and back at most V / I
///
/// V  volts that may be lost   I  current
/// ```
///
/// # Valid for
/// Single phase, plain copper. 70 °C is what a loaded PVC cable may reach. What the size
/// may carry is another question.
///
/// # Source
/// Ohm's law with IEC 60228:2004; 0.00393: NBS Handbook 100. The accepted spans are our own
/// choice; no source.
///
/// # Errors
/// As [`crate::cable::ohms_allowed`]; [`Refusal::Conflict`] where no size will do.
///
/// # Example
/// By the table's 7.41 and 4.61 ohm per km at 20 °C: 6 A over 90 m lose 8.0 V in 2.5 mm² and
/// 5.0 V in 4 mm², so 6 V ask for 4.
/// ```
/// use pumpwright_calc::{cable::Allowance, conductor::Class, drop_cable::smallest_metric};
/// use uom::si::f64::{ElectricCurrent, ElectricPotential, Length, ThermodynamicTemperature};
/// use uom::si::{area::square_millimeter, electric_current::ampere};
/// use uom::si::{electric_potential::volt, length::meter};
/// use uom::si::thermodynamic_temperature::degree_celsius;
///
/// let allowance = Allowance {
///     volts: ElectricPotential::new::<volt>(6.0),
///     amps: ElectricCurrent::new::<ampere>(6.0),
///     run: Length::new::<meter>(90.0),
/// };
/// let cool = ThermodynamicTemperature::new::<degree_celsius>(20.0);
/// let size = smallest_metric(allowance, Class::Stranded, cool)?;
/// assert_eq!(format!("{:.1}", size.get::<square_millimeter>()), "4.0");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn smallest_metric(
    allowance: Allowance,
    class: Class,
    temperature: ThermodynamicTemperature,
) -> Result<Area, Refusal> {
    let celsius = WARMTH.check(temperature.get::<degree_celsius>())?;
    let warmth = 1.0 + RISE_FROM_20C * (celsius - 20.0);
    let most = ohms_allowed(allowance)?.si() / 2.0;
    let will_do = |area: &Area| {
        let ohms = table_ohms_mm2(*area, class);
        ohms.is_ok_and(|ohms| ohms.si() * warmth <= most * (1.0 + DUST))
    };
    let mut sizes = SIZES.iter().map(|size| SQUARE_MILLIMETER.of(*size));
    sizes.find(will_do).ok_or(Refusal::Conflict(
        "no size to 25 mm2 loses as little; a higher voltage or a shorter run is needed",
    ))
}

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "drop_cable.pair_at_50f",
        title: "resistance of a drop cable's pair, cold, by a motor maker",
        inputs: &[port("awg", "n", "AWG size", PLAIN)],
        gives: port("pair", "r", "resistance of the pair", PAIR_OHMS),
        law: Law::Named("by a motor maker's table for 50 degF"),
        valid: "A cold reading through drop cable; 5 to 10 percent above plain copper.",
        source: "a submersible-motor manual's table of cable resistance (partly from memory)",
        caution: PLATE,
        edition: 1,
        call: call!(_, (awg: f64) => pair_at_50f(awg)),
    },
    Function {
        name: "drop_cable.smallest_metric",
        title: "smallest metric conductor for the volts allowed",
        inputs: &[
            port("volts", "v", "volts that may be lost", VOLTS),
            port("amps", "i", "current", CURRENT),
            port("run", "l", "run", LENGTH),
            port("class", "k", "stranded or flexible", word(Class::WORDS)),
            port(
                "temperature",
                "t",
                "temperature of the conductor",
                TEMPERATURE,
            ),
        ],
        gives: port("area", "a", "cross-section", CONDUCTOR_AREA),
        law: Law::Named("the first size whose ohms out and back are few enough"),
        valid: "Single phase, plain copper.",
        source: "Ohm's law with IEC 60228:2004",
        caution: PLATE,
        edition: 1,
        call: call!(_, (
            volts: ElectricPotential,
            amps: ElectricCurrent,
            run: Length,
            class: Class,
            temperature: ThermodynamicTemperature
        ) => smallest_metric(Allowance { volts, amps, run }, class, temperature)),
    },
];

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::conductor::{Construction, resistance_awg};
    use crate::units::{AMPERE, METER, VOLT};

    /// The maker's pair against copper from first principles at its 50 degF: above it,
    /// by at most a tenth and a little.
    #[test]
    fn the_makers_figures_lie_above_copper() {
        let cold = ThermodynamicTemperature::new::<degree_celsius>(10.0);
        for awg in [14.0, 12.0, 10.0, 8.0, 6.0, 4.0] {
            let copper = 2.0
                * resistance_awg(awg, Construction::Stranded, cold)
                    .unwrap()
                    .si();
            let over = pair_at_50f(awg).unwrap().si() / copper;
            assert!(over > 1.02 && over < 1.11, "{awg}: {over}");
        }
        assert!(pair_at_50f(2.0).is_err());
        assert!(pair_at_50f(f64::NAN).is_err());
    }

    proptest! {
        #[test]
        fn warmer_cable_is_never_smaller(amps in 1.0..20.0_f64, meters in 20.0..200.0_f64) {
            let size = |celsius| {
                let allowance = Allowance {
                    volts: VOLT.of(10.0),
                    amps: AMPERE.of(amps),
                    run: METER.of(meters),
                };
                let warm = ThermodynamicTemperature::new::<degree_celsius>(celsius);
                smallest_metric(allowance, Class::Stranded, warm)
            };
            prop_assume!(size(70.0).is_ok());
            prop_assert!(size(70.0).unwrap() >= size(20.0).unwrap());
        }
    }
}

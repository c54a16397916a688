//! The smallest conductor that will do: by volts lost, and by what it may carry.

use uom::si::f64::{
    Area, ElectricCurrent, ElectricPotential, ElectricalResistivity, Length,
    TemperatureCoefficient, ThermodynamicTemperature,
};
use uom::si::thermodynamic_temperature::degree_celsius;

use crate::bounds::{Bounds, Refusal};
use crate::cable::{Allowance, ohms_allowed};
use crate::calling::{call, words};
use crate::conductor::{Construction, table_ohms};
use crate::dimension::{Measured, ResistancePerLength};
use crate::motor::PLATE;
use crate::ports::{
    CONDUCTOR_AREA, CONDUCTOR_OHMS, CURRENT, LENGTH, PER_DEGREE, PLAIN, RESISTIVITY, TEMPERATURE,
    VOLTS, port, word,
};
use crate::registry::{Function, Law, Port};
use crate::tables::look_up;
use crate::units::{AMPERE, SQUARE_MILLIMETER};

const AMPACITIES: &str = include_str!("tables/ampacity_awg.csv");
/// Sizes of drop and branch cable, smallest first; 0 is 1/0, -3 is 4/0.
const SIZES: [f64; 12] = [
    14.0, 12.0, 10.0, 8.0, 6.0, 4.0, 3.0, 2.0, 1.0, 0.0, -1.0, -2.0,
];
/// What changing units leaves behind must not take the next size.
const DUST: f64 = 1e-9;

const CARRIED: Bounds = Bounds::of("current to be carried", "A", 0.0, 10_000.0);
const GAUGE: Bounds = Bounds::of("AWG size", "", -3.0, 40.0);
const METAL: Bounds = Bounds::of("resistivity", "ohm*m", 1e-9, 1e-5);
const EACH: Bounds = Bounds::of("rise of resistance for each degree", "1/degC", 0.0, 0.02);
const SECTION: Bounds = Bounds::of("cross-section", "mm2", 0.001, 2_000.0);
const WARMTH: Bounds = Bounds::of("temperature of the conductor", "degC", -60.0, 150.0);

/// Column of the ampacity table.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Column {
    /// Conductors and ends rated 60 °C.
    Sixty,
    /// Conductors and ends rated 75 °C.
    SeventyFive,
}
words!(Column, "\"60 degC\" or \"75 degC\"", {
    Sixty = "60 degC",
    SeventyFive = "75 degC",
});

/// Smallest AWG size that loses no more than the volts allowed.
///
/// # Formula
/// ```text
/// the first of 14, 12, 10, 8, 6, 4, 3, 2, 1, 0, -1, -2 (1/0 to 3/0) whose ohms by the
/// code's table, out and back, are at most V / I
///
/// V  volts that may be lost   I  current
/// ```
///
/// # Valid for
/// Single phase, stranded copper at 75 °C. What the size may carry is another question:
/// see [`smallest_for_amps`], and take the larger.
///
/// # Source
/// Ohm's law with NFPA 70 (National Electrical Code), chapter 9, table 8. Printed length
/// tables differ from it by up to about 13 percent. The accepted spans are our own
/// choice; no source.
///
/// # Errors
/// As [`crate::cable::ohms_allowed`]; [`Refusal::Conflict`] where no size will do.
///
/// # Example
/// By the table's 0.778 and 1.24 ohm per 1000 ft: 8 A over 600 ft lose 7.5 V in 8 AWG and
/// 11.9 V in 10 AWG, so 11.5 V ask for 8.
/// ```
/// use pumpwright_calc::{cable::Allowance, cable_size::smallest_for_drop};
/// use uom::si::f64::{ElectricCurrent, ElectricPotential, Length};
/// use uom::si::{electric_current::ampere, electric_potential::volt, length::foot};
///
/// let awg = smallest_for_drop(Allowance {
///     volts: ElectricPotential::new::<volt>(11.5),
///     amps: ElectricCurrent::new::<ampere>(8.0),
///     run: Length::new::<foot>(600.0),
/// })?;
/// assert_eq!(awg, 8.0);
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn smallest_for_drop(allowance: Allowance) -> Result<f64, Refusal> {
    let most = ohms_allowed(allowance)?.si() / 2.0;
    let will_do = |awg: &&f64| {
        table_ohms(**awg, Construction::Stranded).is_ok_and(|ohms| ohms.si() <= most * (1.0 + DUST))
    };
    SIZES.iter().find(will_do).copied().ok_or(Refusal::Conflict(
        "no size to 3/0 loses as little; a higher voltage or a shorter run is needed",
    ))
}

/// Allowable ampacity of a copper conductor by the code's table.
///
/// # Formula
/// ```text
/// a cell of the table
/// ```
///
/// # Valid for
/// Up to three current-carrying conductors in raceway, cable or earth, 30 °C around them.
/// Breakers on 14, 12 and 10 AWG are held to 15, 20 and 30 A by another rule. Below 100 A
/// the 60 °C column holds unless all ends are marked 75.
///
/// # Source
/// NFPA 70 (National Electrical Code), table 310.16, 2023 edition, read in two public copies
/// to 2 AWG; larger from memory. An older printing has 20, 25, 30 A at 60 °C.
///
/// # Errors
/// [`Refusal::OutOfRange`] for what is no size; [`Refusal::Conflict`] where the table has
/// no row.
///
/// # Example
/// NEC table 310.16: 30 A for 10 AWG at 60 °C.
/// ```
/// use pumpwright_calc::cable_size::{Column, ampacity};
/// use uom::si::electric_current::ampere;
///
/// assert_eq!(ampacity(10.0, Column::Sixty)?.get::<ampere>(), 30.0);
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn ampacity(awg: f64, column: Column) -> Result<ElectricCurrent, Refusal> {
    let amps = look_up(AMPACITIES, GAUGE.check(awg)?, column.word());
    amps.map(|amps| AMPERE.of(amps)).ok_or(Refusal::Conflict(
        "the ampacity table has no row for this AWG size",
    ))
}

/// Smallest AWG size that may carry a current.
///
/// # Formula
/// ```text
/// the first of 14, 12, 10, 8, 6, 4, 3, 2, 1, 0, -1, -2 whose ampacity is at least the current
/// ```
///
/// # Valid for
/// As [`ampacity`]; the current already with its 125 percent for a motor.
///
/// # Source
/// As [`ampacity`]. The accepted span is our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] for what is no current; [`Refusal::Conflict`] where no size will
/// do.
///
/// # Example
/// NEC table 310.16: 35 A ask for 8 AWG at 60 °C and 10 AWG at 75.
/// ```
/// use pumpwright_calc::cable_size::{Column, smallest_for_amps};
/// use uom::si::{electric_current::ampere, f64::ElectricCurrent};
///
/// let amps = ElectricCurrent::new::<ampere>(35.0);
/// assert_eq!(smallest_for_amps(amps, Column::Sixty)?, 8.0);
/// assert_eq!(smallest_for_amps(amps, Column::SeventyFive)?, 10.0);
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn smallest_for_amps(amps: ElectricCurrent, column: Column) -> Result<f64, Refusal> {
    let least = CARRIED.check(AMPERE.read(amps))?;
    let will_do = |awg: &&f64| {
        ampacity(**awg, column).is_ok_and(|most| AMPERE.read(most) >= least * (1.0 - DUST))
    };
    SIZES.iter().find(will_do).copied().ok_or(Refusal::Conflict(
        "no size to 3/0 may carry as much by this table",
    ))
}

/// A conductor's metal at 20 °C.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Metal {
    /// Resistivity at 20 °C.
    pub resistivity: ElectricalResistivity,
    /// Rise of resistance for each degree from 20 °C.
    pub each: TemperatureCoefficient,
}

/// Resistance of a conductor of any metal, from its resistivity.
///
/// # Formula
/// ```text
/// r = k · (1 + a · (t - 20)) / A
///
/// r  resistance of each length   k  resistivity at 20 °C   A  cross-section
/// a  rise for each degree   t  temperature, °C
/// ```
///
/// # Valid for
/// Direct current, a solid conductor, A the true section of metal.
///
/// # Source
/// NBS Handbook 100, *Copper Wire Tables*: for copper 1/58 ohm mm²/m (10.37 ohm for a
/// circular mil and foot) and 0.00393 a degree Celsius; for hard-drawn aluminum 0.0282 and
/// 0.00403 (from memory). The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// NBS Handbook 100: a meter of copper, 1 mm² in section, has 0.017241 ohm at 20 °C.
/// ```
/// use pumpwright_calc::cable_size::{Metal, resistance};
/// use uom::si::f64::{
///     Area, ElectricalResistivity, Length, TemperatureCoefficient, ThermodynamicTemperature,
/// };
/// use uom::si::{area::square_millimeter, electrical_resistance::ohm, length::meter};
/// use uom::si::electrical_resistivity::ohm_meter;
/// use uom::si::temperature_coefficient::per_kelvin;
/// use uom::si::thermodynamic_temperature::degree_celsius;
///
/// let copper = Metal {
///     resistivity: ElectricalResistivity::new::<ohm_meter>(1e-6 / 58.0),
///     each: TemperatureCoefficient::new::<per_kelvin>(0.003_93),
/// };
/// let area = Area::new::<square_millimeter>(1.0);
/// let cool = ThermodynamicTemperature::new::<degree_celsius>(20.0);
/// let ohms = (resistance(copper, area, cool)? * Length::new::<meter>(1.0)).get::<ohm>();
/// assert_eq!(format!("{ohms:.6}"), "0.017241");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn resistance(
    metal: Metal,
    area: Area,
    temperature: ThermodynamicTemperature,
) -> Result<ResistancePerLength, Refusal> {
    METAL.check(metal.resistivity.si())?;
    EACH.check(metal.each.si())?;
    SECTION.check(SQUARE_MILLIMETER.read(area))?;
    let celsius = WARMTH.check(temperature.get::<degree_celsius>())?;
    let warmth = 1.0 + metal.each.si() * (celsius - 20.0);
    Ok(ResistancePerLength::from_si(
        metal.resistivity.si() * warmth / area.si(),
    ))
}

const AWG: Port = port("awg", "n", "AWG size", PLAIN);
const COLUMN: Port = port("column", "k", "column of the table", word(Column::WORDS));
const TABLE_310_16: &str = "NFPA 70 (National Electrical Code), table 310.16, 2023 edition";

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "cable_size.smallest_for_drop",
        title: "smallest AWG size for the volts allowed",
        inputs: &[
            port("volts", "v", "volts that may be lost", VOLTS),
            port("amps", "i", "current", CURRENT),
            port("run", "l", "run", LENGTH),
        ],
        gives: AWG,
        law: Law::Named("the first size whose ohms out and back are few enough"),
        valid: "Single phase, stranded copper at 75 degC; 1/0 is 0, 2/0 is -1, 3/0 is -2.",
        source: "Ohm's law with NFPA 70 (National Electrical Code), chapter 9, table 8",
        caution: PLATE,
        edition: 1,
        call: call!(_, (volts: ElectricPotential, amps: ElectricCurrent, run: Length) =>
            smallest_for_drop(Allowance { volts, amps, run })),
    },
    Function {
        name: "cable_size.ampacity",
        title: "allowable ampacity of a copper conductor",
        inputs: &[AWG, COLUMN],
        gives: port("amps", "i", "ampacity", CURRENT),
        law: Law::Named("by NEC table 310.16"),
        valid: "Up to three current-carrying conductors, 30 degC around them.",
        source: TABLE_310_16,
        caution: PLATE,
        edition: 1,
        call: call!(_, (awg: f64, column: Column) => ampacity(awg, column)),
    },
    Function {
        name: "cable_size.smallest_for_amps",
        title: "smallest AWG size that may carry a current",
        inputs: &[port("amps", "i", "current to be carried", CURRENT), COLUMN],
        gives: AWG,
        law: Law::Named("the first size of NEC table 310.16 that may carry it"),
        valid: "Up to three current-carrying conductors, 30 degC around them.",
        source: TABLE_310_16,
        caution: PLATE,
        edition: 1,
        call: call!(_, (amps: ElectricCurrent, column: Column) => smallest_for_amps(amps, column)),
    },
    Function {
        name: "cable_size.resistance",
        title: "resistance of a conductor of any metal",
        inputs: &[
            port("resistivity", "k", "resistivity at 20 degC", RESISTIVITY),
            port("each", "c", "rise for each degree", PER_DEGREE),
            port("area", "a", "cross-section", CONDUCTOR_AREA),
            port(
                "temperature",
                "t",
                "temperature of the conductor",
                TEMPERATURE,
            ),
        ],
        gives: port(
            "conductor",
            "r",
            "resistance of one conductor",
            CONDUCTOR_OHMS,
        ),
        law: Law::Named("resistivity, warmed, over the cross-section"),
        valid: "Direct current, a solid conductor.",
        source: "NBS Handbook 100, Copper Wire Tables",
        caution: PLATE,
        edition: 1,
        call: call!(_, (
            resistivity: ElectricalResistivity,
            each: TemperatureCoefficient,
            area: Area,
            temperature: ThermodynamicTemperature
        ) => resistance(Metal { resistivity, each }, area, temperature)),
    },
];

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cable::{Circuit, drop};
    use crate::units::{FOOT, VOLT};

    fn allowance(volts: f64, amps: f64, feet: f64) -> Allowance {
        Allowance {
            volts: VOLT.of(volts),
            amps: AMPERE.of(amps),
            run: FOOT.of(feet),
        }
    }

    #[test]
    fn what_no_size_will_do_is_refused() {
        assert!(smallest_for_drop(allowance(0.001, 100.0, 9_000.0)).is_err());
        assert!(smallest_for_amps(AMPERE.of(1e3), Column::Sixty).is_err());
        assert!(ampacity(13.0, Column::Sixty).is_err());
        assert!(smallest_for_amps(AMPERE.of(f64::NAN), Column::Sixty).is_err());
    }

    /// NEC chapter 9 table 8 against first principles with two percent of lay: within
    /// 1.2 percent in every stranded row.
    #[test]
    fn the_codes_table_is_first_principles_rounded() {
        use crate::conductor::resistance_awg;
        let warm = ThermodynamicTemperature::new::<degree_celsius>(75.0);
        for awg in SIZES {
            let printed = table_ohms(awg, Construction::Stranded).unwrap().si();
            let worked = resistance_awg(awg, Construction::Stranded, warm)
                .unwrap()
                .si();
            assert!((printed / worked - 1.0).abs() < 0.012, "{awg}");
        }
    }

    proptest! {
        #[test]
        fn the_size_found_loses_no_more_and_the_one_below_does(
            amps in 1.0..40.0_f64, feet in 20.0..900.0_f64, volts in 2.0..12.0_f64,
        ) {
            let found = smallest_for_drop(allowance(volts, amps, feet));
            prop_assume!(found.is_ok());
            let found = found.unwrap();
            let lost = |awg: f64| {
                let conductor = table_ohms(awg, Construction::Stranded).unwrap();
                VOLT.read(drop(Circuit { amps: AMPERE.of(amps), conductor, run: FOOT.of(feet) }).unwrap())
            };
            prop_assert!(lost(found) <= volts * (1.0 + 1e-8));
            let at = SIZES.iter().position(|awg| *awg == found).unwrap();
            if at > 0 {
                prop_assert!(lost(SIZES[at - 1]) > volts);
            }
        }
    }
}

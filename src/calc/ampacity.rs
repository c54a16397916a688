//! What a copper conductor may carry: the code's table by AWG, the international one by
//! section, and what warmth takes off. The smallest that will do is in `cable_size`.

use uom::si::f64::{Area, ElectricCurrent, ThermodynamicTemperature};
use uom::si::thermodynamic_temperature::degree_celsius;

use crate::bounds::{Bounds, Refusal};
use crate::calling::{call, words};
use crate::motor::PLATE;
use crate::ports::{CONDUCTOR_AREA, CURRENT, PLAIN, TEMPERATURE, port, word};
use crate::registry::{Function, Law, Port};
use crate::tables::look_up;
use crate::units::{AMPERE, SQUARE_MILLIMETER};

const AMPACITIES: &str = include_str!("tables/ampacity_awg.csv");
const METRIC_AMPACITIES: &str = include_str!("tables/ampacity_mm2.csv");
/// Highest temperature of each row, °C, and its factors in the 60 and 75 °C columns.
const AMBIENT: [(f64, f64, f64); 9] = [
    (10.0, 1.29, 1.20),
    (15.0, 1.22, 1.15),
    (20.0, 1.15, 1.11),
    (25.0, 1.08, 1.05),
    (30.0, 1.0, 1.0),
    (35.0, 0.91, 0.94),
    (40.0, 0.82, 0.88),
    (45.0, 0.71, 0.82),
    (50.0, 0.58, 0.75),
];
/// What changing units leaves behind must not take the next row.
const DUST: f64 = 1e-9;

const GAUGE: Bounds = Bounds::of("AWG size", "", -3.0, 40.0);
const SECTION: Bounds = Bounds::of("cross-section", "mm2", 0.001, 2_000.0);
const AROUND: Bounds = Bounds::of("temperature around the cable", "degC", -40.0, 50.000_001);

/// Column of the AWG table.
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

/// How a metric cable of PVC is laid.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Laid {
    /// In conduit in an insulating wall, two loaded conductors: method A2.
    InsulatingWall,
    /// In conduit on a wall, two loaded conductors: method B2.
    OnWall,
    /// In conduit on a wall, three loaded conductors: method B2.
    OnWallThreePhase,
    /// Clipped direct, two loaded conductors: method C.
    Clipped,
    /// In a duct in the ground, two loaded conductors: method D1.
    Duct,
}
words!(Laid, "a way of laying that the table has", {
    InsulatingWall = "conduit in an insulating wall",
    OnWall = "conduit on a wall",
    OnWallThreePhase = "three loaded in conduit on a wall",
    Clipped = "clipped direct",
    Duct = "duct in the ground",
});

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
/// use pumpwright_calc::ampacity::{Column, awg};
/// use uom::si::electric_current::ampere;
///
/// assert_eq!(awg(10.0, Column::Sixty)?.get::<ampere>(), 30.0);
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn awg(awg: f64, column: Column) -> Result<ElectricCurrent, Refusal> {
    let amps = look_up(AMPACITIES, GAUGE.check(awg)?, column.word());
    amps.map(|amps| AMPERE.of(amps)).ok_or(Refusal::Conflict(
        "the ampacity table has no row for this AWG size",
    ))
}

/// Current-carrying capacity of a metric PVC cable.
///
/// # Formula
/// ```text
/// a cell of the table
/// ```
///
/// # Valid for
/// Copper, 1.5 to 16 mm², PVC that may reach 70 °C, 30 °C air around it (20 °C ground for
/// the duct, from memory). No factor for cables side by side.
///
/// # Source
/// SANS 10142-1:2019, table 6.3(a), a national table of the IEC 60364-5-52 kind, read in a
/// public copy; the row for three loaded conductors also in a maker's manual that cites IEC
/// 60364-5-52. The duct's column second-hand: three public programs that agree.
///
/// # Errors
/// [`Refusal::OutOfRange`] for what is no cross-section, [`Refusal::Conflict`] where the
/// table has no row.
///
/// # Example
/// SANS 10142-1:2019, table 6.3(a): 2.5 mm² in conduit on a wall may carry 23 A.
/// ```
/// use pumpwright_calc::ampacity::{Laid, mm2};
/// use uom::si::{area::square_millimeter, electric_current::ampere, f64::Area};
///
/// let amps = mm2(Area::new::<square_millimeter>(2.5), Laid::OnWall)?;
/// assert_eq!(amps.get::<ampere>(), 23.0);
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn mm2(area: Area, laid: Laid) -> Result<ElectricCurrent, Refusal> {
    let area = SECTION.check(SQUARE_MILLIMETER.read(area))?;
    let amps = look_up(METRIC_AMPACITIES, area, laid.word());
    amps.map(|amps| AMPERE.of(amps)).ok_or(Refusal::Conflict(
        "the table of metric ampacities has rows for 1.5, 2.5, 4, 6, 10 and 16 mm2 only",
    ))
}

/// Factor on an AWG conductor's ampacity for the warmth around it.
///
/// # Formula
/// ```text
/// by the table, the row at or above the temperature, °C:
/// to     10    15    20    25    30    35    40    45    50
/// 60     1.29  1.22  1.15  1.08  1.0   0.91  0.82  0.71  0.58
/// 75     1.20  1.15  1.11  1.05  1.0   0.94  0.88  0.82  0.75
/// ```
///
/// # Valid for
/// The table of [`fn@awg`] and its two columns, to 50 °C.
///
/// # Source
/// NFPA 70 (National Electrical Code), 310.15(B)(1), as a public page of wire sizes
/// reproduces it. It follows the root of (column - t) / (column - 30) within 0.7 percent.
///
/// # Errors
/// [`Refusal::OutOfRange`] outside the table.
///
/// # Example
/// NEC 310.15(B)(1): at 40 °C a conductor of the 75 °C column keeps 0.88.
/// ```
/// use pumpwright_calc::ampacity::{Column, ambient_factor};
/// use uom::si::f64::ThermodynamicTemperature;
/// use uom::si::thermodynamic_temperature::degree_celsius;
///
/// let hot = ThermodynamicTemperature::new::<degree_celsius>(40.0);
/// assert_eq!(ambient_factor(hot, Column::SeventyFive)?, 0.88);
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn ambient_factor(
    temperature: ThermodynamicTemperature,
    column: Column,
) -> Result<f64, Refusal> {
    let celsius = AROUND.check(temperature.get::<degree_celsius>())?;
    let row = AMBIENT.iter().find(|row| celsius <= row.0 + DUST);
    let row = row.unwrap_or(&AMBIENT[AMBIENT.len() - 1]);
    Ok(match column {
        Column::Sixty => row.1,
        Column::SeventyFive => row.2,
    })
}

pub(crate) const AWG: Port = port("awg", "n", "AWG size", PLAIN);
pub(crate) const COLUMN: Port = port("column", "k", "column of the table", word(Column::WORDS));
pub(crate) const TABLE_310_16: &str =
    "NFPA 70 (National Electrical Code), table 310.16, 2023 edition; 1 AWG and larger from memory";

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "ampacity.awg",
        title: "allowable ampacity of an AWG copper conductor",
        inputs: &[AWG, COLUMN],
        gives: port("amps", "i", "ampacity", CURRENT),
        law: Law::Named("by NEC table 310.16"),
        valid: "Up to three current-carrying conductors, 30 degC around them.",
        source: TABLE_310_16,
        caution: PLATE,
        edition: 1,
        call: call!(_, (awg: f64, column: Column) => self::awg(awg, column)),
    },
    Function {
        name: "ampacity.mm2",
        title: "current-carrying capacity of a metric PVC cable",
        inputs: &[
            port("area", "a", "cross-section", CONDUCTOR_AREA),
            port("laid", "k", "how it is laid", word(Laid::WORDS)),
        ],
        gives: port("amps", "i", "capacity", CURRENT),
        law: Law::Named("by a national table of the IEC 60364-5-52 kind"),
        valid: "Copper of 1.5 to 16 mm2, PVC at 70 degC, 30 degC air; two loaded conductors \
            unless three are said.",
        source: "SANS 10142-1:2019, table 6.3(a), read in a public copy; the duct's column \
            second-hand",
        caution: PLATE,
        edition: 1,
        call: call!(_, (area: Area, laid: Laid) => mm2(area, laid)),
    },
    Function {
        name: "ampacity.ambient_factor",
        title: "factor on an AWG conductor's ampacity for the warmth around it",
        inputs: &[
            port(
                "temperature",
                "t",
                "temperature around the cable",
                TEMPERATURE,
            ),
            COLUMN,
        ],
        gives: port("factor", "f", "factor", PLAIN),
        law: Law::Named("by the table, the row at or above the temperature"),
        valid: "The ampacities of NEC table 310.16, to 50 degC.",
        source: "NFPA 70 (National Electrical Code), 310.15(B)(1), as a public page of wire sizes \
            reproduces it",
        caution: PLATE,
        edition: 1,
        call: call!(_, (temperature: ThermodynamicTemperature, column: Column) =>
            ambient_factor(temperature, column)),
    },
];

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn at(celsius: f64, column: Column) -> Result<f64, Refusal> {
        ambient_factor(
            ThermodynamicTemperature::new::<degree_celsius>(celsius),
            column,
        )
    }

    #[test]
    fn what_the_tables_lack_is_refused() {
        assert!(awg(13.0, Column::Sixty).is_err());
        assert!(awg(f64::NAN, Column::Sixty).is_err());
        assert!(mm2(SQUARE_MILLIMETER.of(5.0), Laid::OnWall).is_err());
        assert!(mm2(SQUARE_MILLIMETER.of(f64::NAN), Laid::OnWall).is_err());
        assert!(at(50.1, Column::Sixty).is_err());
        assert!(at(f64::NAN, Column::Sixty).is_err());
    }

    /// The table against the physics that it rounds: heat goes as the square of current and
    /// as the difference of temperatures.
    #[test]
    fn the_factors_are_roots_rounded() {
        for (celsius, sixty, seventy_five) in AMBIENT {
            for (column, factor) in [(60.0, sixty), (75.0, seventy_five)] {
                let root = ((column - celsius) / (column - 30.0_f64)).sqrt();
                assert!((factor / root - 1.0).abs() < 0.007, "{celsius} {column}");
            }
        }
    }

    #[test]
    fn thicker_carries_more_however_it_is_laid() {
        let laid = [
            Laid::InsulatingWall,
            Laid::OnWall,
            Laid::OnWallThreePhase,
            Laid::Clipped,
            Laid::Duct,
        ];
        for laid in laid {
            let amps = [1.5, 2.5, 4.0, 6.0, 10.0, 16.0]
                .map(|area| mm2(SQUARE_MILLIMETER.of(area), laid).unwrap());
            assert!(amps.windows(2).all(|pair| pair[0] < pair[1]));
        }
    }

    proptest! {
        #[test]
        fn warmer_is_never_more(celsius in -20.0..49.0_f64) {
            for column in [Column::Sixty, Column::SeventyFive] {
                prop_assert!(at(celsius + 1.0, column).unwrap() <= at(celsius, column).unwrap());
            }
        }
    }
}

//! Size and resistance of copper conductors: from first principles, and as the
//! published tables print them. How much current one carries is not here.

use uom::si::f64::{Area, ThermodynamicTemperature};
use uom::si::thermodynamic_temperature::degree_celsius;

use crate::bounds::{Bounds, Refusal};
use crate::calling::{call, words};
use crate::dimension::ResistancePerLength;
use crate::ports::{CONDUCTOR_AREA, CONDUCTOR_OHMS, PLAIN, TEMPERATURE, port, word};
use crate::registry::{Function, Law, Pair};
use crate::tables::look_up;
use crate::units::{MIL, OHM_PER_KILOFOOT, OHM_PER_KILOMETER, SQUARE_MILLIMETER};

/// Resistance of a square millimeter of copper at 20 °C, ohm per km: the
/// international annealed copper standard, 1/58 ohm mm²/m.
const IACS_OHM_MM2_PER_KM: f64 = 1000.0 / 58.0;
/// Rise of copper's resistance a degree Celsius, from 20 °C.
const RISE_FROM_20C: f64 = 0.003_93;
/// Rise of copper's resistance a degree Celsius, from 75 °C.
const RISE_FROM_75C: f64 = 0.003_23;
/// Strands lie in a spiral and are longer than the conductor.
const LAY: f64 = 1.02;
/// Diameter of 36 AWG, mils.
const SIZE_36_MIL: f64 = 5.0;
/// How many times 36 AWG the diameter of 4/0 is, 39 steps away.
const GROWTH: f64 = 92.0;
const STEPS: f64 = 39.0;

const CODE_TABLE: &str = include_str!("tables/copper_awg_75c.csv");
const METRIC_TABLE: &str = include_str!("tables/copper_mm2_20c.csv");

const GAUGE: Bounds = Bounds {
    what: "AWG size",
    unit: "",
    min: -3.0,
    max: 40.0,
};
const SECTION: Bounds = Bounds {
    what: "cross-section",
    unit: "mm2",
    min: 0.001,
    max: 2_000.0,
};
const WARMTH: Bounds = Bounds {
    what: "temperature of the conductor",
    unit: "degC",
    min: -60.0,
    max: 150.0,
};
const TABLE_OHMS: Bounds = Bounds {
    what: "resistance of one conductor",
    unit: "ohm/kft",
    min: 0.0,
    max: 10_000.0,
};

/// How a conductor is made.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Construction {
    /// One wire.
    Solid,
    /// Several wires in a spiral.
    Stranded,
}
words!(Construction, "\"solid\" or \"stranded\"", { Solid = "solid", Stranded = "stranded" });

impl Construction {
    const fn lay(self) -> f64 {
        match self {
            Self::Solid => 1.0,
            Self::Stranded => LAY,
        }
    }
}

/// Classes of metric conductor that the table has.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Class {
    /// Class 2.
    Stranded,
    /// Class 5.
    Flexible,
}
words!(Class, "\"stranded\" or \"flexible\"", { Stranded = "stranded", Flexible = "flexible" });

/// Cross-section of an American wire gauge size.
///
/// # Formula
/// ```text
/// d = 5 · 92^((36 - n) / 39)   A = d²
///
/// d  diameter   mil     A  cross-section   circular mil     n  AWG size
/// ```
/// 1/0 is n = 0, 2/0 is -1, 3/0 is -2, 4/0 is -3.
///
/// # Valid for
/// A solid round wire, 4/0 to 40 AWG; a stranded one has the same metal.
///
/// # Source
/// ASTM B258 (from memory). The accepted span of n is the standard's own.
///
/// # Errors
/// [`Refusal::OutOfRange`] outside the sizes; [`Refusal::Conflict`] for a size
/// that is no whole number.
///
/// # Example
/// NEC chapter 9, table 8: 10 AWG has 10,380 circular mils.
/// ```
/// use pumpwright_calc::conductor::area_awg;
/// use uom::si::area::circular_mil;
///
/// let tens = area_awg(10.0)?.get::<circular_mil>() / 10.0;
/// assert_eq!(format!("{tens:.0}"), "1038");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn area_awg(awg: f64) -> Result<Area, Refusal> {
    let awg = size(awg)?;
    let diameter = MIL.of(SIZE_36_MIL * libm::pow(GROWTH, (36.0 - awg) / STEPS));
    Ok(diameter * diameter * std::f64::consts::FRAC_PI_4)
}

pub(crate) fn size(awg: f64) -> Result<f64, Refusal> {
    let awg = GAUGE.check(awg)?;
    if awg.fract() == 0.0 {
        Ok(awg)
    } else {
        Err(Refusal::Conflict(
            "an AWG size is a whole number; 1/0 is 0, 4/0 is -3",
        ))
    }
}

/// Resistance of one copper conductor of an AWG size.
///
/// # Formula
/// ```text
/// r = (1000 / 58) · (1 + 0.00393 · (t - 20)) · k / A
///
/// r  resistance   ohm/km     t  temperature     °C
/// k  lay: 1 solid, 1.02 stranded     A  cross-section   mm², by `area_awg`
/// ```
///
/// # Valid for
/// Uncoated copper, direct current. Tinned wire has a little more.
///
/// # Source
/// Copper of 1/58 ohm mm²/m at 20 °C, 0.00393 a degree: NBS Handbook 100,
/// *Copper Wire Tables*. Two percent for the lay of the strands: ASTM B8 (from
/// memory). The accepted span of t is our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span;
/// [`Refusal::Conflict`] for a size that is no whole number.
///
/// # Example
/// NEC chapter 9, table 8: stranded 10 AWG has 1.24 ohm per 1000 ft at 75 °C.
/// ```
/// use pumpwright_calc::conductor::{Construction, resistance_awg};
/// use uom::si::f64::{Length, ThermodynamicTemperature};
/// use uom::si::{electrical_resistance::ohm, length::foot};
/// use uom::si::thermodynamic_temperature::degree_celsius;
///
/// let warm = ThermodynamicTemperature::new::<degree_celsius>(75.0);
/// let per_length = resistance_awg(10.0, Construction::Stranded, warm)?;
/// let ohms = (per_length * Length::new::<foot>(1000.0)).get::<ohm>();
/// assert_eq!(format!("{ohms:.2}"), "1.24");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn resistance_awg(
    awg: f64,
    construction: Construction,
    temperature: ThermodynamicTemperature,
) -> Result<ResistancePerLength, Refusal> {
    resistance_mm2(area_awg(awg)?, construction, temperature)
}

/// Resistance of one copper conductor of a cross-section.
///
/// # Formula
/// ```text
/// r = (1000 / 58) · (1 + 0.00393 · (t - 20)) · k / A
///
/// r  resistance   ohm/km     t  temperature     °C
/// k  lay: 1 solid, 1.02 stranded     A  cross-section   mm²
/// ```
///
/// # Valid for
/// Uncoated copper, direct current, A the true section of metal. A metric size
/// is a name: the greatest resistance that IEC 60228 lets it have is 3 to 7
/// percent more, see [`table_ohms_mm2`].
///
/// # Source
/// Copper of 1/58 ohm mm²/m at 20 °C, 0.00393 a degree: NBS Handbook 100,
/// *Copper Wire Tables*. Two percent for the lay of the strands: ASTM B8 (from
/// memory). The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// NBS Handbook 100: a meter of copper, 1 mm² in section, has 0.017241 ohm at
/// 20 °C.
/// ```
/// use pumpwright_calc::conductor::{Construction, resistance_mm2};
/// use uom::si::f64::{Area, Length, ThermodynamicTemperature};
/// use uom::si::{area::square_millimeter, electrical_resistance::ohm, length::meter};
/// use uom::si::thermodynamic_temperature::degree_celsius;
///
/// let area = Area::new::<square_millimeter>(1.0);
/// let cool = ThermodynamicTemperature::new::<degree_celsius>(20.0);
/// let per_length = resistance_mm2(area, Construction::Solid, cool)?;
/// let ohms = (per_length * Length::new::<meter>(1.0)).get::<ohm>();
/// assert_eq!(format!("{ohms:.6}"), "0.017241");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn resistance_mm2(
    area: Area,
    construction: Construction,
    temperature: ThermodynamicTemperature,
) -> Result<ResistancePerLength, Refusal> {
    let area = SECTION.check(SQUARE_MILLIMETER.read(area))?;
    let celsius = WARMTH.check(temperature.get::<degree_celsius>())?;
    let warmth = 1.0 + RISE_FROM_20C * (celsius - 20.0);
    Ok(OHM_PER_KILOMETER.of(IACS_OHM_MM2_PER_KM * warmth * construction.lay() / area))
}

/// Resistance of one copper conductor of an AWG size as the code prints it, at
/// 75 °C.
///
/// # Formula
/// ```text
/// a row of the table
/// ```
///
/// # Valid for
/// Uncoated copper, direct current, 75 °C: stranded 18 AWG to 4/0, solid 18 to
/// 8 AWG. For another temperature see [`table_resistance_at_temperature`].
///
/// # Source
/// NFPA 70 (National Electrical Code), chapter 9, table 8, read in public copies
/// for 14 to 2 AWG; the other rows from memory.
///
/// # Errors
/// [`Refusal::OutOfRange`] or [`Refusal::Conflict`] for what is no AWG size, and
/// [`Refusal::Conflict`] where the table has no row.
///
/// # Example
/// NEC chapter 9, table 8: stranded 12 AWG has 1.98 ohm per 1000 ft.
/// ```
/// use pumpwright_calc::conductor::{Construction, table_ohms};
/// use uom::si::{electrical_resistance::ohm, f64::Length, length::foot};
///
/// let per_length = table_ohms(12.0, Construction::Stranded)?;
/// let ohms = (per_length * Length::new::<foot>(1000.0)).get::<ohm>();
/// assert_eq!(format!("{ohms:.2}"), "1.98");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn table_ohms(awg: f64, construction: Construction) -> Result<ResistancePerLength, Refusal> {
    let row = look_up(CODE_TABLE, size(awg)?, construction.word());
    let ohms = row.ok_or(Refusal::Conflict(
        "the code's table has no row for this AWG size and construction",
    ))?;
    Ok(OHM_PER_KILOFOOT.of(ohms))
}

/// Greatest resistance of one copper conductor of a metric size, at 20 °C.
///
/// # Formula
/// ```text
/// a row of the table
/// ```
///
/// # Valid for
/// Plain copper, direct current, 20 °C, 1.5 to 25 mm².
///
/// # Source
/// IEC 60228:2004, class 2 (stranded) and class 5 (flexible), read in four
/// public copies that agree.
///
/// # Errors
/// [`Refusal::OutOfRange`] for what is no cross-section, [`Refusal::Conflict`]
/// where the table has no row.
///
/// # Example
/// IEC 60228, class 2: 2.5 mm² has at most 7.41 ohm per km.
/// ```
/// use pumpwright_calc::conductor::{Class, table_ohms_mm2};
/// use uom::si::f64::{Area, Length};
/// use uom::si::{area::square_millimeter, electrical_resistance::ohm, length::kilometer};
///
/// let per_length = table_ohms_mm2(Area::new::<square_millimeter>(2.5), Class::Stranded)?;
/// let ohms = (per_length * Length::new::<kilometer>(1.0)).get::<ohm>();
/// assert_eq!(format!("{ohms:.2}"), "7.41");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn table_ohms_mm2(area: Area, class: Class) -> Result<ResistancePerLength, Refusal> {
    let area = SECTION.check(SQUARE_MILLIMETER.read(area))?;
    let row = look_up(METRIC_TABLE, area, class.word());
    let ohms = row.ok_or(Refusal::Conflict(
        "the table of metric conductors has no row for this cross-section",
    ))?;
    Ok(OHM_PER_KILOMETER.of(ohms))
}

/// Resistance from the code's table, brought to another temperature.
///
/// # Formula
/// ```text
/// r = R · (1 + 0.00323 · (t - 75))
///
/// r  resistance at t     R  resistance at 75 °C, same unit     t  temperature   °C
/// ```
///
/// # Valid for
/// Copper. Begin from the table's figure at 75 °C, no other.
///
/// # Source
/// NFPA 70 (National Electrical Code), chapter 9, table 8, note on other
/// temperatures. The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// NBS Handbook 100 from another side: its 0.00393 a degree from 20 °C takes
/// 1.24 ohm per 1000 ft at 75 °C to 1.000 at 15 °C; so does the note.
/// ```
/// use pumpwright_calc::conductor::table_resistance_at_temperature;
/// use uom::si::f64::{ElectricalResistance, Length, ThermodynamicTemperature};
/// use uom::si::{electrical_resistance::ohm, length::foot};
/// use uom::si::thermodynamic_temperature::degree_celsius;
///
/// let kilofoot = Length::new::<foot>(1000.0);
/// let printed = ElectricalResistance::new::<ohm>(1.24) / kilofoot;
/// let cool = ThermodynamicTemperature::new::<degree_celsius>(15.0);
/// let ohms = (table_resistance_at_temperature(printed, cool)? * kilofoot).get::<ohm>();
/// assert_eq!(format!("{ohms:.3}"), "1.000");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn table_resistance_at_temperature(
    resistance: ResistancePerLength,
    temperature: ThermodynamicTemperature,
) -> Result<ResistancePerLength, Refusal> {
    TABLE_OHMS.check(OHM_PER_KILOFOOT.read(resistance))?;
    let celsius = WARMTH.check(temperature.get::<degree_celsius>())?;
    Ok(resistance * (1.0 + RISE_FROM_75C * (celsius - 75.0)))
}

const COPPER: &str = "copper of 1/58 ohm mm2/m at 20 degC, 0.00393 a degree: NBS Handbook 100, \
    Copper Wire Tables; two percent for the lay of strands: ASTM B8 (from memory)";
const CODE: &str = "NFPA 70 (National Electrical Code), chapter 9, table 8";
pub(crate) const NOT_AMPACITY: Option<&str> = Some(
    "A resistance says nothing about what a conductor carries safely: the electrical code in \
     force, the cable's own rating and a licensed person decide.",
);

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "conductor.area_awg",
        title: "cross-section of an AWG size",
        inputs: &[port("awg", "n", "AWG size", PLAIN)],
        gives: port("area", "a", "cross-section", CONDUCTOR_AREA),
        law: Law::Named("by the AWG progression: 92-fold in diameter over 39 sizes"),
        valid: "4/0 (size -3) to 40 AWG.",
        source: "ASTM B258 (from memory)",
        caution: NOT_AMPACITY,
        edition: 1,
        call: call!(_, (awg: f64) => area_awg(awg)),
    },
    Function {
        name: "conductor.resistance_awg",
        title: "resistance of a copper conductor of an AWG size",
        inputs: &[
            port("awg", "n", "AWG size", PLAIN),
            port(
                "construction",
                "k",
                "solid or stranded",
                word(Construction::WORDS),
            ),
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
        law: Law::Named("copper's resistance over the section, warmed, with two percent for lay"),
        valid: "Uncoated copper, direct current.",
        source: COPPER,
        caution: NOT_AMPACITY,
        edition: 1,
        call: call!(_, (
            awg: f64,
            construction: Construction,
            temperature: ThermodynamicTemperature
        ) => resistance_awg(awg, construction, temperature)),
    },
    Function {
        name: "conductor.resistance_mm2",
        title: "resistance of a copper conductor of a cross-section",
        inputs: &[
            port("area", "a", "cross-section", CONDUCTOR_AREA),
            port(
                "construction",
                "k",
                "solid or stranded",
                word(Construction::WORDS),
            ),
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
        law: Law::Named("copper's resistance over the section, warmed, with two percent for lay"),
        valid: "Uncoated copper, direct current, the true section of metal.",
        source: COPPER,
        caution: NOT_AMPACITY,
        edition: 1,
        call: call!(_, (
            area: Area,
            construction: Construction,
            temperature: ThermodynamicTemperature
        ) => resistance_mm2(area, construction, temperature)),
    },
    Function {
        name: "conductor.table_ohms",
        title: "resistance of an AWG conductor by the code's table, 75 degC",
        inputs: &[
            port("awg", "n", "AWG size", PLAIN),
            port(
                "construction",
                "k",
                "solid or stranded",
                word(Construction::WORDS),
            ),
        ],
        gives: port(
            "conductor",
            "r",
            "resistance of one conductor",
            CONDUCTOR_OHMS,
        ),
        law: Law::Named("a row of the code's table of conductor properties"),
        valid: "Uncoated copper, direct current, 75 degC.",
        source: CODE,
        caution: NOT_AMPACITY,
        edition: 1,
        call: call!(_, (awg: f64, construction: Construction) => table_ohms(awg, construction)),
    },
    Function {
        name: "conductor.table_ohms_mm2",
        title: "greatest resistance of a metric conductor by the standard's table, 20 degC",
        inputs: &[
            port("area", "a", "cross-section", CONDUCTOR_AREA),
            port(
                "construction",
                "k",
                "stranded or flexible",
                word(Class::WORDS),
            ),
        ],
        gives: port(
            "conductor",
            "r",
            "resistance of one conductor",
            CONDUCTOR_OHMS,
        ),
        law: Law::Named("a row of the standard's table of metric conductors"),
        valid: "Plain copper, direct current, 20 degC, 1.5 to 25 mm2.",
        source: "IEC 60228:2004, class 2 and class 5",
        caution: NOT_AMPACITY,
        edition: 1,
        call: call!(_, (area: Area, construction: Class) => table_ohms_mm2(area, construction)),
    },
    Function {
        name: "conductor.table_resistance_at_temperature",
        title: "the code table's resistance at another temperature",
        inputs: &[
            port("resistance", "r", "resistance at 75 degC", CONDUCTOR_OHMS),
            port(
                "temperature",
                "t",
                "temperature of the conductor",
                TEMPERATURE,
            ),
        ],
        gives: port(
            "conductor",
            "c",
            "resistance of one conductor",
            CONDUCTOR_OHMS,
        ),
        law: Law::Shown(Pair {
            us: "r * (1 + 0.00323 * (t - 167) / 1.8)",
            si: "r * (1 + 0.00323 * (t - 75))",
        }),
        valid: "Copper, from the table's figure at 75 degC.",
        source: "NFPA 70 (National Electrical Code), chapter 9, table 8, note on other temperatures",
        caution: NOT_AMPACITY,
        edition: 1,
        call: call!(_, (resistance: ResistancePerLength, temperature: ThermodynamicTemperature) =>
            table_resistance_at_temperature(resistance, temperature)),
    },
];

#[cfg(test)]
mod tests;

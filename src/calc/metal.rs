//! Conductors of other metals than plain copper, and any conductor at another temperature.
//! Plain copper is in `conductor`.

use uom::si::f64::{Area, ElectricalResistivity, TemperatureCoefficient, ThermodynamicTemperature};
use uom::si::thermodynamic_temperature::degree_celsius;

use crate::bounds::{Bounds, Refusal};
use crate::calling::{call, words};
use crate::conductor::{Construction, NOT_AMPACITY, size};
use crate::dimension::{Measured, ResistancePerLength};
use crate::ports::{
    CONDUCTOR_AREA, CONDUCTOR_OHMS, PER_DEGREE, PLAIN, RESISTIVITY, TEMPERATURE, port, word,
};
use crate::registry::{Function, Law, Pair, Port};
use crate::tables::look_up;
use crate::units::{OHM_PER_KILOFOOT, SQUARE_MILLIMETER};

const CODE_TABLE: &str = include_str!("tables/metals_awg_75c.csv");

const METAL: Bounds = Bounds::of("resistivity", "ohm*m", 1e-9, 1e-5);
const EACH: Bounds = Bounds::of("rise of resistance for each degree", "1/degC", 0.0, 0.02);
const SECTION: Bounds = Bounds::of("cross-section", "mm2", 0.001, 2_000.0);
const WARMTH: Bounds = Bounds::of("temperature of the conductor", "degC", -60.0, 150.0);
const FROM: Bounds = Bounds {
    what: "temperature of the figure",
    ..WARMTH
};
const OHMS: Bounds = Bounds::of("resistance of one conductor", "ohm/kft", 0.0, 10_000.0);

/// Metals that the code's table has columns for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Wire {
    /// Uncoated copper.
    Copper,
    /// Coated copper, as tinned wire.
    CoatedCopper,
    /// Aluminum.
    Aluminum,
}
words!(Wire, "\"uncoated copper\", \"coated copper\" or \"aluminum\"", {
    Copper = "uncoated copper",
    CoatedCopper = "coated copper",
    Aluminum = "aluminum",
});

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
/// use pumpwright_calc::metal::{Metal, resistance};
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

/// Resistance of one conductor of any of the code table's metals, at 75 °C.
///
/// # Formula
/// ```text
/// a cell of the table
/// ```
///
/// # Valid for
/// Direct current, 75 °C: stranded 18 AWG to 4/0, solid 18 to 8 AWG. Submersible cable is of
/// copper; aluminum is met in old feeders to a pump house.
///
/// # Source
/// NFPA 70 (National Electrical Code), chapter 9, table 8: uncoated copper as
/// [`crate::conductor::table_ohms`]; coated copper and aluminum from memory.
///
/// # Errors
/// [`Refusal::OutOfRange`] or [`Refusal::Conflict`] for what is no AWG size, and
/// [`Refusal::Conflict`] where the table has no row.
///
/// # Example
/// NEC chapter 9, table 8 (from memory): stranded aluminum of 2 AWG has 0.319 ohm per
/// 1000 ft.
/// ```
/// use pumpwright_calc::conductor::Construction;
/// use pumpwright_calc::metal::{Wire, table_ohms};
/// use uom::si::{electrical_resistance::ohm, f64::Length, length::foot};
///
/// let per_length = table_ohms(2.0, Construction::Stranded, Wire::Aluminum)?;
/// let ohms = (per_length * Length::new::<foot>(1000.0)).get::<ohm>();
/// assert_eq!(format!("{ohms:.3}"), "0.319");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn table_ohms(
    awg: f64,
    construction: Construction,
    wire: Wire,
) -> Result<ResistancePerLength, Refusal> {
    if wire == Wire::Copper {
        return crate::conductor::table_ohms(awg, construction);
    }
    let column = format!("{} {}", wire.word(), construction.word());
    let ohms = look_up(CODE_TABLE, size(awg)?, &column).ok_or(Refusal::Conflict(
        "the code's table has no row for this AWG size and construction",
    ))?;
    Ok(OHM_PER_KILOFOOT.of(ohms))
}

/// Resistance of a conductor brought from one temperature to another.
///
/// # Formula
/// ```text
/// r = R · (1 + a · (t - f))
///
/// r  resistance at t   R  resistance at f, same unit   a  rise for each degree from f
/// ```
///
/// # Valid for
/// A coefficient that belongs to the temperature f: for copper 0.00393 a degree Celsius
/// from 20 °C and 0.00323 from 75 °C, for aluminum 0.00403 and 0.00330.
///
/// # Source
/// NBS Handbook 100, *Copper Wire Tables* (copper from 20 °C); NFPA 70 (National Electrical
/// Code), chapter 9, table 8, note on other temperatures (from 75 °C); aluminum from memory.
/// The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// IEC 60228 has 7.41 ohm per km for 2.5 mm² at 20 °C; at 70 °C, as a loaded cable, 8.87.
/// ```
/// use pumpwright_calc::metal::{Warmed, at_temperature};
/// use uom::si::f64::{
///     ElectricalResistance, Length, TemperatureCoefficient, ThermodynamicTemperature,
/// };
/// use uom::si::{electrical_resistance::ohm, length::kilometer};
/// use uom::si::{temperature_coefficient::per_kelvin, thermodynamic_temperature::degree_celsius};
///
/// let (celsius, km) = (ThermodynamicTemperature::new::<degree_celsius>, Length::new::<kilometer>(1.0));
/// let warm = at_temperature(Warmed {
///     resistance: ElectricalResistance::new::<ohm>(7.41) / km,
///     each: TemperatureCoefficient::new::<per_kelvin>(0.003_93),
///     from: celsius(20.0),
///     to: celsius(70.0),
/// })?;
/// assert_eq!(format!("{:.2}", (warm * km).get::<ohm>()), "8.87");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn at_temperature(warmed: Warmed) -> Result<ResistancePerLength, Refusal> {
    OHMS.check(OHM_PER_KILOFOOT.read(warmed.resistance))?;
    EACH.check(warmed.each.si())?;
    let from = FROM.check(warmed.from.get::<degree_celsius>())?;
    let to = WARMTH.check(warmed.to.get::<degree_celsius>())?;
    let share = 1.0 + warmed.each.si() * (to - from);
    if share < 0.0 {
        return Err(Refusal::Conflict(
            "so large a rise for each degree leaves no resistance at this temperature",
        ));
    }
    Ok(warmed.resistance * share)
}

/// A resistance at one temperature that is wanted at another.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Warmed {
    /// Resistance of one conductor at `from`.
    pub resistance: ResistancePerLength,
    /// Rise of resistance for each degree from `from`.
    pub each: TemperatureCoefficient,
    /// Temperature of the figure.
    pub from: ThermodynamicTemperature,
    /// Temperature wanted.
    pub to: ThermodynamicTemperature,
}

const ONE_OUT: Port = port(
    "conductor",
    "r",
    "resistance of one conductor",
    CONDUCTOR_OHMS,
);
const RISE: Port = port("each", "c", "rise for each degree", PER_DEGREE);

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "metal.resistance",
        title: "resistance of a conductor of any metal",
        inputs: &[
            port("resistivity", "k", "resistivity at 20 degC", RESISTIVITY),
            RISE,
            port("area", "a", "cross-section", CONDUCTOR_AREA),
            port(
                "temperature",
                "t",
                "temperature of the conductor",
                TEMPERATURE,
            ),
        ],
        gives: ONE_OUT,
        law: Law::Named("resistivity, warmed, over the cross-section"),
        valid: "Direct current, a solid conductor.",
        source: "NBS Handbook 100, Copper Wire Tables",
        caution: NOT_AMPACITY,
        edition: 1,
        call: call!(_, (
            resistivity: ElectricalResistivity,
            each: TemperatureCoefficient,
            area: Area,
            temperature: ThermodynamicTemperature
        ) => resistance(Metal { resistivity, each }, area, temperature)),
    },
    Function {
        name: "metal.table_ohms",
        title: "resistance of a copper or aluminum AWG conductor by the code's table, 75 degC",
        inputs: &[
            port("awg", "n", "AWG size", PLAIN),
            port(
                "construction",
                "k",
                "solid or stranded",
                word(Construction::WORDS),
            ),
            port("metal", "m", "metal", word(Wire::WORDS)),
        ],
        gives: ONE_OUT,
        law: Law::Named("a cell of the code's table of conductor properties"),
        valid: "Direct current, 75 degC.",
        source: "NFPA 70 (National Electrical Code), chapter 9, table 8; coated copper and aluminum \
            from memory",
        caution: NOT_AMPACITY,
        edition: 1,
        call: call!(_, (awg: f64, construction: Construction, metal: Wire) =>
            table_ohms(awg, construction, metal)),
    },
    Function {
        name: "metal.at_temperature",
        title: "resistance of a conductor brought from one temperature to another",
        inputs: &[
            port(
                "resistance",
                "b",
                "resistance of one conductor as given",
                CONDUCTOR_OHMS,
            ),
            RISE,
            port("from", "f", "temperature of the figure", TEMPERATURE),
            port("to", "t", "temperature wanted", TEMPERATURE),
        ],
        gives: ONE_OUT,
        law: Law::Shown(Pair::both("b * (1 + c / 100 * (t - f))")),
        valid: "A rise that belongs to the first temperature: copper 0.393 %/Cdeg from 20 degC, \
            0.323 from 75; aluminum 0.403 and 0.330.",
        source: "NBS Handbook 100, Copper Wire Tables; NFPA 70 (National Electrical Code), chapter \
            9, table 8, note; aluminum from memory",
        caution: NOT_AMPACITY,
        edition: 1,
        call: call!(_, (
            resistance: ResistancePerLength,
            each: TemperatureCoefficient,
            from: ThermodynamicTemperature,
            to: ThermodynamicTemperature
        ) => at_temperature(Warmed { resistance, each, from, to })),
    },
];

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::conductor::area_awg;

    const SIZES: [f64; 15] = [
        18.0, 16.0, 14.0, 12.0, 10.0, 8.0, 6.0, 4.0, 3.0, 2.0, 1.0, 0.0, -1.0, -2.0, -3.0,
    ];

    fn celsius(figure: f64) -> ThermodynamicTemperature {
        ThermodynamicTemperature::new::<degree_celsius>(figure)
    }

    /// Every cell against first principles with two percent of lay: aluminum of 61 percent
    /// of copper's conductivity, and a coat that costs 2 to 6 percent more.
    #[test]
    fn the_codes_table_is_first_principles_rounded() {
        let aluminum = Metal {
            resistivity: ElectricalResistivity::from_si(2.826e-8),
            each: TemperatureCoefficient::from_si(0.004_03),
        };
        for awg in SIZES {
            for (construction, lay) in [(Construction::Solid, 1.0), (Construction::Stranded, 1.02)]
            {
                let Ok(printed) = table_ohms(awg, construction, Wire::Aluminum) else {
                    assert!(construction == Construction::Solid && awg < 8.0, "{awg}");
                    continue;
                };
                let area = area_awg(awg).unwrap();
                let worked = resistance(aluminum, area, celsius(75.0)).unwrap().si() * lay;
                assert!((printed.si() / worked - 1.0).abs() < 0.015, "{awg}");
                let bare = table_ohms(awg, construction, Wire::Copper).unwrap();
                let coated = table_ohms(awg, construction, Wire::CoatedCopper).unwrap();
                let more = coated.si() / bare.si();
                assert!(more > 1.02 && more < 1.07, "{awg}: {more}");
            }
        }
    }

    #[test]
    fn odd_figures_are_refused() {
        let sound = Warmed {
            resistance: OHM_PER_KILOFOOT.of(1.24),
            each: TemperatureCoefficient::from_si(0.003_23),
            from: celsius(75.0),
            to: celsius(10.0),
        };
        assert!(at_temperature(sound).is_ok());
        let steep = TemperatureCoefficient::from_si(0.02);
        assert!(
            at_temperature(Warmed {
                each: steep,
                ..sound
            })
            .is_err()
        );
        for odd in [f64::NAN, f64::INFINITY, -200.0] {
            assert!(
                at_temperature(Warmed {
                    to: celsius(odd),
                    ..sound
                })
                .is_err()
            );
            assert!(
                at_temperature(Warmed {
                    from: celsius(odd),
                    ..sound
                })
                .is_err()
            );
        }
        assert!(table_ohms(13.0, Construction::Stranded, Wire::Aluminum).is_err());
    }

    proptest! {
        /// The two coefficients of one metal are one line seen from two places.
        #[test]
        fn copper_from_20_and_from_75_is_one_line(to in 0.0..90.0_f64) {
            let warmed = |ohms: f64, each: f64, from: f64| {
                let warmed = Warmed {
                    resistance: OHM_PER_KILOFOOT.of(ohms),
                    each: TemperatureCoefficient::from_si(each),
                    from: celsius(from),
                    to: celsius(to),
                };
                at_temperature(warmed).unwrap().si()
            };
            let cold = OHM_PER_KILOFOOT.read(at_temperature(Warmed {
                resistance: OHM_PER_KILOFOOT.of(1.24),
                each: TemperatureCoefficient::from_si(0.003_23),
                from: celsius(75.0),
                to: celsius(20.0),
            }).unwrap());
            let (low, high) = (warmed(cold, 0.003_93, 20.0), warmed(1.24, 0.003_23, 75.0));
            prop_assert!((low / high - 1.0).abs() < 1e-3);
        }
    }
}

//! Plastic pipe: its sizes, the pressure it holds cold and warm, and how it grows.

use uom::si::f64::{
    Length, Pressure, TemperatureCoefficient, TemperatureInterval, ThermodynamicTemperature,
};
use uom::si::thermodynamic_temperature::degree_fahrenheit;

use crate::bounds::{Bounds, Refusal};
use crate::calling::{call, words};
use crate::dimension::Measured;
use crate::head;
use crate::ports::{DEGREES, GROWTH, LENGTH, PLAIN, PRESSURE, TEMPERATURE, WIDTH, port, word};
use crate::registry::{Basis, Function, Law, Pair, Port};
use crate::units::{FAHRENHEIT_DEGREE, FOOT, INCH, INCH_PER_100_FOOT_PER_FAHRENHEIT, PSI};

/// Thinnest wall of the standard's table, inches.
const THINNEST: f64 = 0.060;

const OUTSIDE: Bounds = Bounds::of("outside diameter", "in", 0.05, 200.0);
const BORE: Bounds = Bounds::of("inside diameter", "in", 0.05, 200.0);
const WALL: Bounds = Bounds::of("wall", "in", 0.001, 20.0);
const RATIO: Bounds = Bounds::of("dimension ratio", "", 3.0, 200.0);
const STRESS: Bounds = Bounds::of("hydrostatic design stress", "psi", 1.0, 100_000.0);
const RATING: Bounds = Bounds::of("pressure rating", "psi", 0.0, 10_000.0);
const FACTOR: Bounds = Bounds::of("temperature factor", "", 0.0, 1.5);
const WARMTH: Bounds = Bounds::of("temperature of the water", "degF", 32.0, 140.001);
const LIFT: Bounds = Bounds::of("height of the column", "ft", 0.0, 20_000.0);
const CUT_OUT: Bounds = Bounds::of("cut-out", "psi", 0.0, 1_000.0);
const RUN: Bounds = Bounds::of("length", "ft", 0.0, 1e6);
const WARMED: Bounds = Bounds::of("change of temperature", "Fdeg", -300.0, 300.0);
const EACH: Bounds = Bounds::of("growth for each degree", "in/100ft/Fdeg", 0.000_1, 1.0);

/// Ratio of outside diameter to wall.
///
/// # Formula
/// ```text
/// r = D / t
///
/// r  dimension ratio, DR or SDR   D  outside diameter   t  least wall
/// ```
///
/// # Valid for
/// Pipe sold by outside diameter. Pipe sold by inside diameter has the SIDR, which is
/// the DR less two.
///
/// # Source
/// A pipe maker's resource page, SDR. The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// That page: 2.375 in with a wall of 0.216 in is SDR 11.
/// ```
/// use pumpwright_calc::pipe::dimension_ratio;
/// use uom::si::{f64::Length, length::inch};
///
/// let ratio = dimension_ratio(Length::new::<inch>(2.375), Length::new::<inch>(0.216))?;
/// assert_eq!(format!("{ratio:.1}"), "11.0");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn dimension_ratio(outside: Length, wall: Length) -> Result<f64, Refusal> {
    let (outside, wall) = (
        OUTSIDE.check(INCH.read(outside))?,
        WALL.check(INCH.read(wall))?,
    );
    if 2.0 * wall >= outside {
        return Err(Refusal::Conflict("the walls leave no bore"));
    }
    Ok(outside / wall)
}

/// Least wall of pipe sold by inside diameter.
///
/// # Formula
/// ```text
/// t = d / r, and at least 0.060 in (1.524 mm)
///
/// t  least wall   d  inside diameter   r  SIDR
/// ```
///
/// # Valid for
/// PE of ASTM D2239, whose table goes no thinner than 0.060 in: 3/4 in and under at SIDR
/// 15, 1 in and under at SIDR 19. Its printed walls are rounded to the thousandth.
///
/// # Source
/// ASTM D2239, wall table (from memory). The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// That table (from memory): 0.150 in for 1 in SIDR 7, bore 1.049 in.
/// ```
/// use pumpwright_calc::pipe::wall_by_inside;
/// use uom::si::{f64::Length, length::inch};
///
/// let wall = wall_by_inside(Length::new::<inch>(1.049), 7.0)?;
/// assert_eq!(format!("{:.3}", wall.get::<inch>()), "0.150");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn wall_by_inside(bore: Length, sidr: f64) -> Result<Length, Refusal> {
    BORE.check(INCH.read(bore))?;
    Ok((bore / RATIO.check(sidr)?).max(INCH.of(THINNEST)))
}

/// Pressure rating of pipe sold by inside diameter, at 73 °F.
///
/// # Formula
/// ```text
/// p = 2 · s / (r + 1)
///
/// p  rating   s  hydrostatic design stress   r  SIDR
/// ```
///
/// # Valid for
/// Water at 73 °F. PE4710 has 1000 psi, PE3408 and PE3608 have 800: a maker's table that
/// mixes the two prints 250, 200, 160 beside 100 and 80. Name the material.
///
/// # Source
/// ASTM D2239 and D2737, the relation as a pipe maker's table has it. The accepted spans
/// are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// That table: 160 psi for SIDR 11.5 of PE4710.
/// ```
/// use pumpwright_calc::pipe::rating_by_inside;
/// use uom::si::{f64::Pressure, pressure::psi};
///
/// let rating = rating_by_inside(11.5, Pressure::new::<psi>(1000.0))?;
/// assert_eq!(format!("{:.0}", rating.get::<psi>()), "160");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn rating_by_inside(sidr: f64, stress: Pressure) -> Result<Pressure, Refusal> {
    let sidr = RATIO.check(sidr)?;
    STRESS.check(PSI.read(stress))?;
    Ok(stress * 2.0 / (sidr + 1.0))
}

/// Pressure rating of pipe sold by outside diameter, at 73 °F.
///
/// # Formula
/// ```text
/// p = 2 · s / (r - 1)
///
/// p  rating   s  hydrostatic design stress   r  DR
/// ```
///
/// # Valid for
/// Water at 73 °F, the material's own stress: PE4710 1000 psi, PVC 1120 2000 psi.
///
/// # Source
/// ASTM D3035 and F714 (from memory); a pipe maker's table prints the result. The
/// accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// That table: 200 psi for DR 11 of PE4710.
/// ```
/// use pumpwright_calc::pipe::rating_by_outside;
/// use uom::si::{f64::Pressure, pressure::psi};
///
/// let rating = rating_by_outside(11.0, Pressure::new::<psi>(1000.0))?;
/// assert_eq!(format!("{:.0}", rating.get::<psi>()), "200");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn rating_by_outside(dr: f64, stress: Pressure) -> Result<Pressure, Refusal> {
    let dr = RATIO.check(dr)?;
    STRESS.check(PSI.read(stress))?;
    Ok(stress * 2.0 / (dr - 1.0))
}

/// Materials whose tables of temperature factors are here.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Material {
    /// PE4710 by the Plastics Pipe Institute.
    Pe4710,
    /// Polyethylene by AWWA M55.
    PeM55,
    /// PVC schedule 40 or 80.
    Pvc,
}
words!(Material, "a pipe's material", {
    Pe4710 = "PE4710 by the Plastics Pipe Institute",
    PeM55 = "PE by AWWA M55",
    Pvc = "PVC",
});

/// Factor on the 73 °F rating for warmer water.
///
/// # Formula
/// ```text
///                              to 80   90    100   110   120   130   140 °F
/// PE4710, Plastics Pipe Inst.  1.0     0.9   0.8   0.8   0.7   0.7   0.6
/// PE, AWWA M55                 1.0     0.9   0.8   ask the maker
/// PVC (to 73: 1.0)             0.88    0.75  0.62  0.51  0.40  0.31  0.22
/// ```
/// The column at or above the water's temperature counts: the safe side.
///
/// # Valid for
/// 32 to 140 °F. An older continuous table is a little lower for old PE, 0.5 at 140 °F
/// (from memory); an Australian one for PE100 has 0.94 at 30 °C and 0.67 at 60.
///
/// # Source
/// PE4710: Plastics Pipe Institute, *Handbook of Polyethylene Pipe*, second edition,
/// errata, table A.2 as revised 2020. PE: AWWA M55, table 4-6. PVC: a vendor's sheet.
///
/// # Errors
/// [`Refusal::OutOfRange`] outside 32 to 140 °F; [`Refusal::Conflict`] above 100 °F by
/// AWWA M55.
///
/// # Example
/// AWWA M55, table 4-6: 0.9 from 81 to 90 °F.
/// ```
/// use pumpwright_calc::pipe::{Material, temperature_factor};
/// use uom::si::{f64::ThermodynamicTemperature, thermodynamic_temperature::degree_fahrenheit};
///
/// let warm = ThermodynamicTemperature::new::<degree_fahrenheit>(85.0);
/// assert_eq!(temperature_factor(Material::PeM55, warm)?, 0.9);
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn temperature_factor(
    material: Material,
    temperature: ThermodynamicTemperature,
) -> Result<f64, Refusal> {
    let fahrenheit = WARMTH.check(temperature.get::<degree_fahrenheit>())?;
    let steps: &[(f64, f64)] = match material {
        Material::Pe4710 => &[
            (80.0, 1.0),
            (90.0, 0.9),
            (110.0, 0.8),
            (130.0, 0.7),
            (140.0, 0.6),
        ],
        Material::PeM55 => &[(80.0, 1.0), (90.0, 0.9), (100.0, 0.8)],
        Material::Pvc => &[
            (73.0, 1.0),
            (80.0, 0.88),
            (90.0, 0.75),
            (100.0, 0.62),
            (110.0, 0.51),
            (120.0, 0.40),
            (130.0, 0.31),
            (140.0, 0.22),
        ],
    };
    // What changing units leaves behind must not move a figure into the next row.
    let row = steps.iter().find(|(most, _)| fahrenheit <= most + 1e-3);
    row.map(|(_, factor)| *factor).ok_or(Refusal::Conflict(
        "the table ends below this temperature; ask the pipe's maker",
    ))
}

/// Pressure rating in warm water.
///
/// # Formula
/// ```text
/// p = P · f
///
/// p  rating warm   P  rating at 73 °F   f  temperature factor
/// ```
///
/// # Valid for
/// The factor of the pipe's own material.
///
/// # Source
/// AWWA M55, table 4-6. The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// No outside figure is needed for a product: 200 psi at a factor of 0.9 is 180 psi.
/// ```
/// use pumpwright_calc::pipe::rating_warm;
/// use uom::si::{f64::Pressure, pressure::psi};
///
/// let rating = rating_warm(Pressure::new::<psi>(200.0), 0.9)?;
/// assert_eq!(format!("{:.1}", rating.get::<psi>()), "180.0");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn rating_warm(rating: Pressure, factor: f64) -> Result<Pressure, Refusal> {
    RATING.check(PSI.read(rating))?;
    Ok(rating * FACTOR.check(factor)?)
}

/// Pressure inside a drop pipe at the pump.
///
/// # Formula
/// ```text
/// p = c + l / 2.31      psi, ft   (trade, feet and psi)
/// p = c + 9.81 · l      kPa, m    (trade, metric)
/// p = c + 9.80665 · l   kPa, m    (physical)
///
/// p  pressure   c  cut-out at the well head   l  height of the column
/// ```
///
/// # Valid for
/// The pump at rest at cut-out. At shut-off it is higher: see
/// [`crate::relief::shut_off_pressure`].
///
/// # Source
/// A pipe maker's selection page, with 0.433 psi a foot. The accepted spans are our own
/// choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// That page: 330 ft and 50 psi are 192.9 psi, so pipe rated 200.
/// ```
/// use pumpwright_calc::{pipe::pressure_at_pump, registry::Basis};
/// use uom::si::f64::{Length, Pressure};
/// use uom::si::{length::foot, pressure::psi};
///
/// let (lift, cut_out) = (Length::new::<foot>(330.0), Pressure::new::<psi>(50.0));
/// let inside = pressure_at_pump(lift, cut_out, Basis::UsTrade)?;
/// assert_eq!(format!("{:.1}", inside.get::<psi>()), "192.9");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn pressure_at_pump(
    lift: Length,
    cut_out: Pressure,
    basis: Basis,
) -> Result<Pressure, Refusal> {
    LIFT.check(FOOT.read(lift))?;
    CUT_OUT.check(PSI.read(cut_out))?;
    Ok(cut_out + head::to_pressure(lift, basis)?)
}

/// Change of a pipe's length with its temperature.
///
/// # Formula
/// ```text
/// g = a · L · t / 100   in, in/100 ft/°F, ft, °F     (feet)
/// g = a · L · t         mm, mm/m/°C, m, °C           (metric)
///
/// g  change of length   a  growth for each degree   L  length   t  change of temperature
/// ```
/// One law; less than zero when the pipe cools.
///
/// # Valid for
/// Pipe free to move. PE: 9e-5 in a length and °F is 0.108 in in 100 ft and °F;
/// handbooks print 0.8e-4 to 1.2e-4. PVC about 3e-5 (from memory).
///
/// # Source
/// A pipe trade note: 9e-5 in/in/°F, "about 1 inch in 100 ft for 10 °F". The accepted
/// spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// That note: 100 ft of PE, 10 °F warmer, grow about an inch; exactly 1.08 in.
/// ```
/// use pumpwright_calc::pipe::length_change;
/// use uom::si::f64::{Length, TemperatureCoefficient, TemperatureInterval};
/// use uom::si::length::{foot, inch};
/// use uom::si::temperature_coefficient::per_kelvin;
/// use uom::si::temperature_interval::degree_fahrenheit;
///
/// let each = TemperatureCoefficient::new::<per_kelvin>(9e-5 * 1.8);
/// let warmer = TemperatureInterval::new::<degree_fahrenheit>(10.0);
/// let grown = length_change(Length::new::<foot>(100.0), warmer, each)?;
/// assert_eq!(format!("{:.2}", grown.get::<inch>()), "1.08");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn length_change(
    length: Length,
    warmed: TemperatureInterval,
    each: TemperatureCoefficient,
) -> Result<Length, Refusal> {
    RUN.check(FOOT.read(length))?;
    WARMED.check(FAHRENHEIT_DEGREE.read(warmed))?;
    EACH.check(INCH_PER_100_FOOT_PER_FAHRENHEIT.read(each))?;
    Ok(Length::from_si(length.si() * warmed.si() * each.si()))
}

const STRESS_PORT: Port = port("stress", "s", "hydrostatic design stress", PRESSURE);
const RATING_OUT: Port = port("rating", "p", "pressure rating at 73 degF", PRESSURE);
const WEAKEST: Option<&str> = Some(
    "Training figure; the mark on the pipe, its maker and the local code decide. The weakest fitting \
     counts as well, and warm water lowers all of them.",
);
const COLD: &str = "Water at 73 degF; the material's own stress.";

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "pipe.dimension_ratio",
        title: "ratio of a pipe's outside diameter to its wall",
        inputs: &[
            port("outside", "d", "outside diameter", WIDTH),
            port("wall", "t", "least wall", WIDTH),
        ],
        gives: port("ratio", "r", "dimension ratio", PLAIN),
        law: Law::Shown(Pair::both("d / t")),
        valid: "Pipe sold by outside diameter.",
        source: "a pipe maker's resource page, SDR",
        caution: None,
        edition: 1,
        call: call!(_, (outside: Length, wall: Length) => dimension_ratio(outside, wall)),
    },
    Function {
        name: "pipe.wall_by_inside",
        title: "least wall of pipe sold by inside diameter",
        inputs: &[
            port("bore", "d", "inside diameter", WIDTH),
            port("sidr", "r", "SIDR", PLAIN),
        ],
        gives: port("wall", "t", "least wall", WIDTH),
        law: Law::Shown(Pair {
            us: "max(d / r, 0.060)",
            si: "max(d / r, 1.524)",
        }),
        valid: "PE of ASTM D2239, whose table goes no thinner than 0.060 in.",
        source: "ASTM D2239, wall table (from memory)",
        caution: WEAKEST,
        edition: 2,
        call: call!(_, (bore: Length, sidr: f64) => wall_by_inside(bore, sidr)),
    },
    Function {
        name: "pipe.rating_by_inside",
        title: "pressure rating of pipe sold by inside diameter",
        inputs: &[port("sidr", "r", "SIDR", PLAIN), STRESS_PORT],
        gives: RATING_OUT,
        law: Law::Shown(Pair::both("2 * s / (r + 1)")),
        valid: COLD,
        source: "ASTM D2239 and D2737, as a pipe maker's table has it",
        caution: WEAKEST,
        edition: 1,
        call: call!(_, (sidr: f64, stress: Pressure) => rating_by_inside(sidr, stress)),
    },
    Function {
        name: "pipe.rating_by_outside",
        title: "pressure rating of pipe sold by outside diameter",
        inputs: &[port("dr", "r", "DR", PLAIN), STRESS_PORT],
        gives: RATING_OUT,
        law: Law::Shown(Pair::both("2 * s / (r - 1)")),
        valid: COLD,
        source: "ASTM D3035 and F714 (from memory)",
        caution: WEAKEST,
        edition: 1,
        call: call!(_, (dr: f64, stress: Pressure) => rating_by_outside(dr, stress)),
    },
    Function {
        name: "pipe.temperature_factor",
        title: "factor on a pipe's rating for warmer water",
        inputs: &[
            port("material", "m", "material and table", word(Material::WORDS)),
            port("temperature", "t", "temperature of the water", TEMPERATURE),
        ],
        gives: port("factor", "f", "temperature factor", PLAIN),
        law: Law::Named("by the table of the material, the row at or above the temperature"),
        valid: "32 to 140 degF.",
        source: "Plastics Pipe Institute, Handbook of Polyethylene Pipe, errata, table A.2 (2020); \
            AWWA M55, table 4-6; a vendor's sheet for PVC",
        caution: WEAKEST,
        edition: 1,
        call: call!(_, (material: Material, temperature: ThermodynamicTemperature) =>
            temperature_factor(material, temperature)),
    },
    Function {
        name: "pipe.rating_warm",
        title: "pressure rating in warm water",
        inputs: &[
            port("rating", "r", "rating at 73 degF", PRESSURE),
            port("factor", "f", "temperature factor", PLAIN),
        ],
        gives: port("rating", "p", "rating in warm water", PRESSURE),
        law: Law::Shown(Pair::both("r * f")),
        valid: "The factor of the pipe's own material.",
        source: "AWWA M55, table 4-6",
        caution: WEAKEST,
        edition: 1,
        call: call!(_, (rating: Pressure, factor: f64) => rating_warm(rating, factor)),
    },
    Function {
        name: "pipe.pressure_at_pump",
        title: "pressure inside a drop pipe at the pump",
        inputs: &[
            port("lift", "l", "height of the column", LENGTH),
            port("cut_out", "c", "cut-out at the well head", PRESSURE),
        ],
        gives: port("pressure", "p", "pressure at the pump", PRESSURE),
        law: Law::Shown(Pair {
            us: "c + l / 2.31",
            si: "c + 9.81 * l",
        }),
        valid: "The pump at rest at cut-out; at shut-off it is higher.",
        source: "a pipe maker's selection page",
        caution: WEAKEST,
        edition: 1,
        call: call!(basis, (lift: Length, cut_out: Pressure) =>
            pressure_at_pump(lift, cut_out, basis)),
    },
    Function {
        name: "pipe.length_change",
        title: "change of a pipe's length with its temperature",
        inputs: &[
            port("length", "l", "length", LENGTH),
            port("warmed", "t", "change of temperature", DEGREES),
            port("each", "a", "growth for each degree", GROWTH),
        ],
        gives: port("change", "g", "change of length", WIDTH),
        law: Law::Shown(Pair {
            us: "a * l * t / 100",
            si: "a * l * t",
        }),
        valid: "Pipe free to move.",
        source: "a pipe trade note: 9e-5 in/in/degF for PE",
        caution: None,
        edition: 1,
        call: call!(_, (
            length: Length,
            warmed: TemperatureInterval,
            each: TemperatureCoefficient
        ) => length_change(length, warmed, each)),
    },
];

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn at(fahrenheit: f64) -> ThermodynamicTemperature {
        ThermodynamicTemperature::new::<degree_fahrenheit>(fahrenheit)
    }

    /// Plastics Pipe Institute, errata, table A.2 (2020), row by row.
    #[test]
    fn the_table_of_pe4710_is_read_at_its_edges() {
        for (fahrenheit, factor) in [
            (80.0, 1.0),
            (80.5, 0.9),
            (90.0, 0.9),
            (95.0, 0.8),
            (110.0, 0.8),
            (120.0, 0.7),
            (140.0, 0.6),
        ] {
            assert_eq!(
                temperature_factor(Material::Pe4710, at(fahrenheit)),
                Ok(factor)
            );
        }
        assert!(temperature_factor(Material::Pe4710, at(141.0)).is_err());
        assert!(temperature_factor(Material::PeM55, at(101.0)).is_err());
        assert!(temperature_factor(Material::Pvc, at(f64::NAN)).is_err());
    }

    #[test]
    fn a_pipe_without_bore_is_refused() {
        assert!(dimension_ratio(INCH.of(2.0), INCH.of(1.0)).is_err());
        assert!(rating_by_outside(1.0, PSI.of(1000.0)).is_err());
    }

    proptest! {
        #[test]
        fn by_inside_and_by_outside_are_one_rating(sidr in 4.0..40.0_f64) {
            let stress = PSI.of(1000.0);
            let inside = rating_by_inside(sidr, stress).unwrap().si();
            let outside = rating_by_outside(sidr + 2.0, stress).unwrap().si();
            prop_assert!((inside / outside - 1.0).abs() < 1e-12);
        }

        #[test]
        fn warmer_is_never_stronger(fahrenheit in 32.0..99.0_f64, at_one in 0_usize..3) {
            let material = [Material::Pe4710, Material::PeM55, Material::Pvc][at_one];
            let factor = |fahrenheit| temperature_factor(material, at(fahrenheit)).unwrap();
            prop_assert!(factor(fahrenheit + 1.0) <= factor(fahrenheit));
        }
    }
}

//! Units by the names that reference rows and ports use, with their exact
//! sizes. `/` divides and `.` multiplies, as in `ohm.mm2/m`.

const FOOT: f64 = 0.3048;
const INCH: f64 = 0.0254;
const GALLON: f64 = 231.0 * INCH * INCH * INCH;
const POUND: f64 = 0.453_592_37;
const GRAVITY: f64 = 9.806_65;
const CMIL: f64 = std::f64::consts::FRAC_PI_4 * (INCH / 1e3) * (INCH / 1e3);
const PSI: f64 = POUND * GRAVITY / (INCH * INCH);

/// The SI value of a figure in this unit, or nothing for a name not known.
pub fn to_si(figure: f64, unit: &str) -> Option<f64> {
    match point(unit) {
        Some((size, zero)) => Some((figure + zero) * size),
        None => size(unit).map(|size| figure * size),
    }
}

/// The SI value of a difference of temperatures, or of something for each degree.
pub fn to_si_interval(figure: f64, unit: &str) -> Option<f64> {
    size(unit).map(|size| figure * size)
}

/// The figure of an SI value in this unit.
pub fn from_si(value: f64, unit: &str) -> Option<f64> {
    match point(unit) {
        Some((size, zero)) => Some(value / size - zero),
        None => size(unit).map(|size| value / size),
    }
}

/// Scales with a zero of their own: size of a degree, degrees above nothing.
fn point(unit: &str) -> Option<(f64, f64)> {
    match unit {
        "degC" => Some((1.0, 273.15)),
        "degF" => Some((5.0 / 9.0, 459.67)),
        _ => None,
    }
}

fn size(unit: &str) -> Option<f64> {
    if let Some(simple) = simple(unit) {
        return Some(simple);
    }
    let mut parts = unit.split('/');
    let mut size = product(parts.next()?)?;
    for part in parts {
        size /= product(part)?;
    }
    Some(size)
}

fn product(unit: &str) -> Option<f64> {
    unit.split(['.', '*']).map(simple).product()
}

fn simple(unit: &str) -> Option<f64> {
    let row = UNITS.iter().find(|(name, _)| *name == unit);
    row.map(|(_, size)| *size)
}

const UNITS: &[(&str, f64)] = &[
    ("", 1.0),
    ("1", 1.0),
    ("stages", 1.0),
    ("%", 0.01),
    ("m", 1.0),
    ("s", 1.0),
    ("A", 1.0),
    ("V", 1.0),
    ("ohm", 1.0),
    ("N", 1.0),
    ("K", 1.0),
    ("kg", 1.0),
    ("m2", 1.0),
    ("m3", 1.0),
    ("s2", 1.0),
    ("Pa", 1.0),
    ("ft", FOOT),
    ("in", INCH),
    ("mm", 1e-3),
    ("km", 1e3),
    ("kft", 1e3 * FOOT),
    ("100ft", 100.0 * FOOT),
    ("100m", 100.0),
    ("psi", PSI),
    ("psig", PSI),
    ("psi gauge", PSI),
    ("kPa", 1e3),
    ("kPa gauge", 1e3),
    ("bar", 1e5),
    ("bar gauge", 1e5),
    ("kN", 1e3),
    ("gal", GALLON),
    ("gpm", GALLON / 60.0),
    ("L", 1e-3),
    ("min", 60.0),
    ("h", 3600.0),
    ("ft3", FOOT * FOOT * FOOT),
    ("lb", POUND),
    ("mm2", 1e-6),
    ("cmil", CMIL),
    ("nohm", 1e-9),
    ("kohm", 1e3),
    ("megohm", 1e6),
    ("count", 1.0),
    ("people", 1.0),
    ("places", 1.0),
    ("joints", 1.0),
    ("valves", 1.0),
    ("starts", 1.0),
    ("$", 1.0),
    // Differences of temperature, where no scale's zero counts.
    ("degF", 5.0 / 9.0),
    ("Fdeg", 5.0 / 9.0),
    ("degC", 1.0),
    ("Cdeg", 1.0),
    ("day", 86_400.0),
    ("d", 86_400.0),
    ("oz", POUND / 16.0),
    ("lbf", POUND * GRAVITY),
    ("g", 1e-3),
    ("mg", 1e-6),
    ("ft2", FOOT * FOOT),
    ("fl oz", GALLON / 128.0),
    ("floz", GALLON / 128.0),
    ("mL", 1e-6),
    // Trade percent: grams in a hundred milliliters, a figure of its own.
    ("100mL", 1e-4),
    // Imperial gallon: U.K. Weights and Measures Act 1985 (from memory).
    ("imperial gal", 0.004_546_09),
    ("gpd", GALLON / 86_400.0),
    ("gph", GALLON / 3_600.0),
    ("W", 1.0),
    ("kW", 1e3),
    ("hp", 550.0 * FOOT * POUND * GRAVITY),
    ("kWh", 3.6e6),
    ("Hz", 1.0),
    ("rpm", 1.0 / 60.0),
    ("uF", 1e-6),
    ("GPa", 1e9),
    ("MPa", 1e6),
    ("mPa", 1e-3),
    ("mbar", 1e2),
    ("atm", 101_325.0),
    ("psia", PSI),
    ("inHg", 3_386.389),
    ("cP", 1e-3),
    ("cSt", 1e-6),
    // In water a part in a million is a milligram in a liter.
    ("ppm", 1e-3),
    ("qt", GALLON / 4.0),
    ("cfs", FOOT * FOOT * FOOT),
    ("yd", 3.0 * FOOT),
    ("cm", 1e-2),
    ("mil", 1e-3 * INCH),
    ("kcmil", 1e3 * CMIL),
    ("mV", 1e-3),
    ("kV", 1e3),
    ("mA", 1e-3),
    ("mohm", 1e-3),
    ("VA", 1.0),
    ("kVA", 1e3),
    ("MW", 1e6),
    ("week", 604_800.0),
    ("year", 365.0 * 86_400.0),
    ("ton", 2_000.0 * POUND),
    ("kgf", GRAVITY),
];

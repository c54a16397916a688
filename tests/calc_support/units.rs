//! Units by the names that reference rows and ports use, with their exact
//! sizes. `/` divides and `.` multiplies, as in `ohm.mm2/m`.

const FOOT: f64 = 0.3048;
const INCH: f64 = 0.0254;
const GALLON: f64 = 231.0 * INCH * INCH * INCH;
const POUND: f64 = 0.453_592_37;
const PSI: f64 = POUND * 9.806_65 / (INCH * INCH);

/// The SI value of a figure in this unit, or nothing for a name not known.
pub fn to_si(figure: f64, unit: &str) -> Option<f64> {
    match point(unit) {
        Some((size, zero)) => Some((figure + zero) * size),
        None => size(unit).map(|size| figure * size),
    }
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
    unit.split('.').map(simple).product()
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
    (
        "cmil",
        std::f64::consts::FRAC_PI_4 * (INCH / 1e3) * (INCH / 1e3),
    ),
    ("nohm", 1e-9),
    ("kohm", 1e3),
    ("megohm", 1e6),
];

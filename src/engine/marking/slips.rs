//! Slips between units: a figure that is right but for a known factor.

use std::sync::LazyLock;

use crate::quantities::Unit;

/// A figure this near to a factor is taken for it: our own choice, no source.
const NEAR: f64 = 0.006;

/// The trade's own factors between height of water and pressure.
const TRADE: [(f64, &str); 2] = [
    // 2.31 ft of water in a psi: common practice, no source.
    (2.31, "feet of water and psi"),
    // 9.81 kPa in a metre of water: common practice, no source.
    (9.81, "meters of water and kPa"),
];

/// The units of the kinds that are mixed up by them.
const HEIGHT_AND_PRESSURE: [&str; 2] = ["ft", "psi"];

/// Units between which a slip is looked for, beside the line's own.
const COMMON: [&str; 30] = [
    "ft",
    "in",
    "m",
    "mm",
    "cm",
    "psi",
    "kPa",
    "bar",
    "gal",
    "L",
    "gpm",
    "L/min",
    "L/s",
    "m3/h",
    "ohm",
    "kohm",
    "megohm",
    "V",
    "mV",
    "A",
    "mA",
    "W",
    "kW",
    "hp",
    "s",
    "min",
    "h",
    "lb",
    "kg",
    "ohm/100ft",
];

/// The same, read once.
static COMMON_UNITS: LazyLock<Vec<Unit>> = LazyLock::new(|| {
    let units = COMMON.iter();
    units.filter_map(|name| Unit::parse(name).ok()).collect()
});

/// The factor that a figure is off by, in words: `off by 2.31: feet of water and psi?`.
pub(super) fn unit_slip(right: f64, typed: f64, unit: Option<&Unit>) -> Option<String> {
    if right == 0.0 || typed == 0.0 || right.signum() != typed.signum() {
        return None;
    }
    let ratio = typed / right;
    let named = |factor: f64| near(ratio, factor) || near(ratio, 1.0 / factor);
    let unit = unit?;
    let mut water = HEIGHT_AND_PRESSURE
        .iter()
        .filter_map(|name| Unit::parse(name).ok());
    if let Some((factor, between)) = TRADE.iter().find(|(factor, _)| named(*factor))
        && water.any(|kind| kind.dimension() == unit.dimension())
    {
        return Some(format!("off by {factor}: {between} mixed up?"));
    }
    if unit.symbol() == "%" && named(100.0) {
        return Some("off by 100: a share written for per cent?".to_owned());
    }
    if unit.is_point() || unit.is_noun() {
        return None;
    }
    let own = unit.to_si(1.0);
    COMMON_UNITS.iter().find_map(|other| {
        let factor = other.to_si(1.0) / own;
        let other_size = !near(factor, 1.0) && other.dimension() == unit.dimension();
        (other_size && near(ratio, factor.recip()))
            .then(|| {
                format!(
                    "this is the figure in {}, not in {}",
                    other.symbol(),
                    unit.symbol()
                )
            })
            .or_else(|| {
                (other_size && near(ratio, factor)).then(|| {
                    format!(
                        "off by the factor between {} and {}",
                        other.symbol(),
                        unit.symbol()
                    )
                })
            })
    })
}

fn near(ratio: f64, factor: f64) -> bool {
    (ratio - factor).abs() <= NEAR * factor
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn slips_are_named() {
        let psi = Unit::parse("psi").unwrap();
        let ft = Unit::parse("ft").unwrap();
        let percent = Unit::parse("%").unwrap();
        let cases = [
            (
                38.0,
                38.0 * 2.31,
                &psi,
                "off by 2.31: feet of water and psi mixed up?",
            ),
            (38.0, 262.0, &psi, "this is the figure in kPa, not in psi"),
            (100.0, 30.48, &ft, "this is the figure in m, not in ft"),
            (
                4.4,
                0.044,
                &percent,
                "off by 100: a share written for per cent?",
            ),
        ];
        for (right, typed, unit, said) in cases {
            assert_eq!(unit_slip(right, typed, Some(unit)).as_deref(), Some(said));
        }
        assert_eq!(unit_slip(38.0, 55.0, Some(&psi)), None);
        // A share of volts that is off by 2.31 has nothing to do with water.
        assert_eq!(unit_slip(2.8, 2.8 * 2.31, Some(&percent)), None);
        assert_eq!(unit_slip(38.0, 0.0, Some(&psi)), None);
    }
}

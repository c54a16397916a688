//! Friction factors against one another and against the equation they solve.

use proptest::prelude::*;

use super::*;
use crate::units::{GALLON_PER_MINUTE, SQUARE_MILLIMETER_PER_SECOND};

fn flow(reynolds: f64, roughness: f64) -> Turbulence {
    Turbulence {
        reynolds,
        roughness,
    }
}

fn head(gpm: f64, roughness: f64, thick: f64) -> Result<f64, Refusal> {
    let pipe = RoughPipe {
        length: FOOT.of(200.0),
        bore: INCH.of(1.049),
        roughness: INCH.of(roughness),
    };
    let viscosity = SQUARE_MILLIMETER_PER_SECOND.of(thick);
    head_loss(pipe, GALLON_PER_MINUTE.of(gpm), viscosity).map(|head| FOOT.read(head))
}

#[test]
fn still_water_loses_nothing_and_odd_pipes_are_refused() {
    assert_eq!(head(0.0, 0.0001, 1.2), Ok(0.0));
    assert!(head(5.0, 0.5, 1.2).is_err());
    assert!(head(5.0, f64::NAN, 1.2).is_err());
    assert!(head(5.0, 0.0001, 0.0).is_err());
    assert!(colebrook(flow(1_999.0, 0.0)).is_err());
    assert!(laminar(0.0).is_err());
}

/// Hagen and Poiseuille: laminar loss goes with the flow itself.
#[test]
fn laminar_loss_doubles_with_the_flow() {
    let (one, two) = (
        head(0.2, 0.001, 1.2).unwrap(),
        head(0.4, 0.001, 1.2).unwrap(),
    );
    assert!((two / one - 2.0).abs() < 1e-12);
}

proptest! {
    #[test]
    fn colebrook_solves_its_equation_to_the_last_figures(
        log in 3.4..8.0_f64, roughness in 0.0..0.05_f64,
    ) {
        let re = libm::pow(10.0, log);
        let factor = colebrook(flow(re, roughness)).unwrap();
        let inverse = 1.0 / factor.sqrt();
        let said = -2.0 * libm::log10(roughness / 3.7 + 2.51 * inverse / re);
        prop_assert!((said / inverse - 1.0).abs() < 5e-15, "{said} {inverse}");
    }

    #[test]
    fn the_two_short_forms_keep_their_word(log in 3.7..8.0_f64, rough in -6.0..-2.0_f64) {
        let at = flow(libm::pow(10.0, log), libm::pow(10.0, rough));
        let exact = colebrook(at).unwrap();
        prop_assert!((swamee_jain(at).unwrap() / exact - 1.0).abs() < 0.03);
        prop_assert!((haaland(at).unwrap() / exact - 1.0).abs() < 0.02);
    }

    #[test]
    fn rougher_and_thicker_lose_more(
        gpm in 4.0..60.0_f64, rough in 0.0..0.01_f64, thick in 0.4..1.7_f64,
    ) {
        let here = head(gpm, rough, thick).unwrap();
        prop_assert!(head(gpm, rough + 0.001, thick).unwrap() > here);
        prop_assert!(head(gpm, rough, thick * 1.02).unwrap() > here);
        prop_assert!(head(gpm * 1.01, rough, thick).unwrap() > here);
    }
}

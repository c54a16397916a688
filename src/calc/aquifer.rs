//! Drawdown round one pumped well by Theis, and its recovery. Several wells are in
//! `interference`, the straight-line method is in `jacob`.

use std::f64::consts::PI;

use uom::si::f64::{Length, Time, VolumeRate};

use crate::bounds::{Bounds, Refusal};
use crate::calling::call;
use crate::dimension::{FlowPerLength, Measured};
use crate::ports::{AQUIFER_FLOW, DAYS, LENGTH, PLAIN, TRANSMISSIVITY, port};
use crate::registry::{Basis, Function, Law, Port};
use crate::units::{DAY, FOOT, GALLON_PER_MINUTE, GPD_PER_FOOT};

/// Euler's constant.
const EULER: f64 = 0.577_215_664_901_532_9;
/// Below this the series is short; above it the continued fraction is.
const SERIES_BELOW: f64 = 1.5;
const TERMS: u32 = 200;
/// Feet from gallons a minute over gallons a day and foot: 1440 / (4 π).
const US_FALL: f64 = 114.6;
/// From feet squared over gallons a day and foot, and days: 7.4805 / 4.
const US_U: f64 = 1.87;

const U: Bounds = Bounds::of("u", "", 1e-30, 700.0);
pub(crate) const FLOW: Bounds = Bounds::of("flow", "gpm", 0.0, 1e6);
pub(crate) const CARRIED: Bounds = Bounds::of("transmissivity", "gpd/ft", 0.001, 1e9);
pub(crate) const STORED: Bounds = Bounds::of("storage coefficient", "", 1e-9, 0.6);
pub(crate) const AWAY: Bounds = Bounds::of("distance", "ft", 0.01, 1e6);
pub(crate) const LASTING: Bounds = Bounds::of("time of pumping", "d", 1e-7, 1e6);

/// The well function: exponential integral of the first kind.
///
/// # Formula
/// ```text
/// W(u) = -0.5772 - ln u + u - u²/(2·2!) + u³/(3·3!) - ...      up to 1.5
/// W(u) = e^-u / (u + 1/(1 + 1/(u + 2/(1 + 2/(u + ...)))))      above
/// ```
/// both carried to the last figure.
///
/// # Valid for
/// u above nothing, to 700 where nothing is left of it.
///
/// # Source
/// C. V. Theis, *Transactions of the American Geophysical Union* 16 (1935) 519;
/// series and fraction: Abramowitz and Stegun, *Handbook of Mathematical
/// Functions*, 5.1.11 and 5.1.22 (all from memory).
///
/// # Errors
/// [`Refusal::OutOfRange`] for what is no such u.
///
/// # Example
/// The table of W(u) in USGS Water-Supply Paper 1536-E (from memory): 4.0379 at
/// 0.01, 0.2194 at 1.
/// ```
/// use pumpwright_calc::aquifer::theis_w;
///
/// assert_eq!(format!("{:.4}", theis_w(0.01)?), "4.0379");
/// assert_eq!(format!("{:.4}", theis_w(1.0)?), "0.2194");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn theis_w(u: f64) -> Result<f64, Refusal> {
    U.check(u).map(well_function)
}

fn well_function(u: f64) -> f64 {
    if u < SERIES_BELOW {
        series(u)
    } else {
        fraction(u)
    }
}

fn series(u: f64) -> f64 {
    let (mut sum, mut term) = (-EULER - libm::log(u), -1.0);
    for n in (1..TERMS).map(f64::from) {
        term *= -u / n;
        let next = sum + term / n;
        if next == sum {
            break;
        }
        sum = next;
    }
    sum
}

/// By the fraction of even terms, from the top down (Lentz).
fn fraction(u: f64) -> f64 {
    let mut below = u + 1.0;
    let (mut far, mut near) = (f64::MAX, 1.0 / below);
    let mut value = near;
    for n in (1..TERMS).map(f64::from) {
        let top = -n * n;
        below += 2.0;
        near = 1.0 / (top * near + below);
        far = below + top / far;
        let change = far * near;
        value *= change;
        if (change - 1.0).abs() < 1e-16 {
            break;
        }
    }
    value * libm::exp(-u)
}

/// What an aquifer carries and stores.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Aquifer {
    /// Transmissivity: flow through each width at a slope of one.
    pub transmissivity: FlowPerLength,
    /// Storage coefficient.
    pub storage: f64,
}

/// A place near a pumped well, after some pumping.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pumped {
    /// Steady flow of the well.
    pub flow: VolumeRate,
    /// From the well to the place.
    pub distance: Length,
    /// Since pumping began.
    pub time: Time,
}

impl Pumped {
    pub(crate) fn checked(self, aquifer: Aquifer) -> Result<(), Refusal> {
        FLOW.check(GALLON_PER_MINUTE.read(self.flow))?;
        CARRIED.check(GPD_PER_FOOT.read(aquifer.transmissivity))?;
        STORED.check(aquifer.storage)?;
        AWAY.check(FOOT.read(self.distance))?;
        LASTING.check(DAY.read(self.time))?;
        Ok(())
    }
}

/// Theis's u: how far out and how early a place is.
///
/// # Formula
/// ```text
/// u = 1.87 · r² · S / (T · t)    ft, gpd/ft, d    (trade, feet and gallons)
/// u = r² · S / (4 · T · t)       any one system   (else)
///
/// r  distance   S  storage coefficient   T  transmissivity   t  time of pumping
/// ```
///
/// # Valid for
/// An aquifer that answers as Theis supposes: wide, even, confined or little drawn
/// down. Below 0.01 the straight-line method holds to 0.3 percent.
///
/// # Source
/// UFC 3-220-05, appendix C, equation C-4. The accepted spans are our own choice;
/// no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// Fair, Geyer and Okun, *Water and Wastewater Engineering*, example 10.1: u is
/// 1.99e-4 at 1000 ft after 10 days, where W(u) is 7.94.
/// ```
/// use pumpwright_calc::aquifer::{Aquifer, Pumped, theis_u, theis_w};
/// use pumpwright_calc::{dimension::Measured, registry::Basis};
/// use uom::si::f64::{Length, Time, VolumeRate};
/// use uom::si::{length::foot, time::day};
/// use uom::si::volume_rate::{gallon_per_day, gallon_per_minute};
///
/// let carried = VolumeRate::new::<gallon_per_day>(32_000.0) / Length::new::<foot>(1.0);
/// let aquifer = Aquifer { transmissivity: Measured::from_si(carried.si()), storage: 3.4e-5 };
/// let well = Pumped {
///     flow: VolumeRate::new::<gallon_per_minute>(700.0),
///     distance: Length::new::<foot>(1000.0),
///     time: Time::new::<day>(10.0),
/// };
/// let u = theis_u(aquifer, well, Basis::UsTrade)?;
/// assert_eq!(format!("{:.2}", theis_w(u)?), "7.95");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn theis_u(aquifer: Aquifer, well: Pumped, basis: Basis) -> Result<f64, Refusal> {
    well.checked(aquifer)?;
    let u = |transmissivity: f64, distance: f64, time: f64| {
        distance * distance * aquifer.storage / (transmissivity * time)
    };
    Ok(match basis {
        Basis::UsTrade => {
            let transmissivity = GPD_PER_FOOT.read(aquifer.transmissivity);
            US_U * u(
                transmissivity,
                FOOT.read(well.distance),
                DAY.read(well.time),
            )
        }
        Basis::SiTrade | Basis::Physical => {
            let transmissivity = aquifer.transmissivity.si();
            u(transmissivity, well.distance.si(), well.time.si()) / 4.0
        }
    })
}

/// Drawdown at a place by Theis.
///
/// # Formula
/// ```text
/// s = 114.6 · Q · W(u) / T     ft, gpm, gpd/ft   (trade, feet and gallons)
/// s = Q · W(u) / (4 · π · T)   any one system    (else)
///
/// s  drawdown   Q  flow   T  transmissivity   u  by `theis_u`   W  by `theis_w`
/// ```
///
/// # Valid for
/// A wide, even, confined aquifer, a well through all of it, a steady flow. In the
/// pumped well itself losses of the well come on top.
///
/// # Source
/// UFC 3-220-05, appendix C, equations C-3 and C-4. The accepted spans are our own
/// choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span, or u where it is
/// past 700.
///
/// # Example
/// Fair, Geyer and Okun, *Water and Wastewater Engineering*, example 10.1: 700 gpm
/// draw down 19.9 ft at 1000 ft after 10 days, with W(u) 7.94.
/// ```
/// use pumpwright_calc::aquifer::{Aquifer, Pumped, theis_drawdown};
/// use pumpwright_calc::{dimension::Measured, registry::Basis};
/// use uom::si::f64::{Length, Time, VolumeRate};
/// use uom::si::{length::foot, time::day};
/// use uom::si::volume_rate::{gallon_per_day, gallon_per_minute};
///
/// let carried = VolumeRate::new::<gallon_per_day>(32_000.0) / Length::new::<foot>(1.0);
/// let aquifer = Aquifer { transmissivity: Measured::from_si(carried.si()), storage: 3.4e-5 };
/// let well = Pumped {
///     flow: VolumeRate::new::<gallon_per_minute>(700.0),
///     distance: Length::new::<foot>(1000.0),
///     time: Time::new::<day>(10.0),
/// };
/// let fall = theis_drawdown(aquifer, well, Basis::UsTrade)?;
/// assert_eq!(format!("{:.1}", fall.get::<foot>()), "19.9");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn theis_drawdown(aquifer: Aquifer, well: Pumped, basis: Basis) -> Result<Length, Refusal> {
    let reached = theis_u(aquifer, well, basis)?;
    let function = theis_w(reached.max(U.min))?;
    Ok(match basis {
        Basis::UsTrade => FOOT.of(US_FALL * GALLON_PER_MINUTE.read(well.flow) * function
            / GPD_PER_FOOT.read(aquifer.transmissivity)),
        Basis::SiTrade | Basis::Physical => {
            Length::from_si(well.flow.si() * function / (4.0 * PI * aquifer.transmissivity.si()))
        }
    })
}

/// Residual drawdown after the pump has stopped.
///
/// # Formula
/// ```text
/// s' = s(t) - s(t')     each by `theis_drawdown`
///
/// t  since pumping began   t'  since it stopped
/// ```
///
/// # Valid for
/// As [`theis_drawdown`], the water coming back from the same aquifer: stopping is
/// a second well that puts the same flow in.
///
/// # Source
/// C. V. Theis, *Transactions of the American Geophysical Union* 16 (1935) 519 (from
/// memory).
///
/// # Errors
/// As [`theis_drawdown`]; [`Refusal::Conflict`] where the pump stopped before it
/// began.
///
/// # Example
/// Theis and Jacob (from memory): late on, 264 · Q / T · log10(t / t'); for 12 gpm
/// and 2500 gpd a foot after 2 days, one of them at rest, 0.38 ft.
/// ```
/// use pumpwright_calc::aquifer::{Aquifer, Pumped, residual_drawdown};
/// use pumpwright_calc::{dimension::Measured, registry::Basis};
/// use uom::si::f64::{Length, Time, VolumeRate};
/// use uom::si::{length::foot, time::day};
/// use uom::si::volume_rate::{gallon_per_day, gallon_per_minute};
///
/// let carried = VolumeRate::new::<gallon_per_day>(2_500.0) / Length::new::<foot>(1.0);
/// let aquifer = Aquifer { transmissivity: Measured::from_si(carried.si()), storage: 0.000_2 };
/// let well = Pumped {
///     flow: VolumeRate::new::<gallon_per_minute>(12.0),
///     distance: Length::new::<foot>(10.0),
///     time: Time::new::<day>(2.0),
/// };
/// let left = residual_drawdown(aquifer, well, Time::new::<day>(1.0), Basis::UsTrade)?;
/// assert_eq!(format!("{:.2}", left.get::<foot>()), "0.38");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn residual_drawdown(
    aquifer: Aquifer,
    well: Pumped,
    since_stop: Time,
    basis: Basis,
) -> Result<Length, Refusal> {
    if since_stop >= well.time {
        return Err(Refusal::Conflict("the pump stopped before it began"));
    }
    let back = Pumped {
        time: since_stop,
        ..well
    };
    let fall = theis_drawdown(aquifer, well, basis)?;
    Ok(fall - theis_drawdown(aquifer, back, basis)?)
}

pub(crate) const PUMPED: [Port; 5] = [
    port("flow", "q", "flow", AQUIFER_FLOW),
    port("transmissivity", "t", "transmissivity", TRANSMISSIVITY),
    port("storage", "s", "storage coefficient", PLAIN),
    port("distance", "r", "distance from the well", LENGTH),
    port("time", "d", "time of pumping", DAYS),
];
pub(crate) const FALL: Port = port("drawdown", "f", "drawdown", LENGTH);
pub(crate) const THEIS: &str = "C. V. Theis, Transactions of the American Geophysical Union 16 (1935) 519 (from \
    memory); UFC 3-220-05, appendix C, equations C-3 and C-4";
pub(crate) const WIDE: &str =
    "A wide, even, confined aquifer; a steady flow; a well through all of it.";

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "aquifer.theis_w",
        title: "the well function W(u)",
        inputs: &[port("u", "u", "u", PLAIN)],
        gives: port("w", "w", "W(u)", PLAIN),
        law: Law::Named("the exponential integral of the first kind"),
        valid: "u above nothing, to 700.",
        source: THEIS,
        caution: None,
        edition: 1,
        call: call!(_, (u: f64) => theis_w(u)),
    },
    Function {
        name: "aquifer.theis_u",
        title: "Theis's u for a place and a time",
        inputs: &PUMPED,
        gives: port("u", "u", "u", PLAIN),
        law: Law::Named(
            "the square of the distance times storage, over four times transmissivity and time",
        ),
        valid: WIDE,
        source: THEIS,
        caution: None,
        edition: 1,
        call: call!(basis, (
            flow: VolumeRate,
            transmissivity: FlowPerLength,
            storage: f64,
            distance: Length,
            time: Time
        ) => theis_u(Aquifer { transmissivity, storage }, Pumped { flow, distance, time }, basis)),
    },
    Function {
        name: "aquifer.theis_drawdown",
        title: "drawdown at a distance by Theis",
        inputs: &PUMPED,
        gives: FALL,
        law: Law::Named("by Theis's formula with the well function W(u)"),
        valid: WIDE,
        source: THEIS,
        caution: None,
        edition: 1,
        call: call!(basis, (
            flow: VolumeRate,
            transmissivity: FlowPerLength,
            storage: f64,
            distance: Length,
            time: Time
        ) => theis_drawdown(
            Aquifer { transmissivity, storage },
            Pumped { flow, distance, time },
            basis,
        )),
    },
    Function {
        name: "aquifer.residual_drawdown",
        title: "drawdown that is left after the pump has stopped",
        inputs: &[
            PUMPED[0],
            PUMPED[1],
            PUMPED[2],
            PUMPED[3],
            PUMPED[4],
            port("since_stop", "e", "time since the pump stopped", DAYS),
        ],
        gives: FALL,
        law: Law::Named("by Theis, the drawdown since the start less that since the stop"),
        valid: WIDE,
        source: THEIS,
        caution: None,
        edition: 1,
        call: call!(basis, (
            flow: VolumeRate,
            transmissivity: FlowPerLength,
            storage: f64,
            distance: Length,
            time: Time,
            since_stop: Time
        ) => residual_drawdown(
            Aquifer { transmissivity, storage },
            Pumped { flow, distance, time },
            since_stop,
            basis,
        )),
    },
];

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::units::SQUARE_METER_PER_DAY;

    /// Abramowitz and Stegun, table 5.1 (from memory), and scipy 1.17.1 exp1.
    #[test]
    fn the_well_function_is_as_tabulated() {
        for (u, w) in [
            (1e-10, 22.448_635),
            (1e-4, 8.633_224_7),
            (0.5, 0.559_773_59),
            (1.0, 0.219_383_934_4),
            (2.0, 0.048_900_510_7),
            (10.0, 4.156_968_93e-6),
        ] {
            assert!((theis_w(u).unwrap() / w - 1.0).abs() < 1e-7, "{u}");
        }
    }

    #[test]
    fn series_and_fraction_meet() {
        for u in [1.2, 1.5, 2.0, 3.0] {
            assert!((series(u) / fraction(u) - 1.0).abs() < 1e-13, "{u}");
        }
    }

    fn at(distance: f64, days: f64) -> (Aquifer, Pumped) {
        let aquifer = Aquifer {
            transmissivity: SQUARE_METER_PER_DAY.of(45.0),
            storage: 0.000_2,
        };
        let well = Pumped {
            flow: GALLON_PER_MINUTE.of(20.0),
            distance: Length::from_si(distance),
            time: DAY.of(days),
        };
        (aquifer, well)
    }

    fn fall(distance: f64, days: f64, basis: Basis) -> Result<f64, Refusal> {
        let (aquifer, well) = at(distance, days);
        theis_drawdown(aquifer, well, basis).map(|fall| FOOT.read(fall))
    }

    #[test]
    fn the_trades_factors_are_the_law_rounded() {
        let exact = fall(30.0, 0.5, Basis::Physical).unwrap();
        assert!((fall(30.0, 0.5, Basis::UsTrade).unwrap() / exact - 1.0).abs() < 2e-4);
    }

    #[test]
    fn odd_places_and_times_are_refused() {
        assert!(theis_w(0.0).is_err() && theis_w(f64::NAN).is_err() && theis_w(-1.0).is_err());
        assert!(fall(f64::INFINITY, 1.0, Basis::Physical).is_err());
        let (aquifer, well) = at(30.0, 1.0);
        assert!(residual_drawdown(aquifer, well, DAY.of(1.0), Basis::Physical).is_err());
        assert!(residual_drawdown(aquifer, well, DAY.of(0.0), Basis::Physical).is_err());
    }

    proptest! {
        #[test]
        fn w_falls_as_u_grows(log in -12.0..2.0_f64) {
            let u = libm::pow(10.0, log);
            prop_assert!(theis_w(u * 1.01).unwrap() < theis_w(u).unwrap());
        }

        #[test]
        fn nearer_and_longer_fall_more_and_rest_gives_back(
            distance in 1.0..300.0_f64, days in 0.1..100.0_f64,
        ) {
            let here = fall(distance, days, Basis::Physical).unwrap();
            prop_assert!(fall(distance * 1.1, days, Basis::Physical).unwrap() < here);
            prop_assert!(fall(distance, days * 1.1, Basis::Physical).unwrap() > here);
            let (aquifer, well) = at(distance, days);
            let left = residual_drawdown(aquifer, well, DAY.of(days * 0.5), Basis::Physical);
            prop_assert!(FOOT.read(left.unwrap()) < here);
        }
    }
}

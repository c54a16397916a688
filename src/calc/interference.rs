//! Wells that pump from one aquifer draw down each other: their falls add. One well alone
//! is in `aquifer`.

use uom::si::f64::{Length, Time, VolumeRate};

use crate::aquifer::{Aquifer, FALL, PUMPED, Pumped, THEIS, WIDE, theis_drawdown};
use crate::bounds::Refusal;
use crate::calling::call;
use crate::dimension::{FlowPerLength, Measured};
use crate::ports::{AQUIFER_FLOW, LENGTH, port};
use crate::registry::{Basis, Function, Law};

/// Drawdown at a place from several wells that pump together.
///
/// # Formula
/// ```text
/// s = s1 + s2 + ...     each by `aquifer::theis_drawdown`
/// ```
///
/// # Valid for
/// A confined aquifer: falls add. In an unconfined one they add only while small.
///
/// # Source
/// Superposition; Fair, Geyer and Okun, *Water and Wastewater Engineering*, example
/// 10.1.
///
/// # Errors
/// As [`crate::aquifer::theis_drawdown`].
///
/// # Example
/// That example: at an end well of three in line, 1000 ft apart, the two others add
/// 36 ft to its own 54 ft.
/// ```
/// use pumpwright_calc::aquifer::{Aquifer, Pumped};
/// use pumpwright_calc::interference::drawdown_of_many;
/// use pumpwright_calc::{dimension::Measured, registry::Basis};
/// use uom::si::f64::{Length, Time, VolumeRate};
/// use uom::si::{length::foot, time::day};
/// use uom::si::volume_rate::{gallon_per_day, gallon_per_minute};
///
/// let carried = VolumeRate::new::<gallon_per_day>(32_000.0) / Length::new::<foot>(1.0);
/// let aquifer = Aquifer { transmissivity: Measured::from_si(carried.si()), storage: 3.4e-5 };
/// let wells = [1000.0, 2000.0].map(|feet| Pumped {
///     flow: VolumeRate::new::<gallon_per_minute>(700.0),
///     distance: Length::new::<foot>(feet),
///     time: Time::new::<day>(10.0),
/// });
/// let fall = drawdown_of_many(aquifer, &wells, Basis::UsTrade)?;
/// assert_eq!(format!("{:.0}", 54.0 + fall.get::<foot>()), "90");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn drawdown_of_many(
    aquifer: Aquifer,
    wells: &[Pumped],
    basis: Basis,
) -> Result<Length, Refusal> {
    let mut sum = Length::from_si(0.0);
    for well in wells {
        sum += theis_drawdown(aquifer, *well, basis)?;
    }
    Ok(sum)
}

/// Drawdown at a place from two wells that have pumped equally long.
///
/// # Formula
/// ```text
/// s = s1 + s2     each by `aquifer::theis_drawdown`
/// ```
/// For more wells, add the answers for them two by two; for a well of your own, add the
/// drawdown that it has alone.
///
/// # Valid for
/// As [`drawdown_of_many`].
///
/// # Source
/// As [`drawdown_of_many`].
///
/// # Errors
/// As [`crate::aquifer::theis_drawdown`].
///
/// # Example
/// Fair, Geyer and Okun, *Water and Wastewater Engineering*, example 10.1: neighbors 1000
/// and 2000 ft away, 700 gpm each, add 36 ft after 10 days.
/// ```
/// use pumpwright_calc::aquifer::{Aquifer, Pumped};
/// use pumpwright_calc::interference::two_wells;
/// use pumpwright_calc::{dimension::Measured, registry::Basis};
/// use uom::si::f64::{Length, Time, VolumeRate};
/// use uom::si::{length::foot, time::day};
/// use uom::si::volume_rate::{gallon_per_day, gallon_per_minute};
///
/// let carried = VolumeRate::new::<gallon_per_day>(32_000.0) / Length::new::<foot>(1.0);
/// let aquifer = Aquifer { transmissivity: Measured::from_si(carried.si()), storage: 3.4e-5 };
/// let well = |feet| Pumped {
///     flow: VolumeRate::new::<gallon_per_minute>(700.0),
///     distance: Length::new::<foot>(feet),
///     time: Time::new::<day>(10.0),
/// };
/// let fall = two_wells(aquifer, well(1000.0), well(2000.0), Basis::UsTrade)?;
/// assert_eq!(format!("{:.0}", fall.get::<foot>()), "36");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn two_wells(
    aquifer: Aquifer,
    one: Pumped,
    other: Pumped,
    basis: Basis,
) -> Result<Length, Refusal> {
    drawdown_of_many(aquifer, &[one, other], basis)
}

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[Function {
    name: "interference.two_wells",
    title: "drawdown at a place from two wells that pump together",
    inputs: &[
        PUMPED[1],
        PUMPED[2],
        PUMPED[4],
        port("flow_one", "a", "flow of the first well", AQUIFER_FLOW),
        port("distance_one", "b", "distance from the first well", LENGTH),
        port("flow_two", "c", "flow of the second well", AQUIFER_FLOW),
        port("distance_two", "e", "distance from the second well", LENGTH),
    ],
    gives: FALL,
    law: Law::Named("by Theis, the drawdown of each well, added"),
    valid: WIDE,
    source: THEIS,
    caution: None,
    edition: 1,
    call: call!(basis, (
        transmissivity: FlowPerLength,
        storage: f64,
        time: Time,
        flow_one: VolumeRate,
        distance_one: Length,
        flow_two: VolumeRate,
        distance_two: Length
    ) => two_wells(
        Aquifer { transmissivity, storage },
        Pumped { flow: flow_one, distance: distance_one, time },
        Pumped { flow: flow_two, distance: distance_two, time },
        basis,
    )),
}];

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::units::{DAY, GALLON_PER_MINUTE, SQUARE_METER_PER_DAY};

    fn well(gpm: f64, meters: f64) -> Pumped {
        Pumped {
            flow: GALLON_PER_MINUTE.of(gpm),
            distance: Length::from_si(meters),
            time: DAY.of(3.0),
        }
    }

    const fn aquifer(carried: FlowPerLength) -> Aquifer {
        Aquifer {
            transmissivity: carried,
            storage: 0.000_2,
        }
    }

    #[test]
    fn no_well_draws_nothing_down_and_an_odd_one_is_refused() {
        let aquifer = aquifer(SQUARE_METER_PER_DAY.of(45.0));
        let still = drawdown_of_many(aquifer, &[], Basis::Physical);
        assert_eq!(still, Ok(Length::from_si(0.0)));
        let odd = [well(10.0, 30.0), well(f64::NAN, 30.0)];
        assert!(drawdown_of_many(aquifer, &odd, Basis::Physical).is_err());
    }

    proptest! {
        #[test]
        fn falls_add_in_either_order_and_a_still_well_adds_nothing(
            one in 1.0..100.0_f64, other in 1.0..100.0_f64,
            near in 5.0..200.0_f64, far in 5.0..200.0_f64,
        ) {
            let aquifer = aquifer(SQUARE_METER_PER_DAY.of(45.0));
            let (one, other) = (well(one, near), well(other, far));
            let both = two_wells(aquifer, one, other, Basis::Physical).unwrap();
            let turned = two_wells(aquifer, other, one, Basis::Physical).unwrap();
            let alone = theis_drawdown(aquifer, one, Basis::Physical).unwrap();
            prop_assert!(((both / turned).value - 1.0).abs() < 1e-12);
            prop_assert!(both > alone);
            let still = two_wells(aquifer, one, well(0.0, far), Basis::Physical).unwrap();
            prop_assert_eq!(still, alone);
        }
    }
}

//! What a change of speed or of impeller does to a pump: the affinity laws.

use uom::si::f64::{Frequency, Length, Power, VolumeRate};

use crate::bounds::{Bounds, Refusal};
use crate::calling::call;
use crate::ports::{LENGTH, POWER, SPEED_FLOW, TURNING, WIDTH, port};
use crate::registry::{Function, Law, Pair, Port};
use crate::units::{FOOT, GALLON_PER_MINUTE, HERTZ, HORSEPOWER, INCH};

const FLOW: Bounds = Bounds::of("flow", "gpm", 0.0, 100_000.0);
const HEAD: Bounds = Bounds::of("head", "ft", 0.0, 25_000.0);
const SHAFT: Bounds = Bounds::of("power", "hp", 0.0, 100_000.0);
const SPEED: Bounds = Bounds::of("speed", "Hz", 0.01, 10_000.0);
const DISK: Bounds = Bounds::of("impeller diameter", "in", 0.1, 200.0);
const SHARE: Bounds = Bounds::of("new speed over old speed", "", 0.1, 10.0);
const TRIM: Bounds = Bounds::of("new diameter over old diameter", "", 0.5, 1.5);

/// A pump's speed before and after: revolutions, or the supply's frequency.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Speeds {
    /// At which the figure is known.
    pub from: Frequency,
    /// At which it is wanted.
    pub to: Frequency,
}

impl Speeds {
    fn share(self) -> Result<f64, Refusal> {
        SPEED.check(HERTZ.read(self.from))?;
        SPEED.check(HERTZ.read(self.to))?;
        SHARE.check(HERTZ.read(self.to) / HERTZ.read(self.from))
    }
}

/// An impeller's diameter before and after.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Trim {
    /// For which the figure is known.
    pub from: Length,
    /// For which it is wanted.
    pub to: Length,
}

impl Trim {
    fn share(self) -> Result<f64, Refusal> {
        DISK.check(INCH.read(self.from))?;
        DISK.check(INCH.read(self.to))?;
        TRIM.check(INCH.read(self.to) / INCH.read(self.from))
    }
}

/// Flow after a change of speed.
///
/// # Formula
/// ```text
/// q = Q · n / m
///
/// q  new flow   Q  flow   n  new speed   m  old speed
/// ```
///
/// # Valid for
/// The same point of the curve carried along; not the point where the new curve
/// meets the same system. Near the old speed; efficiency falls far from it.
///
/// # Source
/// Affinity laws; *Centrifugal Pumps*, second edition, table 2-2. The accepted
/// spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// No outside figure is needed for a proportion: 12 gpm at 3450 rpm is 10 gpm at
/// 2875 rpm.
/// ```
/// use pumpwright_calc::affinity::{Speeds, flow};
/// use uom::si::f64::{Frequency, VolumeRate};
/// use uom::si::{frequency::cycle_per_minute, volume_rate::gallon_per_minute};
///
/// let rpm = Frequency::new::<cycle_per_minute>;
/// let speeds = Speeds { from: rpm(3450.0), to: rpm(2875.0) };
/// let flow = flow(VolumeRate::new::<gallon_per_minute>(12.0), speeds)?;
/// assert_eq!(format!("{:.3}", flow.get::<gallon_per_minute>()), "10.000");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn flow(flow: VolumeRate, speeds: Speeds) -> Result<VolumeRate, Refusal> {
    FLOW.check(GALLON_PER_MINUTE.read(flow))?;
    Ok(flow * speeds.share()?)
}

/// Head after a change of speed.
///
/// # Formula
/// ```text
/// h = H · (n / m)²
///
/// h  new head   H  head   n  new speed   m  old speed
/// ```
///
/// # Valid for
/// As [`flow`]. Shut-off head follows it as well.
///
/// # Source
/// Affinity laws; *Centrifugal Pumps*, second edition, table 2-2. The accepted
/// spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// No outside figure is needed for a proportion: 150 ft at 60 Hz is 104.17 ft at
/// 50 Hz.
/// ```
/// use pumpwright_calc::affinity::{Speeds, head};
/// use uom::si::f64::{Frequency, Length};
/// use uom::si::{frequency::hertz, length::foot};
///
/// let (from, to) = (Frequency::new::<hertz>(60.0), Frequency::new::<hertz>(50.0));
/// let head = head(Length::new::<foot>(150.0), Speeds { from, to })?;
/// assert_eq!(format!("{:.2}", head.get::<foot>()), "104.17");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn head(head: Length, speeds: Speeds) -> Result<Length, Refusal> {
    HEAD.check(FOOT.read(head))?;
    let share = speeds.share()?;
    Ok(head * (share * share))
}

/// Power after a change of speed.
///
/// # Formula
/// ```text
/// p = P · (n / m)³
///
/// p  new power   P  power at the shaft   n  new speed   m  old speed
/// ```
///
/// # Valid for
/// As [`flow`]; power at the pump's shaft.
///
/// # Source
/// Affinity laws; *Centrifugal Pumps*, second edition, table 2-2. The accepted
/// spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// No outside figure is needed for a proportion: 1.4 hp at 60 Hz is 0.81 hp at
/// 50 Hz.
/// ```
/// use pumpwright_calc::affinity::{Speeds, power};
/// use uom::si::f64::{Frequency, Power};
/// use uom::si::{frequency::hertz, power::horsepower};
///
/// let (from, to) = (Frequency::new::<hertz>(60.0), Frequency::new::<hertz>(50.0));
/// let power = power(Power::new::<horsepower>(1.4), Speeds { from, to })?;
/// assert_eq!(format!("{:.2}", power.get::<horsepower>()), "0.81");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn power(power: Power, speeds: Speeds) -> Result<Power, Refusal> {
    SHAFT.check(HORSEPOWER.read(power))?;
    let share = speeds.share()?;
    Ok(power * (share * share * share))
}

/// Head after an impeller is turned down.
///
/// # Formula
/// ```text
/// h = H · (d / D)²
///
/// h  new head   H  head   d  new diameter   D  old diameter
/// ```
///
/// # Valid for
/// A small trim, at most a fifth or so of the diameter.
///
/// # Source
/// *Practical Pumping Handbook*, page 45. The accepted spans are our own choice;
/// no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// No outside figure is needed for a proportion: 90 ft from 6 in is 75.6 ft from
/// 5.5 in.
/// ```
/// use pumpwright_calc::affinity::{Trim, head_after_trim};
/// use uom::si::{f64::Length, length::{foot, inch}};
///
/// let trim = Trim { from: Length::new::<inch>(6.0), to: Length::new::<inch>(5.5) };
/// let head = head_after_trim(Length::new::<foot>(90.0), trim)?;
/// assert_eq!(format!("{:.1}", head.get::<foot>()), "75.6");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn head_after_trim(head: Length, trim: Trim) -> Result<Length, Refusal> {
    HEAD.check(FOOT.read(head))?;
    let share = trim.share()?;
    Ok(head * (share * share))
}

/// Flow after an impeller is turned down.
///
/// # Formula
/// ```text
/// q = Q · d / D
///
/// q  new flow   Q  flow   d  new diameter   D  old diameter
/// ```
///
/// # Valid for
/// A small trim of one impeller. Texts that have the cube of the diameters speak of
/// a whole pump made larger or smaller, which a trim is not.
///
/// # Source
/// *Practical Pumping Handbook*, page 45. The accepted spans are our own choice;
/// no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// No outside figure is needed for a proportion: 12 gpm from 6 in is 11 gpm from
/// 5.5 in.
/// ```
/// use pumpwright_calc::affinity::{Trim, flow_after_trim};
/// use uom::si::f64::{Length, VolumeRate};
/// use uom::si::{length::inch, volume_rate::gallon_per_minute};
///
/// let trim = Trim { from: Length::new::<inch>(6.0), to: Length::new::<inch>(5.5) };
/// let flow = flow_after_trim(VolumeRate::new::<gallon_per_minute>(12.0), trim)?;
/// assert_eq!(format!("{:.2}", flow.get::<gallon_per_minute>()), "11.00");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn flow_after_trim(flow: VolumeRate, trim: Trim) -> Result<VolumeRate, Refusal> {
    FLOW.check(GALLON_PER_MINUTE.read(flow))?;
    Ok(flow * trim.share()?)
}

const FROM: Port = port("speed_from", "m", "old speed", TURNING);
const TO: Port = port("speed_to", "n", "new speed", TURNING);
const DISK_FROM: Port = port("diameter_from", "c", "old impeller diameter", WIDTH);
const DISK_TO: Port = port("diameter_to", "d", "new impeller diameter", WIDTH);
const CARRIED: &str =
    "The same point of the curve carried along, not a new meeting with the system.";
const AFFINITY: &str = "affinity laws; Centrifugal Pumps, second edition, table 2-2";
const HANDBOOK: &str = "Practical Pumping Handbook, page 45";
const SMALL: &str = "A small trim, at most a fifth or so of the diameter.";

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "affinity.flow",
        title: "flow after a change of speed",
        inputs: &[port("flow", "q", "flow", SPEED_FLOW), FROM, TO],
        gives: port("flow", "f", "new flow", SPEED_FLOW),
        law: Law::Shown(Pair::both("q * n / m")),
        valid: CARRIED,
        source: AFFINITY,
        caution: None,
        edition: 1,
        call: call!(_, (flow: VolumeRate, speed_from: Frequency, speed_to: Frequency) =>
            self::flow(flow, Speeds { from: speed_from, to: speed_to })),
    },
    Function {
        name: "affinity.head",
        title: "head after a change of speed",
        inputs: &[port("head", "h", "head", LENGTH), FROM, TO],
        gives: port("head", "g", "new head", LENGTH),
        law: Law::Shown(Pair::both("h * (n / m)^2")),
        valid: CARRIED,
        source: AFFINITY,
        caution: None,
        edition: 1,
        call: call!(_, (head: Length, speed_from: Frequency, speed_to: Frequency) =>
            self::head(head, Speeds { from: speed_from, to: speed_to })),
    },
    Function {
        name: "affinity.power",
        title: "power after a change of speed",
        inputs: &[port("power", "p", "power at the shaft", POWER), FROM, TO],
        gives: port("power", "w", "new power", POWER),
        law: Law::Shown(Pair::both("p * (n / m)^3")),
        valid: CARRIED,
        source: AFFINITY,
        caution: None,
        edition: 1,
        call: call!(_, (power: Power, speed_from: Frequency, speed_to: Frequency) =>
            self::power(power, Speeds { from: speed_from, to: speed_to })),
    },
    Function {
        name: "affinity.head_after_trim",
        title: "head after an impeller is turned down",
        inputs: &[port("head", "h", "head", LENGTH), DISK_FROM, DISK_TO],
        gives: port("head", "g", "new head", LENGTH),
        law: Law::Shown(Pair::both("h * (d / c)^2")),
        valid: SMALL,
        source: HANDBOOK,
        caution: None,
        edition: 1,
        call: call!(_, (head: Length, diameter_from: Length, diameter_to: Length) =>
            head_after_trim(head, Trim { from: diameter_from, to: diameter_to })),
    },
    Function {
        name: "affinity.flow_after_trim",
        title: "flow after an impeller is turned down",
        inputs: &[port("flow", "q", "flow", SPEED_FLOW), DISK_FROM, DISK_TO],
        gives: port("flow", "f", "new flow", SPEED_FLOW),
        law: Law::Shown(Pair::both("q * d / c")),
        valid: SMALL,
        source: HANDBOOK,
        caution: None,
        edition: 1,
        call: call!(_, (flow: VolumeRate, diameter_from: Length, diameter_to: Length) =>
            flow_after_trim(flow, Trim { from: diameter_from, to: diameter_to })),
    },
];

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::dimension::Measured;

    fn speeds(from: f64, to: f64) -> Speeds {
        Speeds {
            from: HERTZ.of(from),
            to: HERTZ.of(to),
        }
    }

    #[test]
    fn what_is_out_of_its_span_is_refused() {
        let water = GALLON_PER_MINUTE.of(10.0);
        assert!(flow(water, speeds(60.0, 0.0)).is_err());
        assert!(flow(water, speeds(f64::NAN, 50.0)).is_err());
        assert!(head(FOOT.of(-1.0), speeds(60.0, 50.0)).is_err());
        assert!(power(HORSEPOWER.of(f64::INFINITY), speeds(60.0, 50.0)).is_err());
    }

    proptest! {
        #[test]
        fn there_and_back_is_where_it_was(feet in 1.0..900.0_f64, from in 30.0..60.0_f64,
            to in 30.0..60.0_f64) {
            let there = head(FOOT.of(feet), speeds(from, to)).unwrap();
            let back = head(there, speeds(to, from)).unwrap();
            prop_assert!((FOOT.read(back) / feet - 1.0).abs() < 1e-12);
        }

        /// Water power is flow times head, so its cube is theirs multiplied.
        #[test]
        fn power_goes_as_flow_times_head(to in 30.0..60.0_f64) {
            let at = speeds(60.0, to);
            let q = flow(GALLON_PER_MINUTE.of(1.0), at).unwrap().si() / GALLON_PER_MINUTE.of(1.0).si();
            let h = head(FOOT.of(1.0), at).unwrap().si() / FOOT.of(1.0).si();
            let p = power(HORSEPOWER.of(1.0), at).unwrap().si() / HORSEPOWER.of(1.0).si();
            prop_assert!((q * h / p - 1.0).abs() < 1e-12);
        }
    }
}

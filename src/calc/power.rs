//! Power that pumping takes, and what the energy costs.

use uom::si::f64::{Energy, Length, MassDensity, Power, Ratio, Time, VolumeRate};

use crate::bounds::{Bounds, Refusal};
use crate::calling::call;
use crate::dimension::Measured;
use crate::ports::{
    DAY_FLOW, DAYS, DENSITY, ENERGY, HOURS, KILOWATTS, LENGTH, PERCENT, PLAIN, POWER, SPEED_FLOW,
    port,
};
use crate::registry::{Basis, Function, Law, Pair, Port};
use crate::units::{
    CUBIC_METER_PER_SECOND, DAY, FOOT, GALLON_PER_MINUTE, HORSEPOWER, HOUR,
    KILOGRAM_PER_CUBIC_METER, KILOWATT, KILOWATT_HOUR, METER, STANDARD_GRAVITY,
};

/// Gallons a minute times feet in one horsepower.
const GPM_FEET_PER_HP: f64 = 3_960.0;
/// Kilowatts in a horsepower, as the trade rounds it.
const KW_PER_HP: f64 = 0.746;
/// Kilonewtons that a cubic meter of water weighs, as the trade rounds it.
const KN_PER_CUBIC_METER: f64 = 9.81;

const FLOW: Bounds = Bounds::of("flow", "gpm", 0.0, 1e6);
const SOME_FLOW: Bounds = Bounds::of("flow of the pump", "gpm", 0.001, 1e6);
const HEAD: Bounds = Bounds::of("head", "ft", 0.0, 25_000.0);
const WEIGHT: Bounds = Bounds::of("density of the water", "kg/m3", 900.0, 1_300.0);
const RATE: Bounds = Bounds::of("power", "kW", 0.0, 1e6);
const SHARE: Bounds = Bounds::of("efficiency", "%", 1.0, 100.0);
const LASTING: Bounds = Bounds::of("running time", "h", 0.0, 1e6);
const USED: Bounds = Bounds::of("energy", "kWh", 0.0, 1e9);
const PRICE: Bounds = Bounds::of("price of a kilowatt-hour", "", 0.0, 1e6);
const DAILY: Bounds = Bounds::of("water used in a day", "gal", 0.0, 1e9);
const PERIOD: Bounds = Bounds::of("days", "d", 0.0, 100_000.0);

/// Water lifted: a flow against a head.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lifted {
    /// Volume in a time.
    pub flow: VolumeRate,
    /// Total head.
    pub head: Length,
}

impl Lifted {
    fn checked(self) -> Result<(), Refusal> {
        FLOW.check(GALLON_PER_MINUTE.read(self.flow))?;
        HEAD.check(FOOT.read(self.head))?;
        Ok(())
    }
}

/// Power that a pump puts into the water.
///
/// # Formula
/// ```text
/// P = Q · H / 3960      hp, gpm, ft        (trade, feet and gpm)
/// P = 9.81 · Q · H      kW, m³/s, m        (trade, metric)
/// P = 9.80665 · Q · H   kW, m³/s, m        (physical)
///
/// P  water power   Q  flow   H  total head
/// ```
/// Arguments carry their own units; the conversion happens inside.
///
/// # Valid for
/// Cold fresh water. At its true density at 60 °F the constant is 3958; lecture
/// notes print 3956 to 3960.
///
/// # Source
/// Texas extension sheet B-6011 and New Mexico extension sheet M-227, formula
/// Q H / 3960. The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// No outside figure is needed for the trade's definition: 3960 gpm-feet is one
/// horsepower; 10 gpm at 231 ft is 0.583 hp.
/// ```
/// use pumpwright_calc::{power::{Lifted, water_power}, registry::Basis};
/// use uom::si::f64::{Length, VolumeRate};
/// use uom::si::{length::foot, power::horsepower, volume_rate::gallon_per_minute};
///
/// let lifted = Lifted {
///     flow: VolumeRate::new::<gallon_per_minute>(10.0),
///     head: Length::new::<foot>(231.0),
/// };
/// let power = water_power(lifted, Basis::UsTrade)?;
/// assert_eq!(format!("{:.3}", power.get::<horsepower>()), "0.583");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn water_power(lifted: Lifted, basis: Basis) -> Result<Power, Refusal> {
    lifted.checked()?;
    let (flow, head) = (lifted.flow, lifted.head);
    let metric = CUBIC_METER_PER_SECOND.read(flow) * METER.read(head);
    Ok(match basis {
        Basis::UsTrade => {
            HORSEPOWER.of(GALLON_PER_MINUTE.read(flow) * FOOT.read(head) / GPM_FEET_PER_HP)
        }
        Basis::SiTrade => KILOWATT.of(KN_PER_CUBIC_METER * metric),
        Basis::Physical => KILOWATT.of(STANDARD_GRAVITY * metric),
    })
}

/// Power that a pump puts into water of a known density.
///
/// # Formula
/// ```text
/// P = ρ · g · Q · H
///
/// P  power   W     ρ  density   kg/m³     g  standard gravity, 9.80665 m/s²
/// Q  flow   m³/s   H  head      m
/// ```
/// Arguments carry their own units; the conversion happens inside.
///
/// # Valid for
/// Any liquid of that density.
///
/// # Source
/// Hydrostatics; a published pump-power sheet works 130 m³/h at 85 m so, with 9.81.
/// The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// That sheet: 130 m³/h at 85 m and 1000 kg/m³ is 30.1 kW.
/// ```
/// use pumpwright_calc::power::{Lifted, water_power_at_density};
/// use uom::si::f64::{Length, MassDensity, VolumeRate};
/// use uom::si::{length::meter, mass_density::kilogram_per_cubic_meter};
/// use uom::si::{power::kilowatt, volume_rate::cubic_meter_per_hour};
///
/// let lifted = Lifted {
///     flow: VolumeRate::new::<cubic_meter_per_hour>(130.0),
///     head: Length::new::<meter>(85.0),
/// };
/// let water = MassDensity::new::<kilogram_per_cubic_meter>(1000.0);
/// let power = water_power_at_density(lifted, water)?;
/// assert_eq!(format!("{:.1}", power.get::<kilowatt>()), "30.1");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn water_power_at_density(lifted: Lifted, density: MassDensity) -> Result<Power, Refusal> {
    lifted.checked()?;
    let density = WEIGHT.check(KILOGRAM_PER_CUBIC_METER.read(density))?;
    let weight = density * STANDARD_GRAVITY;
    Ok(Power::from_si(weight * lifted.flow.si() * lifted.head.si()))
}

/// Power at the shaft of a pump: brake horsepower.
///
/// # Formula
/// ```text
/// p = 100 · w / e
///
/// p  shaft power   w  water power   e  efficiency of the pump, percent
/// ```
///
/// # Valid for
/// The efficiency at this flow, from the maker's curve. Small submersibles: 45 to
/// 65 percent.
///
/// # Source
/// Definition of efficiency. The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// A published pump-power sheet: 30.11 kW of water power at 60 percent are 67.3 hp.
/// ```
/// use pumpwright_calc::power::shaft_power;
/// use uom::si::f64::{Power, Ratio};
/// use uom::si::{power::{horsepower, kilowatt}, ratio::percent};
///
/// let shaft = shaft_power(Power::new::<kilowatt>(30.111), Ratio::new::<percent>(60.0))?;
/// assert_eq!(format!("{:.1}", shaft.get::<horsepower>()), "67.3");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn shaft_power(water_power: Power, efficiency: Ratio) -> Result<Power, Refusal> {
    RATE.check(KILOWATT.read(water_power))?;
    SHARE.check(100.0 * efficiency.si())?;
    Ok(water_power / efficiency)
}

/// Electrical power that a motor takes in.
///
/// # Formula
/// ```text
/// P = 0.746 · 100 · p / e   kW, hp    (trade, feet and gpm)
/// P = 100 · p / e           kW, kW    (trade, metric)
/// P = p / e                 exactly   (physical: a horsepower is 0.7457 kW)
///
/// P  power taken in   p  power at the shaft   e  efficiency of the motor, percent
/// ```
///
/// # Valid for
/// The efficiency at this load. Small submersible motors: 50 to 70 percent.
///
/// # Source
/// Definition of efficiency; 0.746 kW a horsepower as the trade rounds it. The
/// accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// No outside figure is needed for a proportion: 1.0606 hp at 62 percent take
/// 1.276 kW.
/// ```
/// use pumpwright_calc::{power::input_power, registry::Basis};
/// use uom::si::f64::{Power, Ratio};
/// use uom::si::{power::{horsepower, kilowatt}, ratio::percent};
///
/// let (shaft, share) = (Power::new::<horsepower>(1.060_6), Ratio::new::<percent>(62.0));
/// let taken = input_power(shaft, share, Basis::UsTrade)?;
/// assert_eq!(format!("{:.3}", taken.get::<kilowatt>()), "1.276");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn input_power(shaft_power: Power, efficiency: Ratio, basis: Basis) -> Result<Power, Refusal> {
    RATE.check(KILOWATT.read(shaft_power))?;
    SHARE.check(100.0 * efficiency.si())?;
    Ok(match basis {
        Basis::UsTrade => KILOWATT.of(KW_PER_HP * HORSEPOWER.read(shaft_power) / efficiency.si()),
        Basis::SiTrade | Basis::Physical => shaft_power / efficiency,
    })
}

/// Energy used in a running time.
///
/// # Formula
/// ```text
/// E = P · t      kWh, kW, h
///
/// E  energy   P  power taken in   t  running time
/// ```
///
/// # Valid for
/// Steady power: what the meter counts, not what the shaft gets.
///
/// # Source
/// Definition. The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// No outside figure is needed for a product: 1.35 kW for 912.5 h are 1232 kWh.
/// ```
/// use pumpwright_calc::power::energy;
/// use uom::si::f64::{Power, Time};
/// use uom::si::{energy::kilowatt_hour, power::kilowatt, time::hour};
///
/// let used = energy(Power::new::<kilowatt>(1.35), Time::new::<hour>(912.5))?;
/// assert_eq!(format!("{:.0}", used.get::<kilowatt_hour>()), "1232");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn energy(power: Power, time: Time) -> Result<Energy, Refusal> {
    RATE.check(KILOWATT.read(power))?;
    LASTING.check(HOUR.read(time))?;
    Ok(Energy::from_si(power.si() * time.si()))
}

/// Cost of energy.
///
/// # Formula
/// ```text
/// c = E · k
///
/// c  cost   E  energy, kWh   k  price of a kilowatt-hour, in the same money
/// ```
///
/// # Valid for
/// One price for every hour; no standing charge.
///
/// # Source
/// Definition. The accepted spans are our own choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// No outside figure is needed for a product: 1231.875 kWh at 0.14 cost 172.46.
/// ```
/// use pumpwright_calc::power::cost;
/// use uom::si::{energy::kilowatt_hour, f64::Energy};
///
/// let cost = cost(Energy::new::<kilowatt_hour>(1231.875), 0.14)?;
/// assert_eq!(format!("{cost:.2}"), "172.46");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn cost(energy: Energy, price: f64) -> Result<f64, Refusal> {
    Ok(USED.check(KILOWATT_HOUR.read(energy))? * PRICE.check(price)?)
}

/// A household's pumping, day after day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pumping {
    /// Water used, volume in a day.
    pub daily: VolumeRate,
    /// Flow of the pump while it runs.
    pub flow: VolumeRate,
    /// Power that it takes while it runs.
    pub power: Power,
}

/// Cost of the water that a house uses in some days.
///
/// # Formula
/// ```text
/// c = (v / q / 60) · P · k · n
///
/// c  cost   v  water in a day, gal or L   q  flow of the pump, gpm or L/min
/// P  power taken in, kW   k  price of a kilowatt-hour   n  days
/// ```
///
/// # Valid for
/// A pump that runs at one flow and power. No standing charge.
///
/// # Source
/// Definition: hours run times power times price. The accepted spans are our own
/// choice; no source.
///
/// # Errors
/// [`Refusal::OutOfRange`] names the argument outside its span.
///
/// # Example
/// No outside figure is needed for a product: 300 gal a day at 10 gpm run half an
/// hour a day; 1.1 kW at 0.15 cost 2.475 in 30 days.
/// ```
/// use pumpwright_calc::power::{Pumping, cost_of_water};
/// use uom::si::f64::{Power, Time, VolumeRate};
/// use uom::si::{power::kilowatt, time::day};
/// use uom::si::volume_rate::{gallon_per_day, gallon_per_minute};
///
/// let pumping = Pumping {
///     daily: VolumeRate::new::<gallon_per_day>(300.0),
///     flow: VolumeRate::new::<gallon_per_minute>(10.0),
///     power: Power::new::<kilowatt>(1.1),
/// };
/// let cost = cost_of_water(pumping, 0.15, Time::new::<day>(30.0))?;
/// assert_eq!(format!("{cost:.3}"), "2.475");
/// # Ok::<(), pumpwright_calc::bounds::Refusal>(())
/// ```
pub fn cost_of_water(pumping: Pumping, price: f64, days: Time) -> Result<f64, Refusal> {
    DAILY.check(GALLON_PER_MINUTE.read(pumping.daily) * DAY.of(1.0).si() / 60.0)?;
    SOME_FLOW.check(GALLON_PER_MINUTE.read(pumping.flow))?;
    RATE.check(KILOWATT.read(pumping.power))?;
    PERIOD.check(DAY.read(days))?;
    let running = pumping.daily.si() / pumping.flow.si() * HOUR.read(days);
    Ok(running * KILOWATT.read(pumping.power) * PRICE.check(price)?)
}

const LIFTED: [Port; 2] = [
    port("flow", "q", "flow", SPEED_FLOW),
    port("head", "h", "total head", LENGTH),
];
const PRICE_PORT: Port = port("price", "k", "price of a kilowatt-hour", PLAIN);
const EXTENSION: &str = "Texas extension sheet B-6011 and New Mexico extension sheet M-227, \
    formula Q H / 3960";
const DEFINITION: &str = "definition";

/// What this subject offers by name.
pub const FUNCTIONS: &[Function] = &[
    Function {
        name: "power.water_power",
        title: "power that a pump puts into the water",
        inputs: &LIFTED,
        gives: port("power", "p", "water power", POWER),
        law: Law::Shown(Pair {
            us: "q * h / 3960",
            si: "9.81 * q * h / 60000",
        }),
        valid: "Cold fresh water.",
        source: EXTENSION,
        caution: None,
        edition: 1,
        call: call!(basis, (flow: VolumeRate, head: Length) =>
            water_power(Lifted { flow, head }, basis)),
    },
    Function {
        name: "power.water_power_at_density",
        title: "power that a pump puts into water of a known density",
        inputs: &[
            LIFTED[0],
            LIFTED[1],
            port("density", "w", "density of the water", DENSITY),
        ],
        gives: port("power", "p", "water power", KILOWATTS),
        law: Law::Named("density times standard gravity times flow times head"),
        valid: "Any liquid of that density.",
        source: "hydrostatics with standard gravity",
        caution: None,
        edition: 1,
        call: call!(_, (flow: VolumeRate, head: Length, density: MassDensity) =>
            water_power_at_density(Lifted { flow, head }, density)),
    },
    Function {
        name: "power.shaft_power",
        title: "power at the shaft of a pump",
        inputs: &[
            port("water_power", "w", "water power", POWER),
            port("efficiency", "e", "efficiency of the pump", PERCENT),
        ],
        gives: port("power", "p", "power at the shaft", POWER),
        law: Law::Shown(Pair::both("100 * w / e")),
        valid: "The efficiency at this flow.",
        source: DEFINITION,
        caution: None,
        edition: 1,
        call: call!(_, (water_power: Power, efficiency: Ratio) =>
            shaft_power(water_power, efficiency)),
    },
    Function {
        name: "power.input_power",
        title: "electrical power that a motor takes in",
        inputs: &[
            port("shaft_power", "p", "power at the shaft", POWER),
            port("efficiency", "e", "efficiency of the motor", PERCENT),
        ],
        gives: port("power", "i", "power taken in", KILOWATTS),
        law: Law::Shown(Pair {
            us: "0.746 * 100 * p / e",
            si: "100 * p / e",
        }),
        valid: "The efficiency at this load.",
        source: "definition; 0.746 kW a horsepower as the trade rounds it",
        caution: None,
        edition: 1,
        call: call!(basis, (shaft_power: Power, efficiency: Ratio) =>
            input_power(shaft_power, efficiency, basis)),
    },
    Function {
        name: "power.energy",
        title: "energy used in a running time",
        inputs: &[
            port("power", "p", "power taken in", KILOWATTS),
            port("time", "t", "running time", HOURS),
        ],
        gives: port("energy", "e", "energy", ENERGY),
        law: Law::Shown(Pair::both("p * t")),
        valid: "Steady power.",
        source: DEFINITION,
        caution: None,
        edition: 1,
        call: call!(_, (power: Power, time: Time) => energy(power, time)),
    },
    Function {
        name: "power.cost",
        title: "cost of energy",
        inputs: &[port("energy", "e", "energy", ENERGY), PRICE_PORT],
        gives: port("cost", "c", "cost", PLAIN),
        law: Law::Shown(Pair::both("e * k")),
        valid: "One price for every hour; no standing charge.",
        source: DEFINITION,
        caution: None,
        edition: 1,
        call: call!(_, (energy: Energy, price: f64) => cost(energy, price)),
    },
    Function {
        name: "power.cost_of_water",
        title: "cost of the water that a house uses in some days",
        inputs: &[
            port("daily", "v", "water used in a day", DAY_FLOW),
            port("flow", "q", "flow of the pump", SPEED_FLOW),
            port("power", "p", "power taken in", KILOWATTS),
            PRICE_PORT,
            port("days", "n", "days", DAYS),
        ],
        gives: port("cost", "c", "cost", PLAIN),
        law: Law::Shown(Pair::both("v / q / 60 * p * k * n")),
        valid: "A pump that runs at one flow and power.",
        source: DEFINITION,
        caution: None,
        edition: 1,
        call: call!(_, (
            daily: VolumeRate,
            flow: VolumeRate,
            power: Power,
            price: f64,
            days: Time
        ) => cost_of_water(Pumping { daily, flow, power }, price, days)),
    },
];

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn lifted(gpm: f64, feet: f64) -> Lifted {
        Lifted {
            flow: GALLON_PER_MINUTE.of(gpm),
            head: FOOT.of(feet),
        }
    }

    /// The trade's 3960 is 3958 at the density of water at 60 degF: within 0.1
    /// percent.
    #[test]
    fn the_trades_figures_are_the_law_rounded() {
        let exact = water_power(lifted(10.0, 231.0), Basis::Physical)
            .unwrap()
            .si();
        for basis in [Basis::UsTrade, Basis::SiTrade] {
            let ours = water_power(lifted(10.0, 231.0), basis).unwrap().si();
            assert!((ours / exact - 1.0).abs() < 2e-3, "{basis:?}");
        }
    }

    #[test]
    fn what_is_out_of_its_span_is_refused() {
        let power = KILOWATT.of(1.0);
        assert!(water_power(lifted(-1.0, 10.0), Basis::UsTrade).is_err());
        assert!(shaft_power(power, Ratio::from_si(0.0)).is_err());
        assert!(input_power(power, Ratio::from_si(1.01), Basis::UsTrade).is_err());
        assert!(energy(KILOWATT.of(f64::NAN), HOUR.of(1.0)).is_err());
        assert!(cost(KILOWATT_HOUR.of(1.0), -0.1).is_err());
    }

    proptest! {
        #[test]
        fn a_day_at_a_time_costs_as_much(
            daily in 50.0..900.0_f64, gpm in 3.0..30.0_f64, kilowatts in 0.3..4.0_f64,
        ) {
            let pumping = Pumping {
                daily: GALLON_PER_MINUTE.of(daily / 1440.0),
                flow: GALLON_PER_MINUTE.of(gpm),
                power: KILOWATT.of(kilowatts),
            };
            let whole = cost_of_water(pumping, 0.15, DAY.of(30.0)).unwrap();
            let used = energy(pumping.power, HOUR.of(daily / gpm / 60.0)).unwrap();
            prop_assert!((30.0 * cost(used, 0.15).unwrap() / whole - 1.0).abs() < 1e-12);
        }

        #[test]
        fn density_scales_the_power(gpm in 1.0..100.0_f64, feet in 10.0..900.0_f64) {
            let water = |density| {
                let density = KILOGRAM_PER_CUBIC_METER.of(density);
                water_power_at_density(lifted(gpm, feet), density).unwrap().si()
            };
            prop_assert!((water(999.0) / water(1000.0) - 0.999).abs() < 1e-12);
            let plain = water_power(lifted(gpm, feet), Basis::Physical).unwrap().si();
            prop_assert!((water(1000.0) / plain - 1.0).abs() < 1e-12);
        }
    }
}

//! The units of the trade and what they are worth in SI. Factors are the exact
//! definitions written as a fraction of whole numbers where they are whole.
//!
//! Sources, all from memory:
//! - yard, pound: international yard and pound agreement, 1959 (1 ft = 0.3048 m,
//!   1 lb = 0.453 592 37 kg).
//! - US gallon: 231 cubic inches, NIST Handbook 44, appendix C; quart, pint, cup
//!   and fluid ounce are its fourth, eighth, sixteenth and 128th.
//! - pound-force: the pound times 9.806 65 m/s², standard gravity, 3rd CGPM 1901.
//! - psi: pound-force on a square inch; horsepower: 550 foot pound-force a second.
//! - inches and millimeters of mercury: conventional, NIST SP 811, appendix B.8.
//! - Celsius and kelvin: SI Brochure, 9th edition, 2.3.1; Fahrenheit: NIST SP 811,
//!   appendix B.8.
//! - circular mil: area of a circle one mil across; acre: 43 560 square feet.

use std::f64::consts::FRAC_PI_4;

use pumpwright_calc::dimension::Dimension;

use super::row::{Kind, Row};

const DENSITY: Dimension = Dimension([-3, 1, 0, 0, 0]);
const FORCE: Dimension = Dimension([1, 1, -2, 0, 0]);
const ENERGY: Dimension = Dimension([2, 1, -2, 0, 0]);
const FREQUENCY: Dimension = Dimension([0, 0, -1, 0, 0]);
const CAPACITANCE: Dimension = Dimension([-2, -1, 4, 2, 0]);

/// Newtons in a pound-force.
const LBF: f64 = 4.448_221_615_260_5;
/// US gallon, in 1e-12 m³.
const GALLON: f64 = 3_785_411_784.0;
/// Cubic foot, in 1e-12 m³.
const CUBIC_FOOT: f64 = 28_316_846_592.0;
const E12: f64 = 1e12;

/// The units.
pub(super) const ROWS: &[Row] = &[
    // Length. Head is a length too: "feet of head" is feet. Feet of water are not
    // here, for they may be a head or a pressure.
    Row::new("ft", Dimension::LENGTH, 3048.0, 10_000.0)
        .said("foot", "feet")
        .of(Kind::Sized)
        .also(&["'", "ft of head", "feet of head", "foot of head"]),
    Row::new("in", Dimension::LENGTH, 254.0, 10_000.0)
        .said("inch", "inches")
        .of(Kind::Sized)
        .also(&["\"", "''", "ins"]),
    Row::new("yd", Dimension::LENGTH, 9144.0, 10_000.0)
        .said("yard", "yards")
        .of(Kind::Sized)
        .also(&["yds"]),
    Row::new("mi", Dimension::LENGTH, 1_609_344.0, 1000.0)
        .said("mile", "miles")
        .of(Kind::Sized),
    Row::new("kft", Dimension::LENGTH, 3048.0, 10.0).said("thousand feet", "thousands of feet"),
    Row::new("mil", Dimension::LENGTH, 254.0, 1e7)
        .said("mil", "mils")
        .also(&["thou"]),
    Row::new("m", Dimension::LENGTH, 1.0, 1.0)
        .said("meter", "meters")
        .also(&[
            "metre",
            "metres",
            "m of head",
            "meters of head",
            "metres of head",
        ]),
    Row::new("cm", Dimension::LENGTH, 1.0, 100.0)
        .said("centimeter", "centimeters")
        .also(&["centimetre", "centimetres"]),
    Row::new("mm", Dimension::LENGTH, 1.0, 1000.0)
        .said("millimeter", "millimeters")
        .also(&["millimetre", "millimetres"]),
    Row::new("km", Dimension::LENGTH, 1000.0, 1.0)
        .said("kilometer", "kilometers")
        .also(&["kilometre", "kilometres"]),
    // Area.
    Row::new("in2", Dimension::AREA, 64_516.0, 1e8)
        .printed("in²")
        .said("square inch", "square inches")
        .also(&["sq in", "sqin", "sq inch", "sq inches"]),
    Row::new("ft2", Dimension::AREA, 9_290_304.0, 1e8)
        .printed("ft²")
        .said("square foot", "square feet")
        .also(&["sq ft", "sqft", "sq foot", "sq feet"]),
    Row::new("m2", Dimension::AREA, 1.0, 1.0)
        .printed("m²")
        .said("square meter", "square meters")
        .also(&["sq m", "sqm", "square metre", "square metres"]),
    Row::new("cm2", Dimension::AREA, 1.0, 1e4)
        .printed("cm²")
        .said("square centimeter", "square centimeters")
        .also(&["sq cm", "square centimetre", "square centimetres"]),
    Row::new("mm2", Dimension::AREA, 1.0, 1e6)
        .printed("mm²")
        .said("square millimeter", "square millimeters")
        .also(&["sq mm", "sqmm", "square millimetre", "square millimetres"]),
    Row::new("acre", Dimension::AREA, 40_468_564_224.0, 1e7)
        .printed("acres")
        .said("acre", "acres")
        .of(Kind::Noun)
        .also(&["ac"]),
    Row::new("ha", Dimension::AREA, 1e4, 1.0).said("hectare", "hectares"),
    Row::new("cmil", Dimension::AREA, FRAC_PI_4 * 64_516.0, 1e14)
        .said("circular mil", "circular mils")
        .also(&["cmils", "circ mil", "circ mils"]),
    Row::new("kcmil", Dimension::AREA, FRAC_PI_4 * 64_516.0, 1e11)
        .said("thousand circular mils", "thousands of circular mils")
        .also(&["MCM"]),
    // Volume. Gallon, quart, pint, cup, fluid ounce are the US ones.
    Row::new("gal", Dimension::VOLUME, GALLON, E12)
        .said("gallon", "gallons")
        .of(Kind::Sized)
        .also(&[
            "gals",
            "US gal",
            "US gals",
            "US gallon",
            "US gallons",
            "USgal",
        ]),
    Row::new("qt", Dimension::VOLUME, 946_352_946.0, E12)
        .said("quart", "quarts")
        .of(Kind::Sized)
        .also(&["qts", "US qt", "US quart", "US quarts"]),
    Row::new("pt", Dimension::VOLUME, 473_176_473.0, E12)
        .said("pint", "pints")
        .of(Kind::Sized)
        .also(&["pts", "US pt", "US pint", "US pints"]),
    Row::new("cup", Dimension::VOLUME, 2_365_882_365.0, 1e13)
        .printed("cups")
        .said("cup", "cups")
        .of(Kind::Noun)
        .also(&["US cup", "US cups"]),
    Row::new("floz", Dimension::VOLUME, 295_735_295_625.0, 1e16)
        .printed("fl oz")
        .said("fluid ounce", "fluid ounces")
        .also(&["US fl oz", "fluid oz"]),
    Row::new("ft3", Dimension::VOLUME, CUBIC_FOOT, E12)
        .printed("ft³")
        .said("cubic foot", "cubic feet")
        .also(&["cu ft", "cuft", "cf", "cu foot", "cu feet"]),
    Row::new("in3", Dimension::VOLUME, 16_387_064.0, E12)
        .printed("in³")
        .said("cubic inch", "cubic inches")
        .also(&["cu in", "cuin", "cu inch", "cu inches"]),
    Row::new("yd3", Dimension::VOLUME, 764_554_857_984.0, E12)
        .printed("yd³")
        .said("cubic yard", "cubic yards")
        .also(&["cu yd", "cu yds", "cu yard", "cu yards"]),
    Row::new("L", Dimension::VOLUME, 1.0, 1000.0)
        .said("liter", "liters")
        .also(&["litre", "litres", "ltr", "ltrs"]),
    Row::new("mL", Dimension::VOLUME, 1.0, 1e6)
        .said("milliliter", "milliliters")
        .also(&["ml", "millilitre", "millilitres", "cc"]),
    Row::new("m3", Dimension::VOLUME, 1.0, 1.0)
        .printed("m³")
        .said("cubic meter", "cubic meters")
        .also(&["cu m", "cubic metre", "cubic metres"]),
    // Flow.
    Row::new("gpm", Dimension::FLOW, GALLON, 60.0 * E12)
        .said("gallon per minute", "gallons per minute")
        .also(&[
            "gal/min",
            "gals/min",
            "gallon/min",
            "gallons/min",
            "gallon/minute",
            "gallons/minute",
            "US gpm",
            "US gal/min",
            "US gallons/minute",
            "usgpm",
            "gal/minute",
            "gal per min",
            "gals per minute",
            "gallons a minute",
        ]),
    Row::new("gph", Dimension::FLOW, GALLON, 3600.0 * E12)
        .said("gallon per hour", "gallons per hour")
        .also(&[
            "gal/h",
            "gal/hr",
            "gals/hr",
            "gal/hour",
            "gallons/hour",
            "gallons an hour",
            "US gph",
        ]),
    Row::new("gpd", Dimension::FLOW, GALLON, 86_400.0 * E12)
        .said("gallon per day", "gallons per day")
        .also(&[
            "gal/d",
            "gal/day",
            "gals/day",
            "gallons/day",
            "gallons a day",
            "US gpd",
        ]),
    Row::new("L/min", Dimension::FLOW, 1.0, 60_000.0)
        .said("liter per minute", "liters per minute")
        .also(&[
            "lpm",
            "liter/minute",
            "liters/minute",
            "litre/minute",
            "litres/minute",
            "litre per minute",
            "litres per minute",
            "liters a minute",
            "litres a minute",
        ]),
    Row::new("L/s", Dimension::FLOW, 1.0, 1000.0)
        .said("liter per second", "liters per second")
        .also(&[
            "lps",
            "L/sec",
            "liters/second",
            "litres/second",
            "litre per second",
            "litres per second",
        ]),
    Row::new("L/h", Dimension::FLOW, 1.0, 3_600_000.0)
        .said("liter per hour", "liters per hour")
        .also(&[
            "lph",
            "L/hr",
            "liters/hour",
            "litres/hour",
            "litre per hour",
            "litres per hour",
        ]),
    Row::new("L/d", Dimension::FLOW, 1.0, 86_400_000.0)
        .said("liter per day", "liters per day")
        .also(&[
            "L/day",
            "liters/day",
            "litres/day",
            "litre per day",
            "litres per day",
        ]),
    Row::new("m3/h", Dimension::FLOW, 1.0, 3600.0)
        .printed("m³/h")
        .said("cubic meter per hour", "cubic meters per hour")
        .also(&[
            "m3/hr",
            "m3/hour",
            "cubic metre per hour",
            "cubic metres per hour",
        ]),
    Row::new("m3/d", Dimension::FLOW, 1.0, 86_400.0)
        .printed("m³/d")
        .said("cubic meter per day", "cubic meters per day")
        .also(&["m3/day", "cubic metres per day"]),
    Row::new("m3/s", Dimension::FLOW, 1.0, 1.0)
        .printed("m³/s")
        .said("cubic meter per second", "cubic meters per second")
        .also(&["m3/sec", "cumec", "cubic metres per second"]),
    Row::new("ft3/s", Dimension::FLOW, CUBIC_FOOT, E12)
        .printed("ft³/s")
        .said("cubic foot per second", "cubic feet per second")
        .also(&["cfs", "cu ft/s", "cu ft/sec", "ft3/sec", "cusec"]),
    Row::new("ft3/min", Dimension::FLOW, CUBIC_FOOT, 60.0 * E12)
        .printed("ft³/min")
        .said("cubic foot per minute", "cubic feet per minute")
        .also(&["cfm", "cu ft/min"]),
    // Speed.
    Row::new("ft/s", Dimension::SPEED, 3048.0, 10_000.0)
        .said("foot per second", "feet per second")
        .also(&["fps", "ft/sec", "feet/second", "feet/sec", "feet a second"]),
    Row::new("ft/min", Dimension::SPEED, 3048.0, 600_000.0)
        .said("foot per minute", "feet per minute")
        .also(&["fpm", "feet/minute"]),
    Row::new("m/s", Dimension::SPEED, 1.0, 1.0)
        .said("meter per second", "meters per second")
        .also(&[
            "mps",
            "m/sec",
            "metre per second",
            "metres per second",
            "meters/second",
            "metres/second",
        ]),
    // Pressure. Gauge pressure is a plain pressure.
    Row::new("psi", Dimension::PRESSURE, LBF, 0.000_645_16)
        .said("pound per square inch", "pounds per square inch")
        .also(&[
            "psig",
            "psi gauge",
            "lb/in2",
            "lbs/in2",
            "lbf/in2",
            "lb/sq in",
            "lbs/sq in",
            "lb per sq in",
            "lbs per sq in",
            "pounds/square inch",
            "pounds a square inch",
        ]),
    Row::new("psf", Dimension::PRESSURE, LBF, 0.092_903_04)
        .said("pound per square foot", "pounds per square foot")
        .also(&["lb/ft2", "lbs/ft2", "lbf/ft2", "lb/sq ft", "lbs/sq ft"]),
    Row::new("Pa", Dimension::PRESSURE, 1.0, 1.0).said("pascal", "pascals"),
    Row::new("kPa", Dimension::PRESSURE, 1000.0, 1.0)
        .said("kilopascal", "kilopascals")
        .also(&["kPag", "kPa gauge"]),
    Row::new("MPa", Dimension::PRESSURE, 1e6, 1.0).said("megapascal", "megapascals"),
    Row::new("bar", Dimension::PRESSURE, 1e5, 1.0)
        .said("bar", "bars")
        .also(&["barg", "bar gauge"]),
    Row::new("mbar", Dimension::PRESSURE, 100.0, 1.0).said("millibar", "millibars"),
    Row::new("atm", Dimension::PRESSURE, 101_325.0, 1.0)
        .said("standard atmosphere", "standard atmospheres")
        .also(&["atmosphere", "atmospheres"]),
    Row::new("inHg", Dimension::PRESSURE, 3386.389, 1.0)
        .said("inch of mercury", "inches of mercury")
        .also(&[
            "in Hg",
            "in of Hg",
            "in of mercury",
            "\" Hg",
            "\"Hg",
            "inches Hg",
        ]),
    Row::new("mmHg", Dimension::PRESSURE, 133.3224, 1.0)
        .said("millimeter of mercury", "millimeters of mercury")
        .also(&["mm Hg", "mm of mercury"]),
    // Mass. A pound is a mass; the force is lbf.
    Row::new("lb", Dimension::MASS, 45_359_237.0, 1e8)
        .said("pound", "pounds")
        .also(&["lbs", "lbm", "#"]),
    Row::new("oz", Dimension::MASS, 28_349_523_125.0, E12)
        .said("ounce", "ounces")
        .also(&["ozs"]),
    Row::new("ton", Dimension::MASS, 90_718_474.0, 1e5)
        .said("short ton", "short tons")
        .also(&["tons", "US ton", "US tons"]),
    Row::new("kg", Dimension::MASS, 1.0, 1.0)
        .said("kilogram", "kilograms")
        .also(&["kgs", "kilo", "kilos", "kilogramme", "kilogrammes"]),
    Row::new("g", Dimension::MASS, 1.0, 1000.0)
        .said("gram", "grams")
        .also(&["gramme", "grammes"]),
    Row::new("mg", Dimension::MASS, 1.0, 1e6).said("milligram", "milligrams"),
    Row::new("tonne", Dimension::MASS, 1000.0, 1.0)
        .said("tonne", "tonnes")
        .also(&["metric ton", "metric tons"]),
    Row::new("grain", Dimension::MASS, 6_479_891.0, 1e11).said("grain", "grains"),
    // Strength of a solution and hardness. Grains a gallon: NIST SP 811, appendix
    // B.8, from memory; here from the grain and the US gallon.
    Row::new("mg/L", DENSITY, 1.0, 1000.0)
        .said("milligram per liter", "milligrams per liter")
        .also(&["milligrams per litre"]),
    Row::new("gpg", DENSITY, 64_798_910.0, GALLON)
        .said("grain per gallon", "grains per gallon")
        .also(&["gr/gal", "grain/gal", "grains/gal", "grains/gallon"]),
    // Force.
    Row::new("lbf", FORCE, LBF, 1.0)
        .said("pound of force", "pounds of force")
        .also(&["pound-force", "pounds-force", "pound force", "pounds force"]),
    Row::new("N", FORCE, 1.0, 1.0).said("newton", "newtons"),
    Row::new("kN", FORCE, 1000.0, 1.0).said("kilonewton", "kilonewtons"),
    // Time. The short forms print as symbols, the long ones as nouns.
    Row::new("s", Dimension::TIME, 1.0, 1.0).also(&["sec", "secs"]),
    Row::new("min", Dimension::TIME, 60.0, 1.0).also(&["mins"]),
    Row::new("h", Dimension::TIME, 3600.0, 1.0).also(&["hr", "hrs"]),
    Row::new("d", Dimension::TIME, 86_400.0, 1.0),
    Row::new("seconds", Dimension::TIME, 1.0, 1.0)
        .said("second", "seconds")
        .of(Kind::Noun),
    Row::new("minutes", Dimension::TIME, 60.0, 1.0)
        .said("minute", "minutes")
        .of(Kind::Noun),
    Row::new("hours", Dimension::TIME, 3600.0, 1.0)
        .said("hour", "hours")
        .of(Kind::Noun),
    Row::new("days", Dimension::TIME, 86_400.0, 1.0)
        .said("day", "days")
        .of(Kind::Noun),
    Row::new("weeks", Dimension::TIME, 604_800.0, 1.0)
        .said("week", "weeks")
        .of(Kind::Noun),
    // Frequency and turning. A turn is a plain number.
    Row::new("Hz", FREQUENCY, 1.0, 1.0)
        .said("hertz", "hertz")
        .also(&["cps"]),
    Row::new("rpm", FREQUENCY, 1.0, 60.0)
        .said("turn per minute", "turns per minute")
        .also(&[
            "rev/min",
            "r/min",
            "revs per minute",
            "revolutions per minute",
        ]),
    // Electrical.
    Row::new("V", Dimension::VOLTAGE, 1.0, 1.0)
        .said("volt", "volts")
        .also(&["VAC", "V AC"]),
    Row::new("mV", Dimension::VOLTAGE, 1.0, 1000.0).said("millivolt", "millivolts"),
    Row::new("kV", Dimension::VOLTAGE, 1000.0, 1.0).said("kilovolt", "kilovolts"),
    Row::new("A", Dimension::CURRENT, 1.0, 1.0)
        .said("ampere", "amperes")
        .also(&["amp", "amps"]),
    Row::new("mA", Dimension::CURRENT, 1.0, 1000.0)
        .said("milliampere", "milliamperes")
        .also(&["milliamp", "milliamps"]),
    Row::new("ohm", Dimension::RESISTANCE, 1.0, 1.0).said("ohm", "ohms"),
    Row::new("kohm", Dimension::RESISTANCE, 1000.0, 1.0)
        .said("kilohm", "kilohms")
        .also(&["kohms", "kiloohm", "kiloohms"]),
    Row::new("megohm", Dimension::RESISTANCE, 1e6, 1.0)
        .said("megohm", "megohms")
        .also(&["Mohm", "Mohms", "megaohm", "megaohms", "meg", "megs"]),
    Row::new("F", CAPACITANCE, 1.0, 1.0).said("farad", "farads"),
    Row::new("uF", CAPACITANCE, 1.0, 1e6)
        .said("microfarad", "microfarads")
        .also(&["mfd", "ufd"]),
    Row::new("W", Dimension::POWER, 1.0, 1.0).said("watt", "watts"),
    Row::new("mW", Dimension::POWER, 1.0, 1000.0).said("milliwatt", "milliwatts"),
    Row::new("kW", Dimension::POWER, 1000.0, 1.0)
        .said("kilowatt", "kilowatts")
        .also(&["kws"]),
    Row::new("MW", Dimension::POWER, 1e6, 1.0).said("megawatt", "megawatts"),
    Row::new("hp", Dimension::POWER, 550.0 * 3048.0 * LBF, 10_000.0)
        .said("horsepower", "horsepower"),
    Row::new("VA", Dimension::POWER, 1.0, 1.0)
        .said("volt-ampere", "volt-amperes")
        .also(&["volt-amp", "volt-amps"]),
    Row::new("kVA", Dimension::POWER, 1000.0, 1.0).said("kilovolt-ampere", "kilovolt-amperes"),
    Row::new("J", ENERGY, 1.0, 1.0).said("joule", "joules"),
    Row::new("kJ", ENERGY, 1000.0, 1.0).said("kilojoule", "kilojoules"),
    Row::new("Wh", ENERGY, 3600.0, 1.0).said("watt-hour", "watt-hours"),
    Row::new("kWh", ENERGY, 3_600_000.0, 1.0)
        .said("kilowatt-hour", "kilowatt-hours")
        .also(&["kilowatt hour", "kilowatt hours", "kW h"]),
    // Temperature: points on a scale, and differences of them.
    Row::new("degF", Dimension::TEMPERATURE, 5.0, 9.0)
        .point(459.67)
        .said("degree Fahrenheit", "degrees Fahrenheit")
        .also(&["deg F", "degrees F", "Fahrenheit"]),
    Row::new("degC", Dimension::TEMPERATURE, 1.0, 1.0)
        .point(273.15)
        .said("degree Celsius", "degrees Celsius")
        .also(&["deg C", "degrees C", "Celsius"]),
    Row::new("Fdeg", Dimension::TEMPERATURE, 5.0, 9.0)
        .said("Fahrenheit degree", "Fahrenheit degrees")
        .also(&["F deg"]),
    Row::new("Cdeg", Dimension::TEMPERATURE, 1.0, 1.0)
        .said("Celsius degree", "Celsius degrees")
        .also(&["C deg"]),
    // Shares.
    Row::new("%", Dimension::NONE, 1.0, 100.0)
        .said("per cent", "per cent")
        .also(&["percent", "pct"]),
    Row::new("ppm", Dimension::NONE, 1.0, 1e6)
        .said("part per million", "parts per million")
        .also(&["parts/million"]),
];

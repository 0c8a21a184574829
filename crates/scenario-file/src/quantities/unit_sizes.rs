//! The units that may be written, and their sizes in internal units (gal, gpm, min, mi, mph, ft, in, psi).

/// A unit: how it is written (the preferred spelling first), and its size in the internal unit.
pub(crate) struct Unit {
    pub(crate) names: &'static [&'static str],
    pub(crate) size: f64,
}

const fn unit(names: &'static [&'static str], size: f64) -> Unit {
    Unit { names, size }
}

/// US gallon, L. Exact: 231 cubic inches of 2.54 cm.
const LITRES_PER_GALLON: f64 = 3.785_411_784;
/// Imperial gallon, L. Exact by definition.
const LITRES_PER_IMPERIAL_GALLON: f64 = 4.546_09;
/// Exact: 1,728 cubic inches over 231.
const GALLONS_PER_CUBIC_FOOT: f64 = 1728.0 / 231.0;
/// Exact by definition of the international mile.
const KILOMETRES_PER_MILE: f64 = 1.609_344;
/// Exact by definition of the international foot.
const METRES_PER_FOOT: f64 = 0.3048;
const FEET_PER_MILE: f64 = 5_280.0;
/// Exact by definition of the inch.
const MILLIMETRES_PER_INCH: f64 = 25.4;
/// Pound-force per square inch, kPa: 4.4482216152605 N over (25.4 mm)^2, both exact by definition.
const KILOPASCALS_PER_PSI: f64 = 4.448_221_615_260_5 / (25.4 * 25.4) * 1_000.0;

pub(crate) static VOLUME: [Unit; 5] = [
    unit(&["gal", "gallon", "gallons", "US gal"], 1.0),
    unit(&["L", "liter", "liters", "litre", "litres"], 1.0 / LITRES_PER_GALLON),
    unit(&["m3", "m³"], 1_000.0 / LITRES_PER_GALLON),
    unit(
        &["imp gal", "imperial gal", "imperial gallons"],
        LITRES_PER_IMPERIAL_GALLON / LITRES_PER_GALLON,
    ),
    unit(&["ft3", "cu ft"], GALLONS_PER_CUBIC_FOOT),
];
pub(crate) static FLOW: [Unit; 5] = [
    unit(&["gpm", "gal/min", "US gpm"], 1.0),
    unit(&["L/min", "lpm"], 1.0 / LITRES_PER_GALLON),
    unit(&["L/s"], 60.0 / LITRES_PER_GALLON),
    unit(&["m3/h", "m³/h"], 1_000.0 / 60.0 / LITRES_PER_GALLON),
    unit(&["imp gpm", "igpm"], LITRES_PER_IMPERIAL_GALLON / LITRES_PER_GALLON),
];
pub(crate) static TIME: [Unit; 3] = [
    unit(&["min", "minute", "minutes"], 1.0),
    unit(&["s", "sec", "second", "seconds"], 1.0 / 60.0),
    unit(&["h", "hr", "hour", "hours"], 60.0),
];
pub(crate) static DISTANCE: [Unit; 4] = [
    unit(&["mi", "mile", "miles"], 1.0),
    unit(&["km", "kilometer", "kilometers", "kilometre", "kilometres"], 1.0 / KILOMETRES_PER_MILE),
    unit(&["m", "meter", "meters", "metre", "metres"], 0.001 / KILOMETRES_PER_MILE),
    unit(&["ft", "foot", "feet"], 1.0 / FEET_PER_MILE),
];
pub(crate) static SPEED: [Unit; 2] =
    [unit(&["mph", "mi/h"], 1.0), unit(&["km/h", "kmh", "kph"], 1.0 / KILOMETRES_PER_MILE)];
pub(crate) static LENGTH: [Unit; 5] = [
    unit(&["ft", "foot", "feet"], 1.0),
    unit(&["m", "meter", "meters", "metre", "metres"], 1.0 / METRES_PER_FOOT),
    unit(&["km", "kilometer", "kilometers", "kilometre", "kilometres"], 1_000.0 / METRES_PER_FOOT),
    unit(&["mi", "mile", "miles"], FEET_PER_MILE),
    unit(&["in", "inch", "inches"], 1.0 / 12.0),
];
pub(crate) static AREA: [Unit; 2] = [
    unit(&["ft2", "sq ft", "ft²"], 1.0),
    unit(&["m2", "sq m", "m²"], 1.0 / (METRES_PER_FOOT * METRES_PER_FOOT)),
];
pub(crate) static DIAMETER: [Unit; 3] = [
    unit(&["in", "inch", "inches"], 1.0),
    unit(&["mm"], 1.0 / MILLIMETRES_PER_INCH),
    unit(&["cm"], 10.0 / MILLIMETRES_PER_INCH),
];
pub(crate) static PRESSURE: [Unit; 3] = [
    unit(&["psi"], 1.0),
    unit(&["kPa"], 1.0 / KILOPASCALS_PER_PSI),
    unit(&["bar"], 100.0 / KILOPASCALS_PER_PSI),
];
pub(crate) static SHARE: [Unit; 1] = [unit(&["%", "percent"], 0.01)];

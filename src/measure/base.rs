//! The base units, and what the inch, the millimetre and the pound-force are in them.

/// Nanometres in an inch, exact by definition of the inch (25.4 mm).
pub const INCH: f64 = 25_400_000.0;
/// Nanometres in a millimetre.
pub const MILLIMETRE: f64 = 1_000_000.0;
/// Newtons in a pound-force, exact: 0.45359237 kg x 9.80665 m/s2.
pub const POUND: f64 = 4.448_221_615_260_5;

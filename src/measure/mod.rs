//! Numbers with dimensions, and how they are written: read back in the unit and style of the writer.

mod base;
mod dimension;
mod print;
mod style;
mod unit;
mod value;

pub use base::{INCH, MILLIMETRE, POUND};
pub use dimension::Dimension;
#[cfg(feature = "internals")]
pub use print::print_in;
pub use print::{Marks, mark, print, print_distinct, round_down, round_up};
pub use style::Style;
#[cfg(feature = "cli")]
pub use unit::UNITS;
#[cfg(feature = "internals")]
pub use unit::{Derived, Figures, Steps};
pub use unit::{Joint, Notation, System, Unit};
pub use value::{Measure, equal};

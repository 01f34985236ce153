//! Numbers with dimensions, and how they are written: read back in the unit and style of the writer.

mod base;
mod dimension;
mod print;
mod style;
mod unit;
mod value;

pub use base::{INCH, MILLIMETRE, POUND};
pub use dimension::Dimension;
pub use print::{Marks, mark, print, print_distinct, print_in, round_down, round_up};
pub use style::Style;
pub use unit::{Derived, Figures, Joint, Notation, Steps, System, UNITS, Unit};
pub use value::{Measure, equal};

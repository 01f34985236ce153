//! What was read for a value: stated words, other quantities, customs.

use super::custom::{Behind, CustomId};
use super::datum::{Datum, Derived};
use super::quantity::Quantity;
use crate::base::Span;
use crate::measure::Measure;
use crate::model::{Id, PropertyName};

/// Where something that was read comes from.
#[derive(Debug, Clone, PartialEq)]
pub enum Input {
    /// Words of the design.
    Stated {
        /// The property that they state.
        property: PropertyName,
        /// Where.
        span: Span,
        /// As measured, not as drawn.
        measured: bool,
    },
    /// Another quantity, and the place it was asked at, where it is asked at one.
    Derived(&'static Quantity, Option<Measure>),
    /// A custom.
    Custom(CustomId),
}

/// One thing that was read.
#[derive(Debug, Clone, PartialEq)]
pub struct Read {
    /// Of what.
    pub element: Id,
    /// From where.
    pub input: Input,
    /// What it was.
    pub datum: Option<Datum>,
}

impl Read {
    /// The name it was read by.
    pub fn name(&self) -> &'static str {
        match self.input {
            Input::Stated { property, .. } => property.text(),
            Input::Derived(quantity, _) => quantity.name,
            Input::Custom(_) => "custom",
        }
    }
}

/// What was read, in order.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Reads {
    /// Each read; none where an evaluation keeps no trace.
    pub reads: Vec<Read>,
    /// What lies behind them all.
    pub behind: Behind,
}

impl Reads {
    /// These, and after them others.
    #[must_use]
    pub fn then(mut self, others: Reads) -> Self {
        self.behind.add(others.behind);
        if !others.reads.is_empty() {
            self.reads.extend(others.reads);
        }
        self
    }
}

/// A quantity worked out.
#[derive(Debug, PartialEq)]
pub struct Worked {
    /// Which.
    pub quantity: &'static Quantity,
    /// Of what.
    pub element: Id,
    /// At which place, where it is asked at one.
    pub place: Option<Measure>,
    /// What came out.
    pub result: Derived,
    /// What was read on the way.
    pub reads: Vec<Read>,
}

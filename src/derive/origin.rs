//! The stated words behind a value, by its trace.

use std::collections::BTreeSet;

use super::evaluation::Evaluation;
use super::trace::{Input, Read};
use crate::base::Span;
use crate::model::{Id, PropertyName};

/// A stated value behind a number.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StatedRead {
    /// Where it stands.
    pub span: Span,
    /// The property.
    pub property: PropertyName,
    /// Of what.
    pub element: Id,
    /// As measured, not as drawn.
    pub measured: bool,
}

impl Evaluation<'_> {
    /// Every stated value behind some reads of a traced evaluation, with what it states; each place once.
    pub fn stated_behind(&self, reads: &[Read]) -> Vec<StatedRead> {
        let mut found = Vec::new();
        let mut seen = BTreeSet::new();
        self.walk(reads, &mut seen, &mut |read| {
            if let Input::Stated { property, span, measured } = read.input
                && !found.iter().any(|stated: &StatedRead| stated.span == span)
            {
                found.push(StatedRead { span, property, element: read.element, measured });
            }
        });
        found
    }

    /// Visits reads depth first, in the order they were read.
    fn walk(&self, reads: &[Read], seen: &mut BTreeSet<(Id, usize, Option<u64>)>, visit: &mut impl FnMut(&Read)) {
        for read in reads {
            visit(read);
            if let Input::Derived(entry, place) = read.input
                && seen.insert((read.element, std::ptr::from_ref(entry) as usize, place.map(|at| at.value.to_bits())))
            {
                let worked = self.work(read.element, entry, place);
                self.walk(&worked.reads, seen, visit);
            }
        }
    }
}

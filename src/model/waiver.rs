//! A waiver: leave that a design gives itself to depart from a rule, beside the thing that departs.

use crate::base::{Day, Span};

/// Leave to depart from a rule: which, for what, why, by whom and until when.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub struct Waiver {
    /// The rule's name, as written.
    pub rule: String,
    /// Where that stands.
    pub span: Span,
    /// Title of the only set whose rule of that name it speaks of; of every set's, unless stated.
    pub set: Option<(String, Span)>,
    /// The reason, if one is stated.
    pub why: Option<String>,
    /// Who answers for it, if that is stated.
    pub by: Option<String>,
    /// The last day on which it holds, and where that is stated; without one it holds until it is taken out.
    pub until: Option<(Day, Span)>,
    /// The thing in which it stands: it speaks of that and of all that belongs to it.
    pub within: usize,
    /// The only things of those that it speaks of, as a report calls them; all of them where none is named.
    pub only: Vec<(String, Span)>,
    /// All of it was understood. One of which anything was not does not hold; what, was reported.
    pub understood: bool,
}

//! What an editor is told of a ruleset.

pub(super) mod completion;
pub(super) mod examples;
pub(super) mod hover;
pub(super) mod names;
mod read;
pub(super) mod slips;

pub(super) use read::colours;

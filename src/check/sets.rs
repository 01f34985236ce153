//! Where a check has rulesets from, and what it may go by.

use std::sync::Arc;

use super::earlier::Earlier;
use super::loaded::LoadedSet;
use crate::base::Source;
use crate::rules::SetRefusal;

/// Where rulesets are had from.
pub trait Sets {
    /// A ruleset by a bare name, or by a file as `asked_by` names it.
    ///
    /// # Errors
    /// Why there is no such set.
    fn set(&self, name: &str, asked_by: Option<&Source>) -> Result<Arc<LoadedSet>, SetRefusal>;

    /// Whether nobody waits for the answer any more: then no more is sought, and what comes of it is thrown away.
    fn is_given_up(&self) -> bool {
        false
    }

    /// What earlier checks came to, where they are kept.
    fn earlier(&self) -> Option<&Earlier> {
        None
    }
}

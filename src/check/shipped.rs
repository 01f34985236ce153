//! The sets that come with the tool.

use crate::base::{Source, names};
use crate::rules::{Library, SetRefusal};

/// The sets shipped with the tool, by name.
pub static BUILT_IN: &[(&str, &str)] = &[
    ("residential", include_str!("../../rulesets/residential.rules")),
    ("workshop", include_str!("../../rulesets/workshop.rules")),
    ("public", include_str!("../../rulesets/public.rules")),
    ("workplace", include_str!("../../rulesets/workplace.rules")),
    ("accessible", include_str!("../../rulesets/accessible.rules")),
    ("dwelling-metric", include_str!("../../rulesets/dwelling-metric.rules")),
    ("marsh-county", include_str!("../../rulesets/marsh-county.rules")),
];

/// A library of the shipped sets and nothing else: no files.
#[derive(Debug, Clone, Copy, Default)]
pub struct Shipped;

impl Library for Shipped {
    fn ruleset(&self, name: &str, _asked_by: Option<&str>) -> Result<Source, SetRefusal> {
        if let Some((name, text)) = BUILT_IN.iter().find(|(known, _)| *known == name) {
            return Ok(Source::new(format!("built-in {name}"), text));
        }
        Err(SetRefusal::NotBuiltIn { name: name.to_owned(), near: Self::near(name) })
    }
}

impl Shipped {
    /// The shipped set that a name was likely meant for.
    pub fn near(name: &str) -> Option<&'static str> {
        names::nearest(name, BUILT_IN.iter().map(|(known, _)| *known))
    }
}

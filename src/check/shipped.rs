//! The sets that come with the tool.

use std::sync::{LazyLock, OnceLock};

use crate::base::{Source, names};
use crate::rules::Purpose;

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

/// Their texts, each copied once, when it is first asked for.
static SOURCES: LazyLock<Vec<OnceLock<Source>>> = LazyLock::new(|| BUILT_IN.iter().map(|_| OnceLock::new()).collect());

/// A shipped set by its name.
pub fn shipped(name: &str) -> Option<Source> {
    let at = BUILT_IN.iter().position(|(known, _)| *known == name)?;
    let ((name, text), source) = BUILT_IN.get(at).zip(SOURCES.get(at))?;
    Some(source.get_or_init(|| Source::new(format!("built-in {name}"), text)).clone())
}

/// Which shipped set is for what; a test holds it to the sets' own heads.
pub const FOR: &[(Purpose, &str)] = &[
    (Purpose::Dwelling, "residential"),
    (Purpose::Public, "public"),
    (Purpose::Workplace, "workplace"),
    (Purpose::Accessible, "accessible"),
    (Purpose::Dwelling, "dwelling-metric"),
    (Purpose::Public, "dwelling-metric"),
    (Purpose::Workplace, "dwelling-metric"),
];

/// The shipped sets that are for something.
pub(super) fn fitting(purpose: Purpose) -> Vec<&'static str> {
    FOR.iter().filter(|(of, _)| *of == purpose).map(|(_, name)| *name).collect()
}

/// The shipped set that a name was likely meant for.
pub fn nearest_shipped(name: &str) -> Option<&'static str> {
    names::nearest(name, BUILT_IN.iter().map(|(known, _)| *known))
}

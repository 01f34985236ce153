//! The sets that come with the tool.

use std::sync::{Arc, LazyLock, OnceLock};

use super::loaded::LoadedSet;
use crate::base::{Diagnostic, Source, names};
use crate::rules::problem::SetProblem;
use crate::rules::{self, DRAWING, Purpose, RuleSet};

/// The sets shipped with the tool, by name.
pub static BUILT_IN: &[(&str, &str)] = &[
    ("residential", include_str!("../../rulesets/residential.rules")),
    ("workshop", include_str!("../../rulesets/workshop.rules")),
    ("strength", include_str!("../../rulesets/strength.rules")),
    ("public", include_str!("../../rulesets/public.rules")),
    ("workplace", include_str!("../../rulesets/workplace.rules")),
    ("accessible", include_str!("../../rulesets/accessible.rules")),
    ("dwelling-metric", include_str!("../../rulesets/dwelling-metric.rules")),
    ("ontario", include_str!("../../rulesets/ontario.rules")),
    ("germany", include_str!("../../rulesets/germany.rules")),
    ("machinery", include_str!("../../rulesets/machinery.rules")),
    ("new-zealand", include_str!("../../rulesets/new-zealand.rules")),
    ("construction", include_str!("../../rulesets/construction.rules")),
    ("wisconsin", include_str!("../../rulesets/wisconsin.rules")),
    ("scotland", include_str!("../../rulesets/scotland.rules")),
    (DRAWING, rules::DRAWING_TEXT),
    ("marsh-county", include_str!("../../rulesets/marsh-county.rules")),
];

/// Their texts, each copied once, when it is first asked for.
static SOURCES: LazyLock<Vec<OnceLock<Source>>> = LazyLock::new(|| BUILT_IN.iter().map(|_| OnceLock::new()).collect());

/// The set that is held with every design, whatever sets it names.
static HELD_ALWAYS: LazyLock<Arc<LoadedSet>> = LazyLock::new(|| {
    let mut diagnostics = Vec::new();
    let set = shipped(DRAWING).map(|source| rules::load_alone(&source, &mut diagnostics)).unwrap_or_default();
    Arc::new(LoadedSet { set, diagnostics })
});

/// The set that is held with every design.
pub fn held_always() -> Arc<LoadedSet> {
    Arc::clone(&HELD_ALWAYS)
}

/// A shipped set by its name.
pub fn shipped(name: &str) -> Option<Source> {
    let at = BUILT_IN.iter().position(|(known, _)| *known == name)?;
    let ((name, text), source) = BUILT_IN.get(at).zip(SOURCES.get(at))?;
    Some(source.get_or_init(|| Source::new(format!("built-in {name}"), text)).clone())
}

/// Whether a text is that of a shipped set, and not one that only goes by its name.
pub fn is_shipped(source: &Source) -> bool {
    let Some(shipped) = source.name.strip_prefix("built-in ").and_then(shipped) else { return false };
    // It is the very same, as a rule; else each sign counts.
    Arc::ptr_eq(&source.text, &shipped.text) || source.text == shipped.text
}

/// The shipped set whose title a set goes by that is none: by the same words, whatever their case and blanks.
fn borrowed_title(title: &str) -> Option<&'static str> {
    let plain = |title: &str| title.to_lowercase().split_whitespace().collect::<Vec<_>>().join(" ");
    let titled = plain(title);
    let of =
        |text: &str| text.lines().find_map(|line| Some(line.strip_prefix("ruleset \"")?.split_once('"')?.0.to_owned()));
    BUILT_IN.iter().find(|(_, text)| of(text).is_some_and(|own| plain(&own) == titled)).map(|(name, _)| *name)
}

/// Notices of a set, and of those that it takes in, that they go by the title of a shipped set and are none.
pub fn borrowed_titles(set: &RuleSet) -> Vec<Diagnostic<rules::Problem>> {
    let own = [(&set.text, &set.title, Some(set.titled))];
    let all = own.into_iter().chain(set.takes_in.iter().map(|below| (&below.text, &below.title, None)));
    let borrowed = all.filter_map(|(text, title, titled)| {
        let text = text.as_ref().filter(|text| !is_shipped(text))?;
        let problem = SetProblem::TitleOfShipped { title: title.clone(), shipped: borrowed_title(title)? };
        Some(match titled {
            Some(place) => Diagnostic::new(text, place, problem),
            None => Diagnostic::whole(text, problem),
        })
    });
    borrowed.collect()
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
    (Purpose::Dwelling, "ontario"),
    (Purpose::Dwelling, "germany"),
    (Purpose::Public, "germany"),
    (Purpose::Workplace, "machinery"),
    (Purpose::Dwelling, "new-zealand"),
    (Purpose::Public, "new-zealand"),
    (Purpose::Workplace, "new-zealand"),
    (Purpose::Workplace, "construction"),
    (Purpose::Dwelling, "wisconsin"),
    (Purpose::Dwelling, "scotland"),
    (Purpose::Shared, "scotland"),
];

/// The shipped sets that are for something.
pub(super) fn fitting(purpose: Purpose) -> Vec<&'static str> {
    FOR.iter().filter(|(of, _)| *of == purpose).map(|(_, name)| *name).collect()
}

/// The shipped set that a name was likely meant for.
pub fn nearest_shipped(name: &str) -> Option<&'static str> {
    names::nearest(name, BUILT_IN.iter().map(|(known, _)| *known))
}

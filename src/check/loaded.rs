//! Sets and shops that were read.

use std::fmt;
use std::sync::Arc;

#[cfg(feature = "cli")]
use crate::base::Levels;
use crate::base::{Diagnostic, Source, Span};
use crate::model::{self, Shop};
use crate::rules::{self, Rule, RuleSet};

/// A ruleset that was read, with what was found in its text.
#[derive(Debug)]
pub struct LoadedSet {
    /// The set.
    pub set: RuleSet,
    /// What could not be read of it, or what its writer is advised of.
    pub diagnostics: Vec<Diagnostic<rules::Problem>>,
}

/// A shop's file that was read, with what was found in it.
#[derive(Debug)]
pub struct LoadedShop {
    /// The shop.
    pub shop: Shop,
    /// What could not be read of it.
    pub diagnostics: Vec<Diagnostic<model::Problem>>,
}

/// A shop's file and a design below it.
#[derive(Debug, Clone)]
pub struct ShopAbove {
    /// The shop.
    pub opened: Arc<LoadedShop>,
    /// The design's path from the file's folder, parts joined by `/`.
    pub design: String,
    /// The shops' files further up, the nearest first.
    pub beyond: Vec<ShopAbove>,
}

impl ShopAbove {
    /// The sets that the shops ask for, with their places: those of the outermost first, to which the others only add.
    pub fn rules(&self) -> Vec<(&str, &Source, Span)> {
        let all = self.beyond.iter().rev().chain([self]);
        let rules = all.map(|above| (above.shop(), above.shop().rules_of(&above.design)));
        rules.flat_map(|(shop, rules)| rules.iter().map(|(name, span)| (&**name, &shop.source, *span))).collect()
    }

    /// What of the design fails a run, as the shops' files say: the outermost governs, and one nearer the design may
    /// only add to it. Nothing where none of them says.
    #[cfg(feature = "cli")]
    pub fn fail_on(&self) -> Option<Levels> {
        let mut inwards = self.beyond.iter().rev().chain([self]).map(|above| above.shop().fail_on(&above.design));
        let outermost = inwards.next()?;
        let nearer = inwards.flatten().reduce(Levels::and);
        nearer.map_or(outermost, |nearer| Some(outermost.unwrap_or_default().and(nearer)))
    }

    /// The shop.
    pub fn shop(&self) -> &Shop {
        &self.opened.shop
    }
}

/// A rule of a set that was read.
#[derive(Clone)]
pub struct RuleRef {
    loaded: Arc<LoadedSet>,
    rule: Arc<Rule>,
}

impl RuleRef {
    /// A rule of a set.
    pub(in crate::check) fn new(loaded: &Arc<LoadedSet>, rule: &Arc<Rule>) -> Self {
        Self { loaded: Arc::clone(loaded), rule: Arc::clone(rule) }
    }

    /// Whether it is this rule of this set.
    pub(in crate::check) fn is(&self, loaded: &Arc<LoadedSet>, rule: &Arc<Rule>) -> bool {
        Arc::ptr_eq(&self.rule, rule) && Arc::ptr_eq(&self.loaded, loaded)
    }

    /// The set that was asked for; it may have the rule from one that it amends.
    pub fn set(&self) -> &RuleSet {
        &self.loaded.set
    }

    /// The rule.
    pub fn rule(&self) -> &Rule {
        &self.rule
    }
}

impl PartialEq for RuleRef {
    fn eq(&self, other: &Self) -> bool {
        self.is(&other.loaded, &other.rule)
    }
}

impl fmt::Debug for RuleRef {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "\"{}\" of {}", self.rule.name, self.loaded.set.title)
    }
}

//! What one design came to, as values: findings, what is not checked, how the rules stand, and what it rests on.

use std::sync::Arc;

use super::cause::Group;
use super::excused::Excused;
use super::finding::Finding;
use super::loaded::{RuleRef, ShopAbove};
use super::problem::Problem;
use super::shipped;
use super::standing::Standing;
use super::usual::Usual;
use crate::base::{Diagnostic, Source, Span};
use crate::derive::Need;
use crate::model::{Kind, PropertyName, Shop, Stair, Waiver, kinds, properties};
use crate::rules::{self, RuleSet};

/// What one design came to.
#[derive(Debug, Clone)]
#[non_exhaustive]
pub struct Report {
    /// The design's text.
    pub source: Source,
    /// What could not be read, is broken or advised: the gravest first, then in the order of the places, and those of one
    /// cause together.
    pub findings: Vec<Finding>,
    /// The findings by their causes, in the same order; each finding is in one of them.
    pub groups: Vec<Group>,
    /// Rules that could not be settled.
    pub not_checked: Vec<NotChecked>,
    /// How the rules stand.
    pub tally: Tally,
    /// Every rule of the tally that applies to a stair, and how it stands there.
    pub standings: Vec<RuleStanding>,
    /// Customs that stood in for what is not stated.
    pub customs: Vec<String>,
    /// Words of the design that took rules out, and nothing else of the drawing bears out.
    pub excused: Vec<Excused>,
    /// How many more such words there are that were not tried without.
    pub untried: usize,
    /// What is drawn of which no rule speaks that it was held to.
    pub unasked: Vec<&'static Kind>,
    /// What a stair is usually held to and no rule asks that it was held to.
    pub usual_left_out: Vec<&'static Usual>,
    /// The sets it was held to.
    pub sets: Vec<SetLine>,
    /// Rules that passed or are not met, on figures that their set has from memory.
    pub from_memory: usize,
    /// The same of figures that were seen second hand.
    pub second_hand: usize,
    /// The shops' files that had a say, and in what; the outermost first.
    pub shops: Vec<(String, Vec<FromShop>)>,
}

/// How a rule stands over all things of one stair.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct RuleStanding {
    /// The stair, by its place among those drawn.
    pub stair: usize,
    /// The rule, and the set that was asked for.
    pub rule: RuleRef,
    /// How it stands.
    pub standing: Standing,
}

/// A rule that could not be settled for one element, and what would settle it.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct NotChecked {
    /// Title of the set.
    pub set: String,
    /// Name of the rule.
    pub rule: String,
    /// `shall`, not `should`.
    pub shall: bool,
    /// The element.
    pub about: String,
    /// What would settle it.
    pub needs: Need,
    /// Where the element is drawn.
    pub span: Span,
    /// The waiver that excuses it: it is told, and fails nothing.
    pub waived: Option<Arc<Waiver>>,
    /// A baseline knows it: it is told, and fails nothing.
    pub known: bool,
}

impl NotChecked {
    /// Whether a waiver excuses it, or a baseline knows it.
    pub fn is_excused(&self) -> bool {
        self.known || self.waived.is_some()
    }
}

/// Something of a design that its shop's file states.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum FromShop {
    /// Sets that it is checked against, by their names there.
    Rules(Vec<String>),
    /// A section, by its name there.
    Section(String),
    /// A timber, by its name there.
    Timber(String),
    /// A property of the stair.
    Property(PropertyName),
    /// What it states too, and a nearer file or the design itself states otherwise: that was taken.
    PassedOver(Box<FromShop>),
}

/// Rules by how they stand: those of the sets that a design is held to, and of the drawing itself those that do not hold. A
/// rule counts once: broken before not checked before waived before passed.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
#[non_exhaustive]
pub struct Tally {
    /// Hold wherever they apply.
    pub passed: usize,
    /// A `shall` does not hold somewhere.
    pub broken: usize,
    /// A `should` does not hold somewhere.
    pub advised: usize,
    /// Nothing to hold.
    pub not_applicable: usize,
    /// Not settled somewhere.
    pub not_checked: usize,
    /// Does not hold somewhere, or is not settled, and is excused wherever that is so.
    pub waived: usize,
    /// Does not hold somewhere, and a baseline knows of every such place.
    pub known: usize,
}

/// A set that a design was held to.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub struct SetLine {
    /// Its title.
    pub title: String,
    /// Its edition.
    pub edition: String,
    /// What it rests on.
    pub basis: String,
    /// What its authors warn of.
    pub caution: String,
    /// Its file; nothing for a shipped set.
    pub file: Option<String>,
    /// The sets that it amends, the nearest first, each with its file.
    pub amends: Vec<(rules::Below, Option<String>)>,
    /// What it lets pass that those do not.
    pub departs: rules::Departures,
    /// The stairs that were held to it, by title, where others of the text were not.
    pub only: Vec<String>,
}

/// The name of a set's file, unless it is a shipped one.
fn file_of(text: &Option<Source>) -> Option<String> {
    text.as_ref().filter(|text| !shipped::is_shipped(text)).map(|text| text.name.to_string())
}

impl SetLine {
    pub(super) fn of(set: &RuleSet) -> Self {
        Self {
            title: set.title.clone(),
            edition: set.edition.clone(),
            basis: set.basis.clone(),
            caution: set.caution.clone(),
            file: file_of(&set.text),
            amends: set.takes_in.iter().map(|below| (below.clone(), file_of(&below.text))).collect(),
            departs: set.departures(),
            only: Vec::new(),
        }
    }
}

impl Report {
    /// Adds what a reader found, unless the same was found before.
    pub(super) fn add_once(&mut self, found: Diagnostic<Problem>) {
        let finding = found.into();
        if !self.findings.contains(&finding) {
            self.findings.push(finding);
        }
    }

    /// Notes what the shops' files had a say in; their rules had none if others were asked for.
    pub(super) fn note_shares(&mut self, above: &ShopAbove, stairs: &[Stair], rules_asked: Option<&[String]>) {
        let rules = |above: &ShopAbove| {
            let names: Vec<String> =
                above.shop().rules_of(&above.design).iter().map(|(name, _)| name.clone()).collect();
            (rules_asked.is_none() && !stairs.is_empty() && !names.is_empty()).then_some(FromShop::Rules(names))
        };
        let of_nearest = shares_of_nearest(above.shop(), stairs, rules(above));
        let beyond = above.beyond.iter().rev().map(|beyond| {
            let shares = rules(beyond).into_iter().chain(passed_over(beyond.shop(), stairs, &of_nearest));
            (beyond.shop(), shares.collect::<Vec<FromShop>>())
        });
        let mut shops: Vec<_> = beyond.collect();
        let own = passed_over(above.shop(), stairs, &[]);
        shops.push((above.shop(), of_nearest.iter().cloned().chain(own).collect()));
        shops.retain(|(_, shares)| !shares.is_empty());
        self.shops = shops.into_iter().map(|(shop, shares)| (shop.source.name.to_string(), shares)).collect();
    }
}

/// What a shop's file states, and was not taken: for what a file nearer to the design has a say in, or since only the
/// nearest is asked for it, or for what the design states itself.
fn passed_over(shop: &Shop, stairs: &[Stair], nearer: &[FromShop]) -> Vec<FromShop> {
    let bit = properties::LONGEST_BIT;
    let of_shop = |stair: &Stair| {
        let stated = stair.drawn.stated(0, bit).and_then(|stated| stated.shop.map(|shop| (stated, shop.words)));
        stated.is_some_and(|(stated, words)| {
            shop.longest_bit.as_ref().is_some_and(|own| own.span == words && own.value == stated.value)
        })
    };
    let bit_is_not_taken = shop.longest_bit.is_some() && stairs.iter().any(|stair| !of_shop(stair));
    let other_bit = bit_is_not_taken.then_some(FromShop::Property(bit));
    let known = nearer.iter().filter(|share| match share {
        FromShop::Section(name) => shop.section(name.trim_matches('"')).is_some(),
        FromShop::Timber(name) => shop.timber(name).is_some_and(|timber| !timber.stated.is_empty()),
        FromShop::Rules(_) | FromShop::Property(_) | FromShop::PassedOver(_) => false,
    });
    known.cloned().chain(other_bit).map(|share| FromShop::PassedOver(Box::new(share))).collect()
}

/// What the nearest shop's file had a say in.
fn shares_of_nearest(shop: &Shop, stairs: &[Stair], rules: Option<FromShop>) -> Vec<FromShop> {
    let mut shares: Vec<FromShop> = rules.into_iter().collect();
    let mut add = |share: FromShop| {
        if !shares.contains(&share) {
            shares.push(share);
        }
    };
    for stair in stairs {
        let stated =
            stair.drawn.elements.iter().flat_map(|element| element.stated.iter().map(move |stated| (element, stated)));
        for (element, stated) in stated {
            match stated.shop {
                Some(shop_words) if shop_words.called => {
                    add(FromShop::Section(shop.source.slice(shop_words.words).to_owned()));
                }
                Some(_) if element.kind == kinds::TIMBER => {
                    add(FromShop::Timber(element.name.clone().unwrap_or_default()));
                }
                Some(_) => add(FromShop::Property(stated.property.handle())),
                None => {}
            }
        }
    }
    shares
}

impl std::ops::AddAssign for Tally {
    fn add_assign(&mut self, other: Self) {
        self.passed += other.passed;
        self.broken += other.broken;
        self.advised += other.advised;
        self.not_applicable += other.not_applicable;
        self.not_checked += other.not_checked;
        self.waived += other.waived;
        self.known += other.known;
    }
}

impl Tally {
    /// Counts one more rule.
    pub(crate) fn count(&mut self, standing: Standing) {
        *self.counted(standing) += 1;
    }

    /// How many rules stand so.
    pub(super) fn counted(&mut self, standing: Standing) -> &mut usize {
        match standing {
            Standing::Broken => &mut self.broken,
            Standing::Advised => &mut self.advised,
            Standing::NotChecked => &mut self.not_checked,
            Standing::Waived => &mut self.waived,
            #[cfg(feature = "cli")]
            Standing::Known => &mut self.known,
            Standing::Passes => &mut self.passed,
            Standing::NotApplicable => &mut self.not_applicable,
            #[cfg(feature = "cli")]
            Standing::Absent => &mut self.not_applicable,
        }
    }
}

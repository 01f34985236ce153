//! The working behind a value: every figure by its symbol, with the formula that was worked and where it is from.
//!
//! A formula is written once, in code, through `step!`: what is worked and what is printed are the same words.

use super::amount::Amount;
use super::outside::Outside;
use crate::handbook::Cited;

/// One figure of a working.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Step {
    /// The part of the working that it belongs to: `main member`; empty where there is only one.
    pub part: &'static str,
    /// Its symbol, as the standards write it, in plain letters: `F_em`, `Z_IIIs`, `C_D`.
    pub symbol: &'static str,
    /// What it is, in a few words.
    pub name: &'static str,
    /// How it comes about, as code has it; empty where it is taken as it stands.
    formula: &'static str,
    /// What it comes to.
    pub value: Amount,
    /// Of several, the symbol of the one that decides.
    pub decides: Option<&'static str>,
    /// Where the formula or the figure is from.
    pub cited: Cited,
}

/// What is assumed where nothing states it; a report lists these.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
#[non_exhaustive]
pub enum Assumption {
    /// Timber outdoors is wet in service.
    WetOutdoors,
    /// Timber indoors is dry in service.
    DryIndoors,
    /// The wood was dry when the joint was made.
    MadeDry,
    /// How long the load lasts.
    LoadDuration,
    /// The stiffness of a board is that of its species in lumber of No.2 grade.
    StiffnessOfSpecies,
    /// No more than 100 F in service.
    OrdinaryTemperature,
    /// Treated timber of a species that is hard to treat was incised.
    Incised,
    /// A fastener's thread is at its root diameter all along.
    ThreadInShearPlane,
    /// A nail or screw is placed in holes that were not bored.
    NotBored,
    /// Of the dead load, what treads, riser boards and stringers weigh, and at least ten pounds on a square foot.
    OwnWeight,
    /// Wood weighs what it does at 19 % of moisture where it is dry in service, at 30 % where it is wet.
    HeavyWithWater,
    /// Snow lies on the level area of the steps as it is stated.
    SnowAsStated,
    /// Both ends of a post are held against moving sideways.
    HeldInPlace,
}

/// The figures behind one value, in the order in which they were worked.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Working {
    /// Each figure.
    pub steps: Vec<Step>,
    /// What was assumed, each once.
    pub assumptions: Vec<Assumption>,
    part: &'static str,
}

impl Working {
    /// Notes a figure that is taken as it stands.
    pub fn given(
        &mut self,
        symbol: &'static str,
        name: &'static str,
        value: impl Into<Amount>,
        cited: Cited,
    ) -> Amount {
        self.step(symbol, name, "", value, cited)
    }

    /// Notes a figure that was worked; through `step!`, so that the formula is the one that was.
    pub(super) fn step(
        &mut self,
        symbol: &'static str,
        name: &'static str,
        formula: &'static str,
        value: impl Into<Amount>,
        cited: Cited,
    ) -> Amount {
        let value = value.into();
        self.steps.push(Step { part: self.part, symbol, name, formula, value, decides: None, cited });
        value
    }

    /// Notes the least of several figures, and which it is.
    pub(super) fn least(
        &mut self,
        symbol: &'static str,
        name: &'static str,
        of: &[(&'static str, Amount)],
        cited: Cited,
    ) -> Amount {
        let mut found: Option<(&'static str, Amount)> = None;
        for (symbol, amount) in of {
            let lesser = |best: Amount| amount.in_base() < best.in_base() || !amount.is_finite();
            if found.is_none_or(|(_, best)| best.is_finite() && lesser(best)) {
                found = Some((*symbol, *amount));
            }
        }
        let (decides, value) = found.unwrap_or(("", Amount::number(f64::NAN)));
        let decides = Some(decides);
        self.steps.push(Step { part: self.part, symbol, name, formula: "least of them", value, decides, cited });
        value
    }

    /// Works a part of it under a heading of its own.
    pub fn part<T>(&mut self, part: &'static str, work: impl FnOnce(&mut Self) -> T) -> T {
        let before = std::mem::replace(&mut self.part, part);
        let value = work(self);
        self.part = before;
        value
    }

    /// Notes an assumption.
    pub fn assume(&mut self, assumption: Assumption) {
        if !self.assumptions.contains(&assumption) {
            self.assumptions.push(assumption);
        }
    }

    /// The last figure of a symbol.
    pub fn value(&self, symbol: &str) -> Option<Amount> {
        self.steps.iter().rev().find(|step| step.symbol == symbol).map(|step| step.value)
    }

    /// The figure that decides among several, of the last one of a symbol that has such.
    pub fn decides(&self, symbol: &str) -> Option<&'static str> {
        self.steps.iter().rev().filter(|step| step.symbol == symbol).find_map(|step| step.decides)
    }
}

/// A figure that a formula came to, if it is a number.
pub(super) fn found(value: Amount) -> Result<Amount, Outside> {
    if value.is_finite() { Ok(value) } else { Err(Outside::Undefined) }
}

impl Step {
    /// The formula as a person reads it; nothing where the figure is taken as it stands.
    pub fn formula(&self) -> Option<String> {
        Some(self.formula).filter(|formula| !formula.is_empty()).map(readable)
    }

    /// The symbol as a person reads it: an adjusted value has a stroke.
    pub fn symbol(&self) -> String {
        readable(self.symbol)
    }
}

/// A formula of code as a handbook writes it: `2.0 * a` is `2 a`, `F_b_adj` is `F_b'`.
fn readable(formula: &str) -> String {
    let words: Vec<&str> = formula.split_whitespace().collect();
    let mut text = words.join(" ").replace("_adj", "'").replace(" * ", " x ");
    for unit in
        [("POUNDS_PER_CUBIC_FOOT", "1 pcf"), ("INCHES", "1 in"), ("PSI", "1 psi"), ("POUNDS", "1 lb"), ("PSF", "1 psf")]
    {
        text = text.replace(unit.0, unit.1);
    }
    // Plain numbers of code end in a nought that says nothing.
    let mut out = String::with_capacity(text.len());
    let mut rest = text.as_str();
    while let Some((before, after)) = rest.split_once(".0") {
        out.push_str(before);
        let number = before.ends_with(|sign: char| sign.is_ascii_digit());
        if !number || after.starts_with(|sign: char| sign.is_ascii_digit()) {
            out.push_str(".0");
        }
        rest = after;
    }
    out.push_str(rest);
    out
}

/// Works a formula and notes it under its symbol, which names the value from there on:
/// `step!(w, S = b * squared(d) / 6.0, "section modulus", SOURCE)`.
macro_rules! step {
    ($working:ident, $symbol:ident = $formula:expr, $name:expr, $cited:expr) => {
        let $symbol = $working.step(stringify!($symbol), $name, stringify!($formula), $formula, $cited);
    };
}

/// Notes a figure that is taken as it stands under its symbol, which names it from there on.
macro_rules! given {
    ($working:ident, $symbol:ident = $value:expr, $name:expr, $cited:expr) => {
        let $symbol = $working.given(stringify!($symbol), $name, $value, $cited);
    };
}

pub(super) use {given, step};

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_formula_is_printed_as_a_handbook_writes_it() {
        assert_eq!(readable("2.0 * F_b_adj / (1.05 + 10.0 * D)"), "2 x F_b' / (1.05 + 10 x D)");
    }

    #[test]
    fn what_decides_is_the_least_and_what_is_no_number_is_never_hidden() {
        let mut working = Working::default();
        let amounts = [("a", Amount::number(2.0)), ("b", Amount::number(1.0)), ("c", Amount::number(3.0))];
        let cited = Cited::derived("statics");
        assert_eq!(working.least("z", "", &amounts, cited), Amount::number(1.0));
        assert_eq!(working.decides("z"), Some("b"));
        let amounts = [("a", Amount::number(2.0)), ("b", Amount::number(f64::NAN)), ("c", Amount::number(1.0))];
        assert!(!working.least("y", "", &amounts, cited).is_finite());
    }
}

//! A reader of the steps that a working of the mechanics prints: each formula is worked once more from its own text, by the
//! symbols printed before it, and knows nothing of the code that worked it.

use std::collections::BTreeMap;

use pitchboard::derive::{Evaluation, Quantity};
use pitchboard::mechanics::amount::{
    INCHES, POUNDS, POUNDS_PER_CUBIC_FOOT, PSF, PSI, cos, cubed, fourth, greatest, least, nearest, power, sin, sqrt,
    squared,
};
use pitchboard::mechanics::{Amount, Working};
use pitchboard::model::Id;

/// What the last step of a working comes to, once every step with a formula was worked from its text and agreed.
pub fn worked_again(evaluation: &Evaluation<'_>, id: Id, entry: &'static Quantity) -> Option<f64> {
    let working = entry.derive.working(evaluation, id)?;
    agrees(&working, &entry.name);
    // Where several parts are weighed, the greatest is the answer; else the last figure is.
    let last = working.steps.last()?;
    let alike = working.steps.iter().filter(|step| step.symbol == last.symbol && step.symbol == "ratio");
    let most = alike.map(|step| step.value.in_base()).fold(f64::NEG_INFINITY, f64::max);
    let named = match entry.name {
        "upper pull" => working.value("T")?,
        // Of a stringer the force on a support stands among what else the load does to it.
        "demand" => working.value("R").or_else(|| working.value("P"))?,
        _ => return Some(if most.is_finite() { most } else { last.value.in_base() }),
    };
    Some(named.in_base())
}

/// Works every step of a working that has a formula once more from its text.
pub fn agrees(working: &Working, of: &dyn std::fmt::Debug) {
    let mut known: BTreeMap<String, Amount> = BTreeMap::new();
    for step in &working.steps {
        if step.decides.is_none()
            && let Some(formula) = step.formula()
        {
            let mut reader = Reader { known: &known, rest: &formula };
            let value = reader.sum();
            assert_eq!(reader.rest.trim(), "", "left of `{formula}` of {of:?}");
            let (a, b) = (value.in_base(), step.value.in_base());
            assert_eq!(value.dimension(), step.value.dimension(), "{} = {formula} of {of:?}", step.symbol());
            assert!((a - b).abs() <= 1e-9 * a.abs().max(b.abs()), "{} = {formula}: {a} is not {b}", step.symbol());
        }
        known.insert(step.symbol(), step.value);
    }
}

struct Reader<'t> {
    known: &'t BTreeMap<String, Amount>,
    rest: &'t str,
}

impl Reader<'_> {
    fn takes(&mut self, sign: &str) -> bool {
        let rest = self.rest.trim_start().strip_prefix(sign);
        self.rest = rest.unwrap_or(self.rest);
        rest.is_some()
    }

    fn sum(&mut self) -> Amount {
        let mut value = self.product();
        loop {
            if self.takes("+ ") {
                value = value + self.product();
            } else if self.takes("- ") {
                value = value - self.product();
            } else {
                return value;
            }
        }
    }

    fn product(&mut self) -> Amount {
        let mut value = self.atom();
        loop {
            if self.takes("x ") {
                value = value * self.atom();
            } else if self.takes("/ ") {
                value = value / self.atom();
            } else {
                return value;
            }
        }
    }

    fn atom(&mut self) -> Amount {
        self.rest = self.rest.trim_start();
        if self.takes("(") {
            let value = self.sum();
            assert!(self.takes(")"), "{}", self.rest);
            return value;
        }
        let end = self.rest.find(|sign: char| !(sign.is_alphanumeric() || "_.'*".contains(sign)));
        let (word, rest) = self.rest.split_at(end.unwrap_or(self.rest.len()));
        self.rest = rest;
        if let Ok(number) = word.parse::<f64>() {
            for (unit, amount) in
                [(" in", INCHES), (" psi", PSI), (" lb", POUNDS), (" psf", PSF), (" pcf", POUNDS_PER_CUBIC_FOOT)]
            {
                let after = self.rest.strip_prefix(unit).filter(|after| !after.starts_with(char::is_alphanumeric));
                if let Some(after) = after {
                    self.rest = after;
                    return number * amount;
                }
            }
            return Amount::number(number);
        }
        if let Some(value) = self.known.get(word) {
            return *value;
        }
        if word == "pi" {
            return Amount::number(std::f64::consts::PI);
        }
        assert!(self.takes("("), "`{word}` is no symbol that stands before, at `{}`", self.rest);
        let first = self.sum();
        let second = self.takes(",").then(|| self.sum());
        assert!(self.takes(")"), "{}", self.rest);
        match (word, second) {
            ("sqrt", None) => sqrt(first),
            ("squared", None) => squared(first),
            ("cubed", None) => cubed(first),
            ("fourth", None) => fourth(first),
            ("sin", None) => sin(first),
            ("cos", None) => cos(first),
            ("power", Some(second)) => power(first, second),
            ("nearest", Some(second)) => nearest(first, second),
            ("least", Some(second)) => least(first, second),
            ("greatest", Some(second)) => greatest(first, second),
            _ => panic!("no function `{word}`"),
        }
    }
}

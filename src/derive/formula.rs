//! How a quantity comes about: by code, or by a formula, one declared expression that is both printed and worked.
//!
//! A formula is worked from left to right as it is printed, so that the first length in it gives the style of the result and
//! what it reads is noted in that order. Nothing is allocated for it.

use std::borrow::Cow;
use std::fmt::Write as _;

use super::custom::CustomId;
use super::datum::{Datum, Derived};
use super::evaluation::Evaluation;
use super::missing::{Missing, Reason, Undefined};
use super::quantity::{Gives, Quantity};
use super::reading::values;
use crate::measure::{Dimension, Measure};
use crate::mechanics::{Amount, Working};
use crate::model::{Id, PropertyName, kinds, properties};

/// Derives a quantity of an element.
pub type Derivation = fn(&Evaluation<'_>, Id) -> Derived;

/// Derives a quantity of an element at a place: a length in nanometres.
pub type DerivationAt = fn(&Evaluation<'_>, Id, f64) -> Derived;

/// Derives a quantity of an element by the mechanics, and notes the figures behind it.
pub type Mechanics = fn(&Evaluation<'_>, Id, &mut Working) -> Result<Amount, Missing>;

/// How a quantity is derived.
#[derive(Clone, Copy)]
pub enum Derive {
    /// By an expression, which is also what is printed of it.
    Formula(&'static Formula),
    /// By an expression, at a place of the element, as `At`.
    FormulaAt(&'static Formula),
    /// It is one for the whole element.
    Whole(Derivation),
    /// It is asked at a place of the element: a length in nanometres, from where its help says. Its name ends in
    /// the word that the place follows: `depth at`.
    At(DerivationAt),
    /// By the mechanics, which note every figure by its symbol.
    Mechanics(Mechanics),
}

impl Derive {
    /// Derives a quantity of an element, at a place where it is asked at one.
    pub(super) fn run(self, w: &Evaluation<'_>, id: Id, entry: &'static Quantity, place: Option<Measure>) -> Derived {
        match (self, place) {
            (Derive::Whole(derive), _) => derive(w, id),
            (Derive::Mechanics(work), _) => {
                let mut working = Working::default();
                let amount = work(w, id, &mut working);
                working.assumptions.iter().for_each(|assumed| w.custom(CustomId::of(*assumed), id));
                let amount = amount?;
                match amount.dimension() {
                    Dimension::NUMBER => Ok(Datum::Measure(Measure::number(amount.in_base()))),
                    dimension => w.measure(amount.in_base(), dimension),
                }
            }
            (Derive::At(derive), Some(place)) => derive(w, id, place.value),
            (Derive::Formula(formula), _) => formula.derive(w, id, entry.gives, 0.0),
            (Derive::FormulaAt(formula), Some(place)) => formula.derive(w, id, entry.gives, place.value),
            (Derive::At(_) | Derive::FormulaAt(_), None) => {
                Err(Missing::new(id, Reason::Undefined(entry, Undefined::WithoutPlace)))
            }
        }
    }
}

#[cfg(feature = "cli")]
impl Derive {
    /// The figures behind a quantity of the mechanics, by their symbols; nothing of one that is derived otherwise. Where it
    /// is not known, those up to where something is missing.
    pub fn working(self, w: &Evaluation<'_>, id: Id) -> Option<Working> {
        let Derive::Mechanics(work) = self else { return None };
        let mut working = Working::default();
        let _ = w.trace(|| work(w, id, &mut working));
        Some(working)
    }
}

/// An expression over what is stated and what is derived.
#[derive(Debug)]
pub enum Formula {
    /// A plain number.
    Number(f64),
    /// The circumference of a circle over its diameter.
    Pi,
    /// A stated property.
    Stated(Of, PropertyName),
    /// A stated number; where it is not stated, nothing by a custom.
    Assumed(Of, PropertyName, CustomId),
    /// A stated word, or the one that stands where it is not stated. It can only be the whole of a formula.
    Otherwise(PropertyName, &'static str),
    /// Another quantity. Asked for by a function, since a table cannot hold a row of itself.
    Asks(Of, fn() -> &'static Quantity),
    /// Another quantity at the place that this one is asked at.
    AsksAt(Of, fn() -> &'static Quantity),
    /// A way of the stated section.
    Section(Way),
    /// An item of a stated list.
    Item(Of, PropertyName, Nth),
    /// All items of a stated list.
    List(Fold, Of, PropertyName),
    /// A value of each of several things.
    Each(Fold, &'static Things, &'static Formula),
    /// How many things there are.
    Count(&'static Things),
    /// A name of the `With` around it.
    Name(&'static str),
    /// Names for values, worked first and in their order, and what comes of them.
    With(&'static [(&'static str, Formula)], &'static Formula),
    /// What is served only where nothing is missing; a refusal, so it is not printed.
    Only(fn(&Evaluation<'_>, Id) -> Result<(), Missing>, &'static Formula),
    /// A sum.
    Plus(&'static Formula, &'static Formula),
    /// A difference.
    Minus(&'static Formula, &'static Formula),
    /// A product.
    Times(&'static Formula, &'static Formula),
    /// A quotient.
    Over(&'static Formula, &'static Formula),
    /// A square.
    Square(&'static Formula),
    /// A square root.
    Root(&'static Formula),
    /// The sine of an angle in degrees.
    Sine(&'static Formula),
    /// The angle in degrees whose tangent is the first over the second.
    ArcTangent(&'static Formula, &'static Formula),
    /// The lesser of two.
    Lesser(&'static Formula, &'static Formula),
    /// The greater of two.
    Greater(&'static Formula, &'static Formula),
}

/// Of which element something is read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Of {
    /// The element itself.
    This,
    /// The flight that it is part of or serves.
    Flight,
    /// The flight of a step, whatever it states.
    FlightOfStep,
    /// The flight whose runs and risers made the step.
    MadeBy,
    /// The first tread of its flight.
    FirstTread,
    /// The joint of a member.
    Joint,
    /// The stair.
    Stair,
}

/// A way of a section.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Way {
    /// The smaller, or the diameter.
    Smaller,
    /// The larger, or the diameter.
    Larger,
}

/// Which item of a list.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Nth {
    /// That of the step; of a list of one, that one.
    OfStep,
    /// The first.
    First,
    /// The last.
    Last,
}

/// What is made of several values.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fold {
    /// Their sum.
    Sum,
    /// Their sum without the first.
    SumAfterFirst,
    /// Their sum up to the one of the step.
    SumUpToStep,
    /// Their mean; nothing where there are none.
    Mean,
    /// The largest; nothing where there are none.
    Largest,
    /// The largest less the smallest; nothing where there are none.
    Spread,
    /// How many there are.
    Count,
    /// The one that there is at most; nothing where there is none.
    One,
}

/// Several things, each of which something is read of.
pub struct Things {
    /// What they are, as it stands after `of`.
    pub text: &'static str,
    /// Visits each, in order, until a visit is missing something.
    pub walk: fn(&Evaluation<'_>, Id, Visit<'_>) -> Result<(), Missing>,
}

/// What is done at each of several things.
pub type Visit<'v> = &'v mut dyn FnMut(Id) -> Result<(), Missing>;

impl std::fmt::Debug for Things {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(self.text)
    }
}

impl Of {
    fn find(self, w: &Evaluation<'_>, id: Id) -> Result<Id, Missing> {
        match self {
            Of::This => Ok(id),
            Of::Flight => w.flight_of(id),
            Of::FlightOfStep | Of::Joint => Ok(w.parent(id)),
            Of::MadeBy => w.made_for(id, properties::RUNS),
            Of::FirstTread => {
                let flight = w.flight_of(id)?;
                w.step_of(flight, kinds::TREAD, 0).ok_or_else(|| w.missing(flight, properties::RUNS))
            }
            Of::Stair => Ok(0),
        }
    }
}

/// Most names of one `With`.
const NAMES: usize = 5;

/// What a formula is worked under: the place it is asked at, and the names of the `With` around it.
#[derive(Clone, Copy)]
struct Under<'n> {
    place: f64,
    names: &'n [(&'static str, Formula)],
    values: [f64; NAMES],
}

/// Values taken in one by one.
#[derive(Clone, Copy)]
struct Folded {
    count: f64,
    sum: f64,
    largest: f64,
    smallest: f64,
}

impl Folded {
    const NONE: Self = Self { count: 0.0, sum: 0.0, largest: f64::NEG_INFINITY, smallest: f64::INFINITY };

    fn take(&mut self, value: f64) {
        self.count += 1.0;
        self.sum += value;
        self.largest = self.largest.max(value);
        self.smallest = self.smallest.min(value);
    }

    fn of(values: impl Iterator<Item = f64>) -> Self {
        let mut folded = Self::NONE;
        values.for_each(|value| folded.take(value));
        folded
    }

    fn come_to(&self, fold: Fold) -> f64 {
        match fold {
            Fold::Count => self.count,
            _ if self.count == 0.0 => 0.0,
            Fold::Sum | Fold::SumAfterFirst | Fold::SumUpToStep | Fold::One => self.sum,
            Fold::Mean => self.sum / self.count,
            Fold::Largest => self.largest,
            Fold::Spread => self.largest - self.smallest,
        }
    }
}

impl Formula {
    /// Works it for an element, at a place in nanometres where it is asked at one.
    fn derive(&self, w: &Evaluation<'_>, id: Id, gives: Gives, place: f64) -> Derived {
        match self {
            Formula::Stated(of, property) => w.stated(of.find(w, id)?, *property),
            Formula::Asks(of, quantity) => w.derived(of.find(w, id)?, quantity(), None),
            Formula::Item(of, property, Nth::OfStep) => {
                Ok(Datum::Measure(w.item_for(id, of.find(w, id)?, *property)?))
            }
            Formula::Otherwise(property, word) => w.stated_or(id, *property, word),
            _ => {
                let value = self.value(w, id, &Under { place, names: &[], values: [0.0; NAMES] })?;
                match gives {
                    Gives::Measure(Dimension::NUMBER) => Ok(Datum::Measure(Measure::number(value))),
                    Gives::Measure(Dimension::ANGLE) => Ok(Datum::Measure(Measure::degrees(value))),
                    Gives::Measure(dimension) => w.measure(value, dimension),
                    Gives::Word(_) => w.length(value),
                }
            }
        }
    }

    fn value(&self, w: &Evaluation<'_>, id: Id, under: &Under<'_>) -> Result<f64, Missing> {
        let of = |formula: &Formula| formula.value(w, id, under);
        Ok(match self {
            Formula::Number(number) => *number,
            Formula::Pi => std::f64::consts::PI,
            Formula::Stated(from, property) => w.number(from.find(w, id)?, *property)?,
            Formula::Otherwise(property, _) => w.number(id, *property)?,
            Formula::Asks(from, quantity) => w.number(from.find(w, id)?, quantity())?,
            Formula::AsksAt(from, quantity) => w.number_at(from.find(w, id)?, quantity(), under.place)?,
            Formula::Assumed(from, property, custom) => assumed(w, from.find(w, id)?, *property, *custom)?,
            Formula::Section(Way::Smaller) => w.section(id)?.thickness,
            Formula::Section(Way::Larger) => w.section(id)?.depth,
            Formula::Item(from, property, nth) => item(w, id, from.find(w, id)?, *property, *nth)?,
            Formula::List(fold, from, property) => list(w, from.find(w, id)?, *property, *fold, w.step(id))?,
            Formula::Each(fold, each, formula) => over(w, id, each, *fold, |one| formula.value(w, one, under))?,
            Formula::Count(each) => over(w, id, each, Fold::Count, |_| Ok(0.0))?,
            Formula::Name(name) => under.named(name),
            Formula::With(names, formula) => formula.value(w, id, &under.with(w, id, names)?)?,
            Formula::Only(serves, formula) => {
                serves(w, id)?;
                of(formula)?
            }
            Formula::Plus(a, b) => of(a)? + of(b)?,
            Formula::Minus(a, b) => of(a)? - of(b)?,
            Formula::Times(a, b) => of(a)? * of(b)?,
            Formula::Over(a, b) => of(a)? / of(b)?,
            Formula::Square(a) => of(a)?.powi(2),
            Formula::Root(a) => of(a)?.sqrt(),
            Formula::Sine(a) => of(a)?.to_radians().sin(),
            Formula::ArcTangent(a, b) => of(a)?.atan2(of(b)?).to_degrees(),
            Formula::Lesser(a, b) => of(a)?.min(of(b)?),
            Formula::Greater(a, b) => of(a)?.max(of(b)?),
        })
    }
}

impl<'n> Under<'n> {
    /// A name that is bound by nothing is no number; a test holds every name to its list.
    fn named(&self, name: &str) -> f64 {
        let nth = self.names.iter().position(|(bound, _)| *bound == name);
        nth.and_then(|nth| self.values.get(nth)).copied().unwrap_or(f64::NAN)
    }

    fn with(&self, w: &Evaluation<'_>, id: Id, names: &'n [(&'static str, Formula)]) -> Result<Self, Missing> {
        let mut under = Self { names, ..*self };
        for (nth, (_, formula)) in names.iter().enumerate() {
            let value = formula.value(w, id, &under)?;
            if let Some(slot) = under.values.get_mut(nth) {
                *slot = value;
            }
        }
        Ok(under)
    }
}

/// A stated length; where none is stated nothing, which the report says.
pub(super) fn assumed(w: &Evaluation<'_>, id: Id, property: PropertyName, custom: CustomId) -> Result<f64, Missing> {
    if w.looked_up(id, property).is_some() {
        return w.number(id, property);
    }
    w.custom(custom, id);
    Ok(0.0)
}

fn item(w: &Evaluation<'_>, step: Id, id: Id, property: PropertyName, nth: Nth) -> Result<f64, Missing> {
    let nth = match nth {
        Nth::OfStep => return Ok(w.item_for(step, id, property)?.value),
        Nth::First => 0,
        Nth::Last => w.list(id, property)?.len().saturating_sub(1),
    };
    Ok(w.item(id, property, nth)?.value)
}

fn list(w: &Evaluation<'_>, id: Id, property: PropertyName, fold: Fold, step: usize) -> Result<f64, Missing> {
    let values = values(w.list(id, property)?);
    let folded = match fold {
        Fold::SumAfterFirst => Folded::of(values.skip(1)),
        Fold::SumUpToStep => Folded::of(values.take(step + 1)),
        _ => Folded::of(values),
    };
    Ok(folded.come_to(fold))
}

fn over(
    w: &Evaluation<'_>,
    id: Id,
    each: &Things,
    fold: Fold,
    value: impl Fn(Id) -> Result<f64, Missing>,
) -> Result<f64, Missing> {
    let (mut folded, mut missed) = (Folded::NONE, None);
    (each.walk)(w, id, &mut |one| {
        match value(one) {
            Ok(value) => folded.take(value),
            Err(missing) => missed = w.graver(missed, missing),
        }
        Ok(())
    })?;
    missed.map_or_else(|| Ok(folded.come_to(fold)), Err)
}

/// How tightly a printed formula holds together.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Binds {
    /// Words that a sign beside them would be lost in.
    Words,
    Sum,
    Product,
    Whole,
}

impl Formula {
    /// As a person reads it. A name that the element has not is one of its flight, or of what the flight belongs to.
    pub(super) fn text(&self) -> Cow<'static, str> {
        match self {
            Formula::Otherwise(property, word) => format!("{property} as stated, else {word}").into(),
            Formula::Item(_, property, Nth::OfStep) => format!("as stated in {property}").into(),
            _ => {
                let mut text = String::new();
                self.print(&mut text);
                text.into()
            }
        }
    }

    fn binds(&self) -> Binds {
        match self {
            Formula::With(..) | Formula::Count(_) | Formula::List(Fold::Count, ..) => Binds::Words,
            Formula::Lesser(..) | Formula::Greater(..) | Formula::Otherwise(..) => Binds::Words,
            Formula::List(Fold::SumAfterFirst | Fold::Spread, ..) | Formula::Each(Fold::Spread, ..) => Binds::Sum,
            Formula::Only(_, formula) => formula.binds(),
            Formula::Plus(..) | Formula::Minus(..) => Binds::Sum,
            Formula::Times(..) | Formula::Over(..) => Binds::Product,
            _ => Binds::Whole,
        }
    }

    fn print(&self, out: &mut String) {
        match self {
            Formula::Number(number) => drop(write!(out, "{number}")),
            Formula::Pi => out.push_str("pi"),
            Formula::Name(name) => out.push_str(name),
            Formula::Stated(of, property) | Formula::Assumed(of, property, _) => named(out, *of, property.text()),
            Formula::Otherwise(property, _) => out.push_str(property.text()),
            Formula::Asks(of, quantity) | Formula::AsksAt(of, quantity) => {
                named(out, *of, quantity().name);
            }
            Formula::Section(Way::Smaller) => out.push_str("the smaller way of section"),
            Formula::Section(Way::Larger) => out.push_str("the larger way of section"),
            Formula::Item(of, property, nth) => {
                out.push_str(match nth {
                    Nth::OfStep => "",
                    Nth::First => "first of ",
                    Nth::Last => "last of ",
                });
                named(out, *of, property.text());
            }
            Formula::List(fold, of, property) => {
                let mut list = String::new();
                named(&mut list, *of, property.text());
                out.push_str(&of_list(*fold, &list));
            }
            Formula::Each(fold, each, formula) => {
                let mut one = String::new();
                formula.print_within(Binds::Whole, &mut one);
                out.push_str(&of_each(*fold, &one, each.text));
            }
            Formula::Count(each) => drop(write!(out, "{}, counted", each.text)),
            Formula::With(names, formula) => {
                formula.print(out);
                for (nth, (name, value)) in names.iter().enumerate() {
                    let before = if nth == 0 { ", with" } else { "," };
                    let _ = write!(out, "{before} {name} = ");
                    value.print(out);
                }
            }
            Formula::Only(_, formula) => formula.print(out),
            Formula::Plus(a, b) => pair(out, (a, Binds::Sum), " + ", (b, Binds::Sum)),
            Formula::Minus(a, b) => pair(out, (a, Binds::Sum), " - ", (b, Binds::Product)),
            Formula::Times(a, b) => pair(out, (a, Binds::Product), " x ", (b, Binds::Product)),
            Formula::Over(a, b) => pair(out, (a, Binds::Product), " / ", (b, Binds::Whole)),
            Formula::Square(a) => {
                a.print_within(Binds::Whole, out);
                out.push_str("^2");
            }
            Formula::Root(a) => called(out, "sqrt", a),
            Formula::Sine(a) => called(out, "sin", a),
            Formula::ArcTangent(a, b) => called(out, "atan", &Formula::Over(a, b)),
            Formula::Lesser(a, b) => {
                out.push_str("lesser of ");
                pair(out, (a, Binds::Sum), " and ", (b, Binds::Sum));
            }
            Formula::Greater(a, b) => {
                out.push_str("greater of ");
                pair(out, (a, Binds::Sum), " and ", (b, Binds::Sum));
            }
        }
    }

    fn print_within(&self, binds: Binds, out: &mut String) {
        if self.binds() >= binds {
            return self.print(out);
        }
        out.push('(');
        self.print(out);
        out.push(')');
    }
}

/// Prints two formulas with a sign between them, each bracketed if it binds less tightly than it has to.
fn pair(out: &mut String, (a, left): (&Formula, Binds), sign: &str, (b, right): (&Formula, Binds)) {
    a.print_within(left, out);
    out.push_str(sign);
    b.print_within(right, out);
}

fn called(out: &mut String, function: &str, of: &Formula) {
    out.push_str(function);
    out.push('(');
    of.print(out);
    out.push(')');
}

fn named(out: &mut String, of: Of, name: &str) {
    out.push_str(name);
    // A member has both by the same names; nothing else is read of another that it has itself.
    if of == Of::Joint {
        out.push_str(" of the joint");
    }
}

fn of_list(fold: Fold, list: &str) -> String {
    match fold {
        Fold::Sum => format!("sum of {list}"),
        Fold::SumAfterFirst => format!("sum of {list} - the first"),
        Fold::SumUpToStep => format!("sum of {list} up to this one"),
        Fold::Mean => format!("mean of {list}"),
        Fold::Largest => format!("largest of {list}"),
        Fold::Spread => format!("largest of {list} - smallest of {list}"),
        Fold::Count => format!("{list}, counted"),
        Fold::One => list.to_owned(),
    }
}

fn of_each(fold: Fold, one: &str, each: &str) -> String {
    match fold {
        Fold::Sum | Fold::SumAfterFirst | Fold::SumUpToStep => format!("sum of {one} of {each}"),
        Fold::Mean => format!("mean {one} of {each}"),
        Fold::Largest => format!("largest {one} of {each}"),
        Fold::Spread => format!("largest {one} - smallest {one} of {each}"),
        Fold::Count => format!("{each}, counted"),
        Fold::One => format!("{one} of {each}"),
    }
}

#[cfg(test)]
mod tests {
    use super::super::catalogue::quantities;
    use super::*;

    /// Whether every name is bound by the `With` around it, of which there is one at most, and is small enough.
    fn bound(formula: &Formula, names: &[&str]) -> bool {
        match formula {
            Formula::Name(name) => names.contains(name),
            Formula::With(bindings, formula) => {
                let all: Vec<&str> = bindings.iter().map(|(name, _)| *name).collect();
                let earlier = |nth: usize| all.get(..nth).unwrap_or_default();
                let each = bindings.iter().enumerate().all(|(nth, (_, value))| bound(value, earlier(nth)));
                names.is_empty() && all.len() <= NAMES && each && bound(formula, &all)
            }
            Formula::Each(_, _, a) | Formula::Only(_, a) => bound(a, names),
            Formula::Square(a) | Formula::Root(a) | Formula::Sine(a) => bound(a, names),
            Formula::Plus(a, b) | Formula::Minus(a, b) | Formula::Times(a, b) | Formula::Over(a, b) => {
                bound(a, names) && bound(b, names)
            }
            Formula::ArcTangent(a, b) | Formula::Lesser(a, b) | Formula::Greater(a, b) => {
                bound(a, names) && bound(b, names)
            }
            _ => true,
        }
    }

    #[test]
    fn every_name_is_bound() {
        let mut seen = 0;
        for entry in quantities() {
            if let Derive::Formula(formula) | Derive::FormulaAt(formula) = entry.derive {
                assert!(bound(formula, &[]), "{entry:?}");
                seen += 1;
            }
        }
        assert!(seen > 40 && !bound(&Formula::Name("n"), &[]));
    }

    /// Brackets stand where the text would else say something other than what is worked.
    #[test]
    fn what_binds_less_is_bracketed() {
        use Formula::{Greater, Minus, Name, Number, Over, Plus, Square, Times};
        const A: Formula = Name("a");
        let printed: [(&Formula, &str); 7] = [
            (&Minus(&A, &Minus(&A, &A)), "a - (a - a)"),
            (&Minus(&Minus(&A, &A), &A), "a - a - a"),
            (&Over(&A, &Times(&Number(2.0), &A)), "a / (2 x a)"),
            (&Times(&Over(&A, &A), &A), "a / a x a"),
            (&Square(&Plus(&A, &A)), "(a + a)^2"),
            (&Minus(&Greater(&A, &Plus(&A, &A)), &A), "(greater of a and a + a) - a"),
            (&Times(&Number(0.5), &Formula::ArcTangent(&A, &Plus(&A, &A))), "0.5 x atan(a / (a + a))"),
        ];
        for (formula, text) in printed {
            assert_eq!(formula.text(), text);
        }
    }
}

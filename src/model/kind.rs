//! What the rows of the vocabulary hold: a kind, its traits, its properties and what each takes.

use crate::measure::{INCH, POUND};

/// What a property takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Takes {
    /// One length.
    Length,
    /// One length for all, or one for each step.
    Lengths,
    /// An angle.
    Angle,
    /// One angle for all together, or one for each.
    Angles,
    /// An area.
    Area,
    /// A force.
    Force,
    /// A force on an area: a load, a stress.
    Pressure,
    /// A slope: `1 in 48`, `2%`, `1/4" per 12"`.
    Slope,
    /// A plain number.
    Number,
    /// A whole number.
    Count,
    /// One of these words.
    OneOf(&'static [&'static str]),
    /// Some of these words.
    SomeOf(&'static [&'static str]),
    /// Names of rulesets.
    Sets,
    /// Free words.
    Words,
    /// Free words, perhaps with a length.
    Finish,
    /// A date.
    Date,
    /// A section: `2x12`, `1-1/2" x 11-1/4"`, `round 1-1/2"`, or one of the user's own.
    Section,
    /// Species, grade and treatment, or one of the user's own.
    Timber,
    /// `square`, `radius 3/8"`, `bevel 1/2"`.
    Edge,
    /// `2x2 every 5"`, `9 of 2x2`.
    Balusters,
    /// `2 of 3/8" x 6" carriage, galvanised`.
    Fasteners,
    /// `newel to stringer`.
    Members,
    /// The name of something drawn.
    Name,
}

/// The name of a property: a handle to what is stated under it, whatever the kind. It is a hash of the text; a test
/// holds those of the table apart.
#[derive(Clone, Copy, PartialEq, Eq)]
pub struct PropertyName(u32);

impl PropertyName {
    /// Hashed by FNV-1a (Fowler, Noll, Vo).
    pub(super) const fn of(text: &str) -> Self {
        let mut hash = 0x811c_9dc5_u32;
        let mut rest = text.as_bytes();
        while let Some((byte, after)) = rest.split_first() {
            hash = (hash ^ *byte as u32).wrapping_mul(0x0100_0193);
            rest = after;
        }
        Self(hash)
    }
}

/// Properties of kinds of things, as few bits: one that was put in is always found, and now and then one that was not.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct PropertyNames([u64; 4]);

impl PropertyNames {
    /// Every one there is.
    pub const ALL: Self = Self([u64::MAX; 4]);

    /// Puts a property of a kind in.
    #[inline]
    pub fn add(&mut self, kind: &Kind, name: PropertyName) {
        // Spread by a prime, of which the highest bits are the best mixed (Knuth, multiplicative hashing; from memory).
        #[allow(clippy::cast_possible_truncation, reason = "kinds are few")]
        let mixed = (name.0 ^ (kind.index() as u32).wrapping_mul(0x9e37_79b1)).wrapping_mul(0x85eb_ca6b) >> 24;
        if let Some(bits) = self.0.get_mut(mixed as usize >> 6) {
            *bits |= 1 << (mixed % 64);
        }
    }

    /// Puts all of these in.
    #[inline]
    pub fn add_all(&mut self, others: Self) {
        for (bits, more) in self.0.iter_mut().zip(others.0) {
            *bits |= more;
        }
    }

    /// Whether there is none.
    #[inline]
    pub fn is_empty(self) -> bool {
        self.0 == [0; 4]
    }

    /// Whether the two may have one in common; if not, they have none.
    #[inline]
    pub fn may_share(self, others: Self) -> bool {
        self.0.iter().zip(others.0).any(|(bits, other)| bits & other != 0)
    }
}

/// Who settles the value of a property.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Basis {
    /// A fact of the site, of its use or of the shop's tools: it is found there.
    Site,
    /// The designer's choice.
    Choice,
    /// A measurement of what is built, or of the material.
    Measurement,
}

/// The values between which a property makes sense, in base units, both included.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Range {
    /// The least of them.
    pub least: f64,
    /// The most of them.
    pub most: f64,
}

impl Range {
    /// Lengths in inches.
    pub(super) const fn inches(least: f64, most: f64) -> Self {
        Self { least: least * INCH, most: most * INCH }
    }

    /// Whether a value lies in it.
    pub fn holds(self, value: f64) -> bool {
        (self.least..=self.most).contains(&value)
    }
}

/// One property.
#[derive(Debug, PartialEq)]
#[non_exhaustive]
pub struct Property {
    /// As it is written.
    pub name: &'static str,
    /// What it takes.
    pub takes: Takes,
    /// Who settles it: no report suggests changing what is not the designer's choice.
    pub basis: Basis,
    /// Between which values it makes sense, where it is a figure: beyond them a slip is likelier than a stair.
    pub range: Option<Range>,
    /// The same of the thinner and of the wider way of a section, by what it is for.
    pub ways: Option<[Range; 2]>,
    /// Whether another such value is how a part is made to take what it is asked: it makes the part stouter, or its
    /// fasteners, or lets it rest on more wood; the stair stays as wide, as high and as long as it is.
    pub strengthens: bool,
    /// One line.
    pub help: &'static str,
    handle: PropertyName,
}

impl Property {
    /// The handle to what is stated of it.
    pub const fn handle(&self) -> PropertyName {
        self.handle
    }
}

/// A row of a kind's properties: a choice of the designer.
pub(super) const fn property(name: &'static str, takes: Takes, help: &'static str) -> Property {
    Property {
        name,
        takes,
        basis: Basis::Choice,
        range: None,
        ways: None,
        strengthens: false,
        help,
        handle: PropertyName::of(name),
    }
}

/// The same for a fact of the site.
pub(super) const fn site(name: &'static str, takes: Takes, help: &'static str) -> Property {
    Property { basis: Basis::Site, ..property(name, takes, help) }
}

/// The same for a measurement.
pub(super) const fn measurement(name: &'static str, takes: Takes, help: &'static str) -> Property {
    Property { basis: Basis::Measurement, ..property(name, takes, help) }
}

impl Property {
    /// Another such value makes a part, or what holds it, stronger.
    pub(super) const fn strengthens(self) -> Self {
        Self { strengthens: true, ..self }
    }

    /// Makes sense between so many inches.
    pub(super) const fn inches(self, least: f64, most: f64) -> Self {
        Self { range: Some(Range::inches(least, most)), ..self }
    }

    /// A section of it makes sense so many inches thick, and so many wide.
    pub(super) const fn ways(self, thin: (f64, f64), wide: (f64, f64)) -> Self {
        Self { ways: Some([Range::inches(thin.0, thin.1), Range::inches(wide.0, wide.1)]), ..self }
    }

    /// Makes sense between so many square feet.
    pub(super) const fn square_feet(self, least: f64, most: f64) -> Self {
        const SQUARE_FOOT: f64 = 144.0 * INCH * INCH;
        Self { range: Some(Range { least: least * SQUARE_FOOT, most: most * SQUARE_FOOT }), ..self }
    }

    /// Makes sense between so many pounds on a square inch.
    pub(super) const fn psi(self, least: f64, most: f64) -> Self {
        const PSI: f64 = POUND / (INCH * INCH);
        Self { range: Some(Range { least: least * PSI, most: most * PSI }), ..self }
    }

    /// Makes sense between so many pounds.
    pub(super) const fn pounds(self, least: f64, most: f64) -> Self {
        Self { range: Some(Range { least: least * POUND, most: most * POUND }), ..self }
    }

    /// Makes sense between these numbers: a count, degrees, a slope as rise over run.
    pub(super) const fn between(self, least: f64, most: f64) -> Self {
        Self { range: Some(Range { least, most }), ..self }
    }
}

/// A trait of a kind, in which it is unlike most others.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Trait {
    /// Others stand in it, along it or at it: a flight, a landing.
    Place,
    /// It stands at a side of a place.
    Sided,
    /// It goes by no name but its side.
    SidesOnly,
    /// The side straight ahead of one who comes up is one of its sides.
    FarSide,
    /// It may stand between the sides, under the name `middle`.
    Middle,
    /// It serves the only flight, where it does not say which.
    ServesLoneFlight,
    /// It serves the landing that it names.
    ServesLandingOfName,
    /// Drawn in the stair, it serves the landings as it does the flights.
    ServesEveryPlace,
    /// Drawn once in a stair of several flights, it is one for each of them.
    OneForEachFlight,
    /// A joint may join it.
    Joinable,
    /// Its grain lies level and square to travel: whatever loads it meets it across the grain.
    LaidLevel,
    /// A shop's file may list what is in stock of it.
    Stocked,
    /// It is overhead: what is asked of a ceiling is asked of it too.
    Overhead,
}

/// One kind of thing.
#[derive(Debug)]
#[non_exhaustive]
pub struct Kind {
    /// What it is called.
    pub name: &'static str,
    /// What several are called.
    pub plural: &'static str,
    /// How its block opens, where that differs from its name.
    pub opens: &'static str,
    /// Kinds it may stand in; empty for what is never drawn.
    pub within: &'static [&'static str],
    /// In what it is unlike most others.
    pub traits: &'static [Trait],
    /// The list of a flight that it is made from, one for each item.
    pub made_from: Option<&'static str>,
    /// How one is drawn, for a report that misses it.
    pub example: &'static str,
    /// One line.
    pub help: &'static str,
    /// Its properties.
    pub properties: &'static [Property],
    /// Its place in the table.
    pub(super) index: usize,
}

/// What a row of the table leaves out.
pub(super) const KIND: Kind = Kind {
    name: "",
    plural: "",
    opens: "",
    within: &[],
    traits: &[],
    made_from: None,
    example: "",
    help: "",
    properties: &[],
    index: usize::MAX,
};

/// Where a kind stands that stands in no other: at the top of a file.
pub const FILE: &str = "";

impl Kind {
    /// The property of a name.
    pub fn property(&self, name: &str) -> Option<&'static Property> {
        let properties: &'static [Property] = self.properties;
        properties.iter().find(|property| property.name == name)
    }

    /// Its own property behind a handle.
    pub fn has(&self, handle: PropertyName) -> Option<&'static Property> {
        let properties: &'static [Property] = self.properties;
        properties.iter().find(|property| property.handle == handle)
    }

    /// Whether it has a trait.
    pub fn is(&self, one: Trait) -> bool {
        self.traits.contains(&one)
    }

    /// Whether a block of it may stand in a file.
    pub fn is_drawn(&self) -> bool {
        !self.within.is_empty()
    }

    /// Its place in the table, from 0.
    pub const fn index(&self) -> usize {
        self.index
    }

    /// The list of a flight that it is made from.
    pub fn list(&self) -> Option<PropertyName> {
        self.made_from.map(PropertyName::of)
    }
}

impl PartialEq for Kind {
    fn eq(&self, other: &Self) -> bool {
        self.index == other.index
    }
}

impl Eq for Kind {}

/// Gives each row its place, from `first` on.
pub(super) const fn numbered<const ROWS: usize>(first: usize, mut rows: [Kind; ROWS]) -> [Kind; ROWS] {
    let mut rest: &mut [Kind] = &mut rows;
    let mut index = first;
    while let Some((row, after)) = rest.split_first_mut() {
        row.index = index;
        index += 1;
        rest = after;
    }
    rows
}

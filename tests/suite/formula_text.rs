//! A reader of the formulas that are printed: it works the text itself, by the names in it, and knows nothing of the
//! expressions that it was printed from.

use crate::formulas::{Seen, Told};
use pitchboard::derive::quantities;
use pitchboard::model::{Id, KINDS, Value, kinds};

/// What a printed formula comes to for an element; nothing where what it names is not known.
pub fn by_text(seen: &Seen<'_>, id: Id, text: &str, place: f64) -> Option<Told> {
    if let Some((name, word)) = text.split_once(" as stated, else ") {
        return Some(seen.word(id, name).unwrap_or(word).into());
    }
    if let Some(name) = text.strip_prefix("as stated in ") {
        let of = if seen.is_stated(id, name) { id } else { seen.flight(id)? };
        return item(&seen.list(of, name)?, seen.nth(id)?).map(Told::from);
    }
    let (body, names) = text.split_once(", with ").unwrap_or((text, ""));
    let mut reader = Reader { seen, id, place, rest: names, names: Vec::new() };
    while !reader.rest.is_empty() {
        let (name, rest) = reader.rest.split_once(" = ").unwrap_or_else(|| panic!("`{text}`"));
        reader.rest = rest;
        let value = reader.sum()?;
        reader.names.push((name, value));
        reader.takes(", ");
    }
    reader.rest = body;
    if let Some(word) = reader.only_word() {
        return Some(word);
    }
    let value = reader.sum()?;
    assert_eq!(reader.rest, "", "left of `{text}`");
    Some(value.into())
}

struct Reader<'t, 'd> {
    seen: &'t Seen<'d>,
    id: Id,
    place: f64,
    rest: &'t str,
    names: Vec<(&'t str, f64)>,
}

/// The item of a list for a step, counted from 1.
fn item(list: &[f64], nth: usize) -> Option<f64> {
    if list.len() == 1 { list.first().copied() } else { list.get(nth - 1).copied() }
}

fn spread(values: &[f64]) -> f64 {
    largest(values) - values.iter().copied().reduce(f64::min).unwrap_or(0.0)
}

fn largest(values: &[f64]) -> f64 {
    values.iter().copied().reduce(f64::max).unwrap_or(0.0)
}

impl<'t> Reader<'t, '_> {
    fn takes(&mut self, text: &str) -> bool {
        let rest = self.rest.strip_prefix(text);
        self.rest = rest.unwrap_or(self.rest);
        rest.is_some()
    }

    fn must(&mut self, text: &str) {
        assert!(self.takes(text), "`{text}` lacks before `{}`", self.rest);
    }

    /// A quantity that is a word, alone.
    fn only_word(&self) -> Option<Told> {
        let (name, of) = self
            .rest
            .split_once(" of the joint")
            .map_or((self.rest, self.id), |(name, _)| (name, self.seen.element(self.id).parent.unwrap_or_default()));
        self.seen.derived_word(of, name).map(Told::Word)
    }

    fn sum(&mut self) -> Option<f64> {
        let mut value = self.product()?;
        loop {
            if self.takes(" + ") {
                value += self.product()?;
            } else if self.takes(" - ") {
                value -= self.product()?;
            } else {
                return Some(value);
            }
        }
    }

    fn product(&mut self) -> Option<f64> {
        let mut value = self.square()?;
        loop {
            if self.takes(" x ") {
                value *= self.square()?;
            } else if self.takes(" / ") {
                value /= self.square()?;
            } else {
                return Some(value);
            }
        }
    }

    fn square(&mut self) -> Option<f64> {
        let value = self.single()?;
        Some(if self.takes("^2") { value * value } else { value })
    }

    fn closed(&mut self) -> Option<f64> {
        let value = self.sum()?;
        self.must(")");
        Some(value)
    }

    fn of_two(&mut self, which: fn(f64, f64) -> f64) -> Option<f64> {
        let first = self.sum()?;
        self.must(" and ");
        Some(which(first, self.sum()?))
    }

    fn single(&mut self) -> Option<f64> {
        let digits = self.rest.find(|c: char| !c.is_ascii_digit()).unwrap_or(self.rest.len());
        if digits > 0 {
            let (number, rest) = self.rest.split_at(digits);
            self.rest = rest;
            return number.parse().ok();
        }
        if self.takes("(") {
            return self.closed();
        } else if self.takes("sqrt(") {
            return self.closed().map(f64::sqrt);
        } else if self.takes("sin(") {
            return self.closed().map(|degrees| (degrees * std::f64::consts::PI / 180.0).sin());
        } else if self.takes("atan(") {
            // Nothing over nothing is a flight of one riser, which leads nowhere up from its nosing.
            let tangent = self.closed().map(|tangent| if tangent.is_nan() { 0.0 } else { tangent });
            return tangent.map(|tangent| tangent.atan() * 180.0 / std::f64::consts::PI);
        } else if self.takes("lesser of ") {
            return self.of_two(f64::min);
        } else if self.takes("greater of ") {
            return self.of_two(f64::max);
        }
        if self.begins_with("pi") {
            self.must("pi");
            return Some(std::f64::consts::PI);
        }
        if let Some((name, value)) = self.names.iter().find(|(name, _)| self.begins_with(name)) {
            self.rest = &self.rest[name.len()..];
            return Some(*value);
        }
        self.of_several().or_else(|| self.one(self.id))
    }

    fn begins_with(&self, name: &str) -> bool {
        let after = self.rest.strip_prefix(name);
        after.is_some_and(|after| !after.starts_with(char::is_alphanumeric))
    }

    /// `sum of risers`, `largest nosing of each tread`, `each handrail, counted`, `first of risers`.
    fn of_several(&mut self) -> Option<f64> {
        let begin = self.rest;
        if begin.starts_with("each ") {
            let count = self.things()?.len();
            self.must(", counted");
            return Some(count as f64);
        }
        if let Some((list, rest)) = begin.split_once(", counted").filter(|(list, _)| self.list(list).is_some()) {
            self.rest = rest;
            return Some(self.list(list)?.len() as f64);
        }
        for (prefix, fold) in [
            ("sum of ", (|values| values.iter().sum()) as fn(&[f64]) -> f64),
            ("mean of ", |values| values.iter().sum::<f64>() / values.len() as f64),
            ("largest of ", largest),
            ("smallest of ", |values| largest(values) - spread(values)),
            ("first of ", |values| values[0]),
            ("last of ", |values| values[values.len() - 1]),
            ("largest ", largest),
        ] {
            if !self.takes(prefix) {
                continue;
            }
            if let Some(value) = self.of_list(fold) {
                return Some(value);
            }
            return self.of_each(fold);
        }
        None
    }

    fn of_list(&mut self, fold: fn(&[f64]) -> f64) -> Option<f64> {
        let mut names = KINDS.iter().flat_map(|kind| kind.properties).map(|property| property.name);
        let name = names.find(|name| self.begins_with(name) && self.list(name).is_some())?;
        let list = self.list(name)?;
        self.rest = &self.rest[name.len()..];
        if self.takes(" - the first") {
            return Some(fold(&list[1..]));
        }
        if self.takes(" up to this one") {
            return Some(fold(&list[..self.seen.nth(self.id)?]));
        }
        Some(fold(&list))
    }

    /// A list of the element, or of its flight.
    fn list(&self, name: &str) -> Option<Vec<f64>> {
        self.seen.list(self.id, name).or_else(|| self.seen.list(self.seen.flight(self.id)?, name))
    }

    /// `rise of each flight`, `run - smallest run of each tread`: what is read of each stands before them.
    fn of_each(&mut self, fold: fn(&[f64]) -> f64) -> Option<f64> {
        let at = self.rest.find(" of each ").unwrap_or_else(|| panic!("`{}` is of nothing", self.rest));
        let (read, rest) = self.rest.split_at(at);
        self.rest = rest.strip_prefix(" of ")?;
        let things = self.things()?;
        let (read, fold) = match read.split_once(" - smallest ") {
            Some((largest, smallest)) => {
                assert_eq!(largest, smallest);
                (largest, spread as fn(&[f64]) -> f64)
            }
            None => (read, fold),
        };
        let mut values = Vec::new();
        for id in things {
            let mut of_one = Reader { seen: self.seen, id, place: self.place, rest: read, names: Vec::new() };
            values.push(of_one.sum()?);
            assert_eq!(of_one.rest, "");
        }
        Some(fold(&values))
    }

    /// The things that a text names, each found in the drawing by plain code.
    fn things(&mut self) -> Option<Vec<Id>> {
        let (seen, id) = (self.seen, self.id);
        let flights: Vec<Id> = seen.design.of_kind(kinds::FLIGHT).collect();
        let treads = seen.of(kinds::TREAD, seen.flight(id).unwrap_or(id));
        let shaped = |shape: &str| {
            let is = |tread: &Id| seen.derived_word(*tread, "shape").as_deref() == Some(shape);
            treads.iter().copied().filter(is).collect::<Vec<Id>>()
        };
        let landings = || seen.design.of_kind(kinds::LANDING);
        Some(if self.takes("each flight below") {
            flights.into_iter().filter(|flight| *flight < id).collect()
        } else if self.takes("each flight it joins") {
            let below = flights.iter().rev().find(|flight| **flight < id);
            let above = flights.iter().find(|flight| **flight > id);
            let joined = match seen.name(id) {
                "bottom" => vec![flights.first()],
                "top" => vec![flights.last()],
                _ => vec![below, above],
            };
            joined.into_iter().flatten().copied().collect()
        } else if self.takes("each flight") {
            flights
        } else if self.takes("each landing between") {
            let lower = |landing: &Id| seen.name(*landing).to_lowercase();
            landings().filter(|landing| !["top", "bottom"].contains(&lower(landing).as_str())).collect()
        } else if self.takes("each rectangular tread") {
            shaped("rectangular")
        } else if self.takes("each winder") {
            shaped("winder")
        } else if self.takes("each tread") {
            treads
        } else if self.takes("each side with a handrail") {
            let mut sides = std::collections::BTreeSet::new();
            let rails = seen.of(kinds::HANDRAIL, id).into_iter();
            rails.filter(|rail| seen.element(*rail).side.is_none_or(|side| sides.insert(side))).collect()
        } else if self.takes("each widest handrail of a side") {
            let mut rails = seen.of(kinds::HANDRAIL, id);
            let takes = |rail: &Id| seen.derived_number(*rail, "projection");
            rails.iter().try_for_each(|rail| takes(rail).map(|_| ()))?;
            rails.sort_by(|a, b| takes(b).partial_cmp(&takes(a)).unwrap_or(std::cmp::Ordering::Equal));
            let mut sides = std::collections::BTreeSet::new();
            rails.retain(|rail| seen.element(*rail).side.is_none_or(|side| sides.insert(side)));
            rails
        } else if self.takes("each ground") {
            seen.design.of_kind(kinds::GROUND).filter(|ground| seen.number(*ground, "below").is_some()).collect()
        } else {
            panic!("`{}` are unknown things", self.rest)
        })
    }

    /// One name, or a way of the section.
    fn one(&mut self, id: Id) -> Option<f64> {
        for way in ["the smaller way of section", "the larger way of section"] {
            if !self.takes(way) {
                continue;
            }
            let of = if self.takes(" of any riser board on it") { self.board_on(id) } else { Some(id) };
            let Some(of) = of else { return Some(0.0) };
            let Value::Section(section) = self.seen.value(of, "section")? else { return None };
            let (a, b) = (section.thickness, section.depth);
            return Some(if way.contains("smaller") { a.min(b) } else { a.max(b) });
        }
        self.named(id)
    }

    /// The first riser board of a tread's flight, unless it stands behind the tread.
    fn board_on(&self, tread: Id) -> Option<Id> {
        let board = *self.seen.of(kinds::RISER_BOARD, self.seen.flight(tread)?).first()?;
        (self.seen.word(board, "stands") != Some("behind tread")).then_some(board)
    }

    /// The longest name of a property or a quantity that stands here, of the first that has it: the element, its
    /// flight, the flight's first tread, the stair; or of what the text says.
    fn named(&mut self, id: Id) -> Option<f64> {
        let properties = KINDS.iter().flat_map(|kind| kind.properties).map(|property| property.name);
        let names = properties.chain(quantities().map(|entry| entry.name));
        let name = names.filter(|name| self.begins_with(name)).max_by_key(|name| name.len());
        let name = name.unwrap_or_else(|| panic!("`{}` names nothing", self.rest));
        self.rest = &self.rest[name.len()..];
        let flight = self.seen.flight(id);
        if self.takes(" of the joint") {
            return self.read(self.seen.element(id).parent?, name);
        }
        let first = flight.and_then(|flight| self.seen.of(kinds::TREAD, flight).first().copied());
        let has = |of: &Id| {
            let kind = self.seen.kind(*of);
            kind.property(name).is_some() || quantities().any(|entry| entry.kind == kind && entry.name == name)
        };
        let of = [Some(id), flight, first, Some(0)].into_iter().flatten().find(has);
        self.read(of.unwrap_or_else(|| panic!("nobody has `{name}`")), name)
    }

    fn read(&self, of: Id, name: &str) -> Option<f64> {
        let seen = self.seen;
        if let Some(Value::List(_)) = seen.value(of, name) {
            return item(&seen.list(of, name)?, seen.nth(of)?);
        }
        if let Some(stated) = seen.number(of, name) {
            return Some(stated);
        }
        if let Some(Told::Number(derived)) = seen.derived(of, name, Some(self.place)) {
            return Some(derived);
        }
        // What is not stated of a floor's finish is none: a custom.
        (name == "bottom finish" && !seen.is_stated(of, name)).then_some(0.0)
    }
}

//! Where a property means something: beside which others, and beside which it is read by nobody. One table.

use super::design::Element;
use super::kind::{Kind, PropertyName};
use super::value::Value;
use super::vocabulary::{ON_THE_TREADS, kinds, properties};

/// A property of the same thing, and which of its words; any value where none is named.
pub type Beside = (PropertyName, &'static [&'static str]);

/// One property that means something only beside others.
#[derive(Debug)]
pub struct OnlyWhere {
    /// The kind that it is stated of.
    pub kind: &'static Kind,
    /// The property.
    pub property: PropertyName,
    /// The only words of it that mean something of their own; any, where none is named.
    pub words: &'static [&'static str],
    /// Beside any of these it means something.
    pub means: &'static [Beside],
    /// Beside any of these it means nothing; where none is named, beside whatever is not above.
    pub against: &'static [Beside],
}

const fn only(
    kind: &'static Kind,
    property: PropertyName,
    means: &'static [Beside],
    against: &'static [Beside],
) -> OnlyWhere {
    OnlyWhere { kind, property, words: &[], means, against }
}

const PANES: &[Beside] = &[(properties::INFILL, &["panels", "glass", "solid"])];
const NO_PANES: &[Beside] = &[
    (properties::BALUSTERS, &[]),
    (properties::RAILS, &[]),
    (properties::CABLES, &[]),
    (properties::INFILL, &["balusters", "rails", "cables", "wall", "open"]),
];
const NO_CABLES: &[Beside] = &[
    (properties::BALUSTERS, &[]),
    (properties::RAILS, &[]),
    (properties::INFILL, &["balusters", "rails", "panels", "glass", "solid", "wall", "open"]),
];
const NO_RAILS: &[Beside] = &[
    (properties::BALUSTERS, &[]),
    (properties::CABLES, &[]),
    (properties::INFILL, &["balusters", "cables", "panels", "glass", "solid", "wall", "open"]),
];
const NO_BALUSTERS: &[Beside] = &[
    (properties::RAILS, &[]),
    (properties::CABLES, &[]),
    (properties::INFILL, &["rails", "cables", "panels", "glass", "solid", "wall", "open"]),
];

/// Every such property, by kind.
pub static ONLY_WHERE: &[OnlyWhere] = &[
    only(kinds::STAIR, properties::FRONT_FOOT, &[], &[(properties::STANDING, &["anchored"])]),
    only(kinds::STAIR, properties::SNOW, &[], &[(properties::SETTING, &["indoors"])]),
    only(kinds::SPACE_BELOW, properties::REACHED_FROM, &[], &[(properties::ACCESS, &["none"])]),
    only(
        kinds::STRINGER,
        properties::HEAD_BEARING,
        &[],
        &[(properties::HEAD, &["hanger", "bolts", "screws", "framing angle", "nails", "toenails", "nothing"])],
    ),
    only(kinds::GUARD, properties::PANEL_GAP, PANES, NO_PANES),
    only(kinds::GUARD, properties::GLASS, &[(properties::INFILL, &["glass", "panels"])], NO_PANES),
    only(kinds::GUARD, properties::GIVE, &[(properties::CABLES, &[]), (properties::INFILL, &["cables"])], NO_CABLES),
    only(kinds::GUARD, properties::RAILS_LIE, &[(properties::RAILS, &[]), (properties::INFILL, &["rails"])], NO_RAILS),
    only(
        kinds::GUARD,
        properties::BALUSTER_CUT,
        &[(properties::BALUSTERS, &[]), (properties::INFILL, &["balusters"])],
        NO_BALUSTERS,
    ),
    only(
        kinds::GUARD,
        properties::BALUSTER_FEET,
        &[(properties::BALUSTERS, &[]), (properties::INFILL, &["balusters"])],
        NO_BALUSTERS,
    ),
    only(
        kinds::GUARD,
        properties::LET_IN,
        &[(properties::BALUSTER_FEET, &["dovetailed", "housed", "pinned"])],
        &[(properties::BALUSTER_FEET, &[ON_THE_TREADS, "face-fixed"])],
    ),
    only(kinds::GUARD, properties::TOE_BOARD_GAP, &[(properties::TOE_BOARD, &[])], &[]),
    OnlyWhere {
        words: &["yes"],
        ..only(
            kinds::JOINT,
            properties::TOE_NAILED,
            &[(properties::NAILS, &[])],
            &[(properties::BOLTS, &[]), (properties::LAGS, &[]), (properties::SCREWS, &[])],
        )
    },
    OnlyWhere {
        words: &["nut side", "both sides"],
        ..only(kinds::JOINT, properties::WASHERS, &[], &[(properties::SCREWS, &[]), (properties::NAILS, &[])])
    },
    only(
        kinds::JOINT,
        properties::PLATE,
        &[(properties::BOLTS, &[])],
        &[(properties::LAGS, &[]), (properties::SCREWS, &[]), (properties::NAILS, &[])],
    ),
    only(kinds::JOINT, properties::HOLD_DOWN_BY, &[(properties::HOLD_DOWN, &[])], &[]),
];

/// Whether a thing states a property, as one of these words where any is named. What was not understood may be.
fn states(thing: &Element, (property, words): &Beside) -> bool {
    thing.stated(*property).is_some_and(|stated| match &stated.value {
        Some(Value::Word(word)) => words.is_empty() || words.iter().any(|one| one == word),
        Some(_) => words.is_empty(),
        None => true,
    })
}

impl OnlyWhere {
    /// The property beside which this one means nothing, as it is stated of a thing; nothing where it means something,
    /// or nobody can say. The first of those beside which it would, where it stands alone.
    pub fn read_past(&self, thing: &Element) -> Option<Option<PropertyName>> {
        let stated = thing.stated(self.property).filter(|_| thing.kind == self.kind)?;
        let says = match &stated.value {
            Some(Value::Word(word)) => self.words.is_empty() || self.words.iter().any(|one| one == word),
            // Nothing is nothing wherever it stands: no snow indoors.
            Some(Value::Measure(measure)) => measure.value != 0.0,
            Some(_) => true,
            None => false,
        };
        if !says || self.means.iter().any(|beside| states(thing, beside)) {
            return None;
        }
        if self.against.is_empty() {
            return Some(None);
        }
        let understood = |property| thing.stated(property).is_some_and(|stated| stated.value.is_some());
        let against = self.against.iter().find(|beside| understood(beside.0) && states(thing, beside));
        against.map(|(property, _)| Some(*property))
    }
}

#[cfg(test)]
mod tests {
    use super::ONLY_WHERE;

    #[test]
    fn every_row_is_of_properties_of_its_kind_each_once() {
        for (at, row) in ONLY_WHERE.iter().enumerate() {
            let kind = row.kind;
            assert!(kind.has(row.property).is_some(), "{kind:?} {:?}", row.property);
            assert!(!row.means.is_empty() || !row.against.is_empty(), "{:?}", row.property);
            for (property, words) in row.means.iter().chain(row.against) {
                let property = kind.has(*property).expect("a property of the kind");
                let takes = match property.takes {
                    crate::model::Takes::OneOf(takes) => takes,
                    _ => &[],
                };
                assert!(words.iter().all(|word| takes.contains(word)), "{} {words:?}", property.name);
            }
            let twice =
                ONLY_WHERE.iter().skip(at + 1).any(|other| other.kind == kind && other.property == row.property);
            assert!(!twice, "{:?} stands twice", row.property);
        }
    }
}

//! Customs that stand in for what is not stated, and which of them lie behind a value.

use crate::measure::{Dimension, Measure};
use crate::mechanics::Assumption;

/// A custom that stands in for what is not stated, in the one closed list of them.
#[derive(Debug, PartialEq, Eq)]
pub struct Custom {
    /// What is taken to be so.
    pub sentence: &'static str,
}

/// Every customary default. A report lists the ones it used.
pub static CUSTOMS: &[Custom] = &[
    Custom {
        sentence: "No `ground` is drawn: the ground beside the stair is taken as level with the floor at its foot.",
    },
    Custom { sentence: "No `bottom finish` is stated: no floor finish is taken to be still to come at the foot." },
    Custom { sentence: "No `boards` is stated: each tread is taken as one board." },
    Custom { sentence: "No `nosing` of the landing above is stated: its edge is taken as even with the treads'." },
    Custom { sentence: "No `slope` of the `ground` is stated: it is taken as level beside the stair." },
    Custom { sentence: "Timber outdoors is taken as wet in service." },
    Custom { sentence: "Timber indoors is taken as dry in service." },
    Custom { sentence: "Wood is taken as dry when its joints were made." },
    Custom {
        sentence: "Loads are taken to last: the live load and 300 lb on a tread ten years, snow two months, a push on a \
                   guard ten minutes.",
    },
    Custom { sentence: "A board under 2 in thick is taken to be as stiff as No.2 lumber of its species." },
    Custom { sentence: "No part is taken to grow warmer than 100 °F." },
    Custom { sentence: "Treated timber of a species that takes it badly is taken as incised." },
    Custom { sentence: "The thread of a fastener is taken to lie in the shear plane." },
    Custom { sentence: "Nails and screws are taken to be driven without a hole." },
    Custom {
        sentence: "The dead load is what treads, riser boards and stringers weigh, and at least 10 psf; rails, guards and \
            finishes are in none but those 10 psf.",
    },
    Custom { sentence: "Wood is taken to weigh what it does at 19 % of moisture indoors, at 30 % outdoors." },
    Custom { sentence: "Snow is taken to lie on the steps as it is stated, drifts and all." },
    Custom {
        sentence: "No `span` of a stringer is stated: it is taken as held up at foot and head, over the run of its flight.",
    },
    Custom {
        sentence: "No `leads on` of a landing is stated, and nothing is drawn at its far side: one is taken to go on there, \
                   where nobody falls.",
    },
    Custom { sentence: "No `toe-nailed` is stated: nails are taken as driven square to the wood." },
    Custom {
        sentence: "The dead load of a landing is what its joists and its deck weigh, the deck taken as heavy as their \
            timber, and at least 10 psf.",
    },
    Custom { sentence: "No `top finish` is stated: no floor finish is taken to be still to come at the head." },
    Custom {
        sentence: "No `from riser` or no `to riser` of a handrail is stated: there it is taken to follow every step.",
    },
    Custom {
        sentence: "A post is taken as held at both its ends against moving sideways: by the building, or by braces both ways.",
    },
];

const CUSTOMS_KNOWN: usize = 24;

/// A row of the list, by its place in it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CustomId(u8);

impl CustomId {
    pub(super) const LEVEL_GROUND: Self = Self(0);
    pub(super) const NO_FINISH: Self = Self(1);
    pub(super) const ONE_BOARD: Self = Self(2);
    pub(super) const EVEN_NOSING: Self = Self(3);
    pub(super) const LEVEL_BESIDE: Self = Self(4);

    pub(super) const OVER_THE_RUN: Self = Self(17);
    pub(super) const LEADS_ON_AT_THE_FAR_SIDE: Self = Self(18);
    pub(super) const SQUARE_NAILS: Self = Self(19);
    pub(super) const DECK_AS_JOISTS: Self = Self(20);
    pub(super) const NO_FINISH_ABOVE: Self = Self(21);
    pub(super) const RAIL_ALONG_ITS_FLIGHT: Self = Self(22);

    /// What the mechanics assumed.
    pub(super) fn of(assumption: Assumption) -> Self {
        Self(match assumption {
            Assumption::WetOutdoors => 5,
            Assumption::DryIndoors => 6,
            Assumption::MadeDry => 7,
            Assumption::LoadDuration => 8,
            Assumption::StiffnessOfSpecies => 9,
            Assumption::OrdinaryTemperature => 10,
            Assumption::Incised => 11,
            Assumption::ThreadInShearPlane => 12,
            Assumption::NotBored => 13,
            Assumption::OwnWeight => 14,
            Assumption::HeavyWithWater => 15,
            Assumption::SnowAsStated => 16,
            Assumption::HeldInPlace => 23,
        })
    }

    /// The row.
    pub fn custom(self) -> Option<&'static Custom> {
        CUSTOMS.get(usize::from(self.0))
    }
}

/// In which units the lengths and forces behind a value are written. Nothing at all has no unit to speak of.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub enum Units {
    /// There are none.
    #[default]
    None = 0,
    /// All in metric units.
    Metric = 1,
    /// All in inches, pounds.
    Customary = 2,
    /// Some in these, some in those.
    Mixed = 3,
}

impl Units {
    /// How a number is written.
    pub(super) fn of(measure: &Measure) -> Self {
        let Dimension { length, force, .. } = measure.dimension;
        match measure.style.is_metric() {
            _ if length == 0 && force == 0 || measure.value == 0.0 => Units::None,
            true => Units::Metric,
            false => Units::Customary,
        }
    }

    /// Those of two values together.
    #[must_use]
    pub fn and(self, other: Units) -> Self {
        // Each way of writing has a bit of its own.
        match self as u8 | other as u8 {
            0 => Units::None,
            1 => Units::Metric,
            2 => Units::Customary,
            _ => Units::Mixed,
        }
    }
}

/// What lies behind a value, as far as it is kept without a trace: the customs it rests on, in the order of their
/// first use, whether anything measured was read for it, and in which units.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Behind {
    /// A custom's place in the list plus one; nothing after the last.
    customs: [u8; CUSTOMS_KNOWN],
    /// Something measured was read.
    pub measured: bool,
    /// How the lengths that were read are written.
    pub units: Units,
}

impl Behind {
    /// What lies behind something that was read, of which only the units are known.
    pub(super) fn of(units: Units) -> Self {
        Self { units, ..Self::default() }
    }

    /// The customs, in the order of their first use.
    pub fn customs(self) -> impl Iterator<Item = CustomId> {
        self.customs.into_iter().filter_map(|custom| custom.checked_sub(1)).map(CustomId)
    }

    pub(super) fn uses(&mut self, custom: CustomId) {
        let wanted = custom.0 + 1;
        if let Some(place) = self.customs.iter_mut().find(|place| **place == 0 || **place == wanted) {
            *place = wanted;
        }
    }

    /// Whether there is nothing that is kept.
    #[inline]
    pub fn is_empty(self) -> bool {
        !self.measured && self.customs == [0; CUSTOMS_KNOWN] && self.units == Units::None
    }

    /// Takes in what lies behind another value that was read.
    #[inline]
    pub fn add(&mut self, other: Behind) {
        if other.customs != [0; CUSTOMS_KNOWN] {
            other.customs().for_each(|custom| self.uses(custom));
        }
        self.measured |= other.measured;
        self.units = self.units.and(other.units);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn customs_keep_the_order_of_their_first_use() {
        let (mut some, mut more) = (Behind::default(), Behind::default());
        assert_eq!(CUSTOMS.len(), some.customs.len(), "a place for each");
        some.uses(CustomId::ONE_BOARD);
        more.uses(CustomId::EVEN_NOSING);
        more.uses(CustomId::ONE_BOARD);
        some.add(more);
        some.uses(CustomId::LEVEL_GROUND);
        some.uses(CustomId::NO_FINISH);
        some.uses(CustomId::LEVEL_BESIDE);
        let order: Vec<CustomId> = some.customs().collect();
        use CustomId as Id;
        assert_eq!(order, [Id::ONE_BOARD, Id::EVEN_NOSING, Id::LEVEL_GROUND, Id::NO_FINISH, Id::LEVEL_BESIDE]);
        assert_eq!(usize::from(CustomId::of(Assumption::HeldInPlace).0) + 1, CUSTOMS.len(), "the last row");
    }
}

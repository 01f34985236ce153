//! What is missing: whether it is not there at all, or may be stated all the same.

use super::evaluation::Evaluation;
use super::missing::{Drawing, Method, Missing, Reason, Statement};
use crate::model::{Element, Id, PropertyName, Value, kinds, properties};

impl Missing {
    /// Whether nothing is to be said where this is missing: no neighbour stands there, or nothing was measured.
    pub fn is_of_nothing(&self) -> bool {
        matches!(self.reason, Reason::NoNeighbour(_) | Reason::NotMeasured)
    }
}

impl Evaluation<'_> {
    /// Whether what is missing is not there at all, and no words that were not understood may have said it.
    pub fn is_absent(&self, missing: &Missing) -> bool {
        let design = self.design;
        let spoilt = |element: &Element| !element.is_understood();
        let of_unread_kind = |element: &Element| design.unread.contains(&element.kind);
        // What a joint says of a member may stand in words of the joint that were not understood.
        let of_spoilt_joint = |element: &Element| {
            let joint = element.parent.filter(|_| element.kind == kinds::MEMBER).and_then(|joint| design.get(joint));
            joint.is_some_and(|joint| joint.not_understood.is_some())
        };
        let unclear = |element: &Element| spoilt(element) || of_unread_kind(element) || of_spoilt_joint(element);
        if design.get(missing.element).is_some_and(unclear) {
            return false;
        }
        match missing.reason {
            Reason::NotStated(Statement::OfBlock(_, kind)) | Reason::NotDrawn(Drawing::A(kind)) => {
                !design.unread.contains(&kind)
            }
            // Where several stand there it is one of them.
            Reason::NotDrawn(Drawing::TheOne(kind)) => {
                !design.unread.contains(&kind) && design.belonging(kind, missing.element).nth(1).is_none()
            }
            // A joint that names nothing drawn may be the one.
            Reason::NotDrawn(Drawing::JointThatHolds) => {
                let sound = |joint: Id| self.joins_what_is_drawn(joint);
                !design.unread.contains(&kinds::JOINT) && design.of_kind(kinds::JOINT).all(sound)
            }
            // What stands at no side that is known stands at one all the same.
            Reason::NotDrawn(Drawing::MemberJoined | Drawing::SideOf(_)) => false,
            // Of a list that stops short a part is stated.
            Reason::NotStated(Statement::Property(property)) if self.is_a_list(missing.element, property) => false,
            // Of fasteners that are spaced along the grain it is open how they are spaced across it.
            Reason::NotStated(Statement::Property(properties::ROW_SPACING)) => {
                self.looked_up(missing.element, properties::SPACING).is_none()
            }
            Reason::NotStated(Statement::OfMember(..) | Statement::Property(properties::JOINS)) => {
                self.joins_what_is_drawn(missing.element)
            }
            // It may stand in words of a section of the design's own that were not understood.
            Reason::NotStated(Statement::OfSection(_) | Statement::Property(properties::EDGE)) => {
                !design.of_kind(kinds::SECTION).filter_map(|id| design.get(id)).any(spoilt)
            }
            Reason::NotDrawn(_) => design.unread.is_empty(),
            // What is stated of a stair that turns, and held against nothing, is told.
            Reason::Outside(Method::FlightsInLine) => false,
            Reason::NotStated(_) | Reason::Outside(_) => true,
            _ => false,
        }
    }

    fn is_a_list(&self, id: Id, property: PropertyName) -> bool {
        let stated = self.looked_up(id, property).and_then(|stated| stated.value.as_ref());
        matches!(stated, Some(Value::List(_)))
    }

    /// Of what is missing of two things alike, what to tell: the first, but for what may be stated all the same, which goes
    /// before what is not there at all. So it counts for nothing which of them is drawn first.
    pub(super) fn graver(&self, first: Option<Missing>, second: Missing) -> Option<Missing> {
        let weight = |missing: &Missing| match missing {
            nothing if nothing.is_of_nothing() => 0,
            absent if self.is_absent(absent) => 1,
            _ => 2,
        };
        Some(match first {
            Some(first) if weight(&first) >= weight(&second) => first,
            _ => second,
        })
    }

    /// Visits every one of several things alike, and gives the gravest of what is missing of them.
    ///
    /// # Errors
    /// What a visit failed on, after all of them.
    pub(super) fn each(
        &self,
        things: impl IntoIterator<Item = Id>,
        visit: impl FnMut(Id) -> Result<(), Missing>,
    ) -> Result<(), Missing> {
        let missed = things.into_iter().map(visit).filter_map(Result::err);
        missed.fold(None, |first, second| self.graver(first, second)).map_or(Ok(()), Err)
    }

    /// Whether everything that a joint names is drawn; that it is not was reported.
    fn joins_what_is_drawn(&self, joint: Id) -> bool {
        let design = self.design;
        let stated = self.looked_up(joint, properties::JOINS).and_then(|stated| stated.value.as_ref());
        let Some(Value::Names(names)) = stated else { return true };
        let drawn = |name: &str| design.elements.iter().any(|other| other.can_be_joined() && other.goes_by(name));
        names.iter().all(|(name, _)| drawn(name))
    }
}

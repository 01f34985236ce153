//! Properties whose word takes rules out or lowers what they ask, and which nothing else of a drawing bears out.

use super::kind::PropertyName;
use super::vocabulary::properties;

/// Those of them that no quantity is derived from: only a rule that asks for one by its name rests on it.
pub const ASKED_BY_NAME: &[PropertyName] = &[properties::STANDING, properties::EGRESS];

/// Whoever states one of these is taken at his word: a report says which rules that took out.
///
/// The words of the vocabulary that do so and are held against the drawing stand in `build/claims.rs`. What a stair is
/// for (`use`, `access`, `setting`, `accessible`) chooses its rules, and is no excuse; nor is what a thing
/// is made as (`cut`, `infill`, `section`), which is the drawing itself.
pub const EXCUSES: &[PropertyName] = &[
    properties::CONTINUES,
    properties::OPEN_SIDES,
    properties::OVER,
    properties::PLAN,
    properties::SPIRAL,
    properties::SHIP,
    properties::SWING,
    properties::STANDING,
    properties::EGRESS,
    properties::SPAN,
];

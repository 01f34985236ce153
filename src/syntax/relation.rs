//! Comparison signs.

/// A comparison sign.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Relation {
    /// `<`
    Less,
    /// `<=`
    AtMost,
    /// `>`
    More,
    /// `>=`
    AtLeast,
    /// `=`
    Equal,
    /// `!=`
    Unequal,
}

impl Relation {
    /// The sign as it is written.
    pub fn sign(self) -> &'static str {
        match self {
            Relation::Less => "<",
            Relation::AtMost => "<=",
            Relation::More => ">",
            Relation::AtLeast => ">=",
            Relation::Equal => "=",
            Relation::Unequal => "!=",
        }
    }

    /// The relation seen from the other side: `a < b` is `b > a`.
    #[must_use]
    pub fn turned(self) -> Self {
        match self {
            Relation::Less => Relation::More,
            Relation::AtMost => Relation::AtLeast,
            Relation::More => Relation::Less,
            Relation::AtLeast => Relation::AtMost,
            same => same,
        }
    }

    /// The relation that a sign of the grammar stands for.
    pub(super) fn of(sign: &str) -> Self {
        match sign {
            "<" => Relation::Less,
            "<=" | "≤" => Relation::AtMost,
            ">" => Relation::More,
            ">=" | "≥" => Relation::AtLeast,
            "=" => Relation::Equal,
            _ => Relation::Unequal,
        }
    }
}

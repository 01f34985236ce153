//! Where a figure is from, and how sure it is.

/// How far a figure can be trusted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Certainty {
    /// From memory alone.
    Memory,
    /// From memory, and a printed table or span comes out by it.
    Reproduced,
    /// Worked out from other figures.
    Derived,
    /// It was seen on a page that prints it.
    Seen,
    /// The user states it.
    Stated,
}

impl Certainty {
    /// The word that a table marks it with.
    pub fn word(self) -> &'static str {
        match self {
            Self::Memory => "memory",
            Self::Reproduced => "reproduced",
            Self::Derived => "derived",
            Self::Seen => "seen",
            Self::Stated => "stated",
        }
    }

    /// That of a table's word.
    pub fn of(word: &str) -> Option<Self> {
        [Self::Memory, Self::Reproduced, Self::Derived, Self::Seen].into_iter().find(|one| one.word() == word)
    }
}

/// Where a figure is from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Cited {
    /// The document, and its table or clause.
    pub source: &'static str,
    /// Its edition; empty where the source has none.
    pub edition: &'static str,
    /// How sure the figure is.
    pub certainty: Certainty,
}

impl Cited {
    /// What only statics or geometry stands behind.
    pub const fn derived(source: &'static str) -> Self {
        Self { source, edition: "", certainty: Certainty::Derived }
    }

    /// A clause of the NDS of 2018 that was seen.
    pub const fn seen(source: &'static str) -> Self {
        Self { source, edition: "2018", certainty: Certainty::Seen }
    }

    /// A clause of the NDS of 2018, from memory, by which a printed table comes out.
    pub const fn reproduced(source: &'static str) -> Self {
        Self { source, edition: "2018", certainty: Certainty::Reproduced }
    }

    /// A clause of the NDS of 2018 from memory alone.
    pub const fn memory(source: &'static str) -> Self {
        Self { source, edition: "2018", certainty: Certainty::Memory }
    }

    /// What the user states.
    pub const STATED: Self = Self { source: "as stated", edition: "", certainty: Certainty::Stated };
}

//! What fails a run: levels, as a shop's file and the command line name them.

#[cfg(feature = "cli")]
use super::severity::Severity;

/// A level of what a run comes to, of which a shop or a caller chooses those that fail it. What could not be checked at
/// all always does.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Level {
    /// A `shall` is broken.
    Broken,
    /// A `should` is not met.
    Advised,
    /// A `shall` could not be settled; a `should` too, where advice fails a run.
    NotChecked,
    /// A statement could not be read.
    NotUnderstood,
}

impl Level {
    /// Every one.
    pub const ALL: [Level; 4] = [Level::Broken, Level::Advised, Level::NotChecked, Level::NotUnderstood];
    /// The words for them, in their order, and the one for none.
    pub const WORDS: &[&str] = &["broken", "advised", "not checked", "not understood", "none"];

    /// The one that a word stands for.
    pub fn of(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|level| level.word() == word)
    }

    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Level::Broken => "broken",
            Level::Advised => "advised",
            Level::NotChecked => "not checked",
            Level::NotUnderstood => "not understood",
        }
    }
}

/// The levels that fail a run.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Levels(u8);

impl Default for Levels {
    /// What is broken, and what was not understood.
    fn default() -> Self {
        Self::NONE.with(Level::Broken).with(Level::NotUnderstood)
    }
}

impl Levels {
    /// Nothing fails a run but what could not be checked at all.
    pub const NONE: Self = Self(0);

    /// The same and one more.
    #[must_use]
    pub const fn with(self, level: Level) -> Self {
        Self(self.0 | 1 << level as u8)
    }

    /// Those of either.
    #[must_use]
    pub const fn and(self, other: Self) -> Self {
        Self(self.0 | other.0)
    }

    /// Whether a level is among them.
    pub const fn hold(self, level: Level) -> bool {
        self.0 & 1 << level as u8 != 0
    }

    /// Whether what is found fails a run, by how grave it is.
    #[cfg(feature = "cli")]
    pub const fn fail(self, severity: Severity) -> bool {
        match severity {
            Severity::Unchecked => true,
            Severity::NotUnderstood => self.hold(Level::NotUnderstood),
            Severity::Broken => self.hold(Level::Broken),
            Severity::Advised => self.hold(Level::Advised),
        }
    }

    /// Those that words name; `none` names none. Nothing where a word is none of theirs, or `none` is not alone.
    pub fn of<'w>(words: impl IntoIterator<Item = &'w str>) -> Option<Self> {
        let words: Vec<&str> = words.into_iter().collect();
        if words == ["none"] {
            return Some(Self::NONE);
        }
        let levels = words.iter().map(|word| Level::of(word));
        let levels: Vec<Level> = levels.collect::<Option<_>>()?;
        (!levels.is_empty()).then(|| levels.into_iter().fold(Self::NONE, Self::with))
    }

    /// Their words, `none` where there are none.
    pub fn words(self) -> String {
        let words: Vec<&str> = Level::ALL.into_iter().filter(|level| self.hold(*level)).map(Level::word).collect();
        if words.is_empty() { "none".to_owned() } else { words.join(", ") }
    }
}

#[cfg(test)]
mod tests {
    use super::{Level, Levels};

    #[test]
    fn words_name_levels_and_levels_their_words() {
        assert_eq!(Levels::default().words(), "broken, not understood");
        assert_eq!(Levels::of(["none"]), Some(Levels::NONE));
        for none in [&["none", "broken"][..], &["brokn"], &[]] {
            assert_eq!(Levels::of(none.iter().copied()), None, "{none:?}");
        }
        for level in Level::ALL {
            let only = Levels::of([level.word()]).expect("it is one of them");
            assert_eq!(only.words(), level.word());
            assert!(Level::ALL.iter().all(|other| only.hold(*other) == (*other == level)));
            assert!(Level::WORDS.contains(&level.word()));
        }
        let more = Levels::default().and(Levels::NONE.with(Level::Advised));
        assert_eq!(more.words(), "broken, advised, not understood");
    }
}

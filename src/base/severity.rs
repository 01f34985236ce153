//! How grave what is found is.

/// How grave a diagnostic or a finding is, the gravest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Severity {
    /// A file or a set could not be checked at all.
    Unchecked,
    /// A statement that could not be understood; the rest of the file still counts.
    NotUnderstood,
    /// A `shall` is broken.
    Broken,
    /// A `should` is not met; advice, which decides no exit code.
    Advised,
}

impl Severity {
    /// The word that a report and a case file use.
    pub fn word(self) -> &'static str {
        match self {
            Severity::Unchecked => "unchecked",
            Severity::NotUnderstood => "not understood",
            Severity::Broken => "broken",
            Severity::Advised => "advised",
        }
    }
}

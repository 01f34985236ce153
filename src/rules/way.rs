//! Which way a rule is moved by what is changed of it.

/// What a difference does to what passes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Way {
    /// The second lets less pass.
    Tighter,
    /// The clause does not make it plain, or it decides nothing.
    Open,
    /// The second lets more pass.
    Looser,
}

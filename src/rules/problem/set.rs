//! What can be wrong with a set's file as a whole.

use crate::base::{HasNotice, Notice, Span};
use crate::model::Kind;
use crate::rules::refusal::SetRefusal;

/// A kind of block.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BlockKind {
    /// The heading.
    Ruleset,
    /// Rules that belong together.
    Chapter,
    /// A rule of the set's own.
    Rule,
    /// A change to a rule of the set below.
    Amend,
    /// A rule of the set below taken out.
    Withdraw,
    /// A figure that rules share.
    Figure,
}

impl BlockKind {
    /// Every kind.
    pub const ALL: [BlockKind; 6] = [
        BlockKind::Ruleset,
        BlockKind::Chapter,
        BlockKind::Rule,
        BlockKind::Amend,
        BlockKind::Withdraw,
        BlockKind::Figure,
    ];

    /// The word that opens such a block.
    pub fn word(self) -> &'static str {
        match self {
            BlockKind::Ruleset => "ruleset",
            BlockKind::Chapter => "chapter",
            BlockKind::Rule => "rule",
            BlockKind::Amend => "amend",
            BlockKind::Withdraw => "withdraw",
            BlockKind::Figure => "figure",
        }
    }

    /// The kind that a word opens.
    pub fn of(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| kind.word() == word)
    }
}

/// A problem of a set's file as a whole: its blocks, its heading, the set that it takes in.
#[derive(Debug, Clone, PartialEq)]
pub enum SetProblem {
    /// A property outside any block.
    PropertyOutside {
        /// As written.
        name: String,
        /// It belongs in the heading, not in a rule.
        of_heading: bool,
    },
    /// A property in a chapter.
    ChapterProperty {
        /// As written.
        name: String,
    },
    /// A line outside any rule that is no statement.
    NotAStatement(LineMeant),
    /// A clause outside any rule.
    ClauseOutside,
    /// A `where:` outside any amendment.
    ConditionOutside,
    /// A fragment outside any rule.
    FragmentOutside,
    /// A block of no known kind.
    UnknownBlock {
        /// The word that opens it.
        word: String,
        /// The word that was likely meant.
        near: Option<&'static str>,
        /// The title of the set, where the block was meant to head it.
        title: Option<String>,
    },
    /// Something stands after a block's name.
    SeveralNames {
        /// The block.
        block: BlockKind,
        /// What stands there.
        more: MoreNames,
    },
    /// A block without its name.
    Unnamed {
        /// The block.
        block: BlockKind,
    },
    /// A second heading.
    SecondHeading {
        /// The first.
        first: Span,
    },
    /// A property of the heading that is not known.
    HeadingProperty {
        /// As written.
        name: String,
        /// The property that was likely meant.
        near: Option<&'static str>,
    },
    /// The set goes by the title of the one below it.
    TitleOfBelow {
        /// The title.
        title: String,
    },
    /// A set that is not shipped goes by the title of one that is.
    TitleOfShipped {
        /// The title.
        title: String,
        /// The name of the shipped set.
        shipped: &'static str,
    },
    /// Several sets after `amends:`.
    SeveralBases,
    /// The set that is held with every design, which no other takes in.
    HeldAlways,
    /// The set below cannot be had.
    Refused(SetRefusal),
    /// Sets that amend one another.
    Circle {
        /// Their names, each amended by the one before it and the first by the last.
        sets: Vec<String>,
    },
    /// A file in which nothing is a block of a ruleset. It is not quoted: it may be anything.
    NotARuleset,
    /// One more set than may take one another in.
    TooDeep {
        /// The set's name.
        name: String,
    },
    /// A rule whose name is taken by another rule of the same text.
    RuleTwice {
        /// The name.
        name: String,
        /// The earlier one.
        first: Span,
    },
    /// A rule whose name is taken by a rule of a set below, or by an amended one.
    RuleOfBelow {
        /// The name.
        name: String,
        /// Title of the set that the earlier one came with.
        set: String,
    },
    /// A set without a rule.
    AsksNothing {
        /// How many rules of the sets below it withdraws.
        withdrawn: usize,
    },
    /// A purpose that is none.
    Purpose {
        /// As written.
        said: String,
        /// The purpose that was likely meant.
        near: Option<&'static str>,
    },
    /// A figure under the name that it went by before.
    FormerFigure {
        /// As written.
        was: String,
        /// As it is called now.
        now: String,
    },
    /// A former name that another rule of the set goes by, or went by too.
    FormerNameTaken {
        /// The name.
        name: String,
        /// A rule goes by it now, and did not only before.
        now: bool,
    },
    /// A rule without a clause.
    NoClause {
        /// Its name.
        rule: String,
    },
    /// A rule without a source.
    NoSource {
        /// Its name.
        rule: String,
    },
    /// A limit that hides a property or quantity of the same name.
    LimitHides {
        /// The limit.
        limit: String,
        /// The kind that has such a property or quantity.
        kind: &'static Kind,
    },
    /// A figure of the set that is not stated.
    NoFigure {
        /// Its name.
        figure: String,
    },
    /// A figure that the set has already.
    FigureTwice {
        /// Its name.
        figure: String,
        /// Title of the set that wrote it.
        set: String,
    },
    /// A figure that no set below has.
    NoSuchFigure {
        /// As written.
        figure: String,
        /// The figure that was likely meant.
        near: Option<String>,
        /// The figures that there are below.
        known: Vec<String>,
        /// Where this set has one of that name of its own.
        own: Option<Span>,
    },
    /// A figure that no rule reads.
    UnusedFigure {
        /// Its name.
        figure: String,
    },
    /// A limit that the clause does not read.
    UnusedLimit {
        /// The limit.
        limit: String,
    },
}

/// What a line outside any rule, which is no statement, was likely meant for.
#[derive(Debug, Clone, PartialEq)]
pub enum LineMeant {
    /// A block without its brace, and its name where it has one.
    Block(BlockKind, Option<String>),
    /// A block whose word is misspelt.
    Near(&'static str),
    /// Nothing that is known.
    Unknown,
}

/// What stands after a block's name.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MoreNames {
    /// A comma, so likely another name.
    Listed,
    /// Anything else, so likely more of the same name.
    Unquoted,
}

impl HasNotice for SetProblem {
    fn notice(&self) -> Notice {
        match self {
            SetProblem::PropertyOutside { .. }
            | SetProblem::ClauseOutside
            | SetProblem::ConditionOutside
            | SetProblem::FragmentOutside => Notice::WrongPlace,
            SetProblem::ChapterProperty { .. } | SetProblem::HeadingProperty { .. } => Notice::UnknownProperty,
            SetProblem::NotAStatement(_) => Notice::NotAStatement,
            SetProblem::UnknownBlock { .. } => Notice::UnknownKind,
            SetProblem::SeveralNames { .. } | SetProblem::SeveralBases | SetProblem::HeldAlways => Notice::WrongValue,
            SetProblem::Unnamed { .. } => Notice::MissingName,
            SetProblem::SecondHeading { .. } => Notice::StatedTwice,
            SetProblem::Refused(refusal) => refusal.notice(),
            SetProblem::Circle { .. } => Notice::CircularSets,
            SetProblem::NotARuleset => Notice::Unreadable,
            SetProblem::TooDeep { .. } => Notice::AmendedTooDeep,
            SetProblem::FormerFigure { .. } => Notice::FormerName,
            SetProblem::FormerNameTaken { .. }
            | SetProblem::TitleOfBelow { .. }
            | SetProblem::RuleTwice { .. }
            | SetProblem::RuleOfBelow { .. }
            | SetProblem::LimitHides { .. } => Notice::NamedTwice,
            SetProblem::TitleOfShipped { .. } => Notice::TitleOfShipped,
            SetProblem::AsksNothing { .. } => Notice::AsksNothing,
            SetProblem::Purpose { .. } => Notice::UnknownWord,
            SetProblem::NoFigure { .. } => Notice::MissingValue,
            SetProblem::FigureTwice { .. } => Notice::StatedTwice,
            SetProblem::NoSuchFigure { .. } => Notice::UnknownName,
            SetProblem::NoClause { .. } => Notice::MissingClause,
            SetProblem::NoSource { .. } => Notice::MissingSource,
            SetProblem::UnusedLimit { .. } | SetProblem::UnusedFigure { .. } => Notice::UnusedLimit,
        }
    }
}

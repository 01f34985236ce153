//! How much is read: past one of these a file gets one message. The guide's page on trust names them.

/// Bytes of a text: a design is a few kilobytes; beyond this a file is something else.
pub const BYTES: usize = 1024 * 1024;
/// Bytes of the path of a set, as another text names it.
pub const PATH: usize = 1024;
/// Words of the name of any kind or property, and some more: no line is looked at for a longer one.
pub const NAME_WORDS: usize = 8;
/// Slips of a set or a design for which a nearer name is sought among the text's own; those after them are told without.
pub const NEAR_NAMES: usize = 100;
/// Limits of one rule.
pub const RULE_LIMITS: usize = 100;
/// Waivers of one stair.
pub const WAIVERS: usize = 200;
/// Sections and timbers that a shop's file lists, of each sort.
pub const STOCK: usize = 1_000;

/// Stack of a thread that reads texts, in bytes: what nests as deep as a text may takes a good part of a megabyte.
#[cfg(feature = "cli")]
pub const STACK: usize = 16 << 20;

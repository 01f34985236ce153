//! How much is read: past one of these a file gets one message. The guide's page on trust names them.

/// Bytes of a text: a design is a few kilobytes; beyond this a file is something else.
pub const BYTES: usize = 1024 * 1024;
/// Bytes of the path of a set, as another text names it.
pub const PATH: usize = 1024;

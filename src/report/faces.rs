//! The table of faces: one row a face. The command line, its help, the reference and the tests read it.

use super::face::Face;
use super::{full, json, short, summary};

/// Every face, those for people first.
pub static FACES: &[Face] = &[full::FACE, short::FACE, short::QUIET, summary::FACE, json::DOCUMENT, json::LINES];

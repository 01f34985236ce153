//! The table of faces: one row a face. The command line, its help, the reference and the tests read it.

use super::face::Face;
use super::{annotations, checkstyle, code_quality, compliance, full, json, junit, sarif, short, summary};

/// Every face, those for people first.
pub static FACES: &[Face] = &[
    full::FACE,
    short::FACE,
    short::QUIET,
    summary::FACE,
    compliance::FACE,
    json::DOCUMENT,
    json::LINES,
    sarif::FACE,
    junit::FACE,
    checkstyle::FACE,
    code_quality::FACE,
    annotations::FACE,
];

//! Every test from outside the crate, in one binary, so that it is linked once.
//!
//! A file is one subject. `cargo test --test suite cases` runs one of them.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing, clippy::string_slice)]
#![allow(missing_docs, clippy::disallowed_methods)]

mod after_a_change;
mod amending;
mod cases;
mod closed_words;
mod command_line;
mod corpus;
mod depth;
mod docs;
mod drawing;
mod explanations;
mod facade;
mod faults;
mod folders;
mod formula_cases;
mod formula_text;
mod formulas;
mod geometry;
mod growth;
mod hostile;
mod imports;
mod layers;
mod lossless;
mod marks;
mod metric_figures;
mod mutation;
mod offers;
mod pages;
mod paths;
mod pitfalls;
mod properties;
mod proving;
mod published_rows;
mod purposes;
mod record;
mod recovery;
mod reference;
mod second_evaluator;
mod sentences;
mod session;
mod slips;
mod switches;
mod taken_away;
mod terminal;
mod tolerance;
mod undefined;
mod units;
mod verdicts;
// The fuzz targets read this one too, and use all of it.
#[allow(dead_code)]
mod whole_path;
mod words;
mod worked;
mod worked_codes;
mod worked_examples;
mod worked_pitfalls;
mod worked_places;

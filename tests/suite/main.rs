//! Every test from outside the crate, in one binary, so that it is linked once.
//!
//! A file is one subject. `cargo test --test suite cases` runs one of them.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing, clippy::string_slice)]
#![allow(missing_docs, clippy::disallowed_methods)]

mod after_a_change;
mod amending;
mod baseline;
mod cases;
mod closed_words;
mod command_line;
mod corpus;
mod depth;
mod docs;
mod drawing;
mod editors;
mod excused;
mod explanations;
mod facade;
mod faces;
mod faults;
mod folders;
mod formula_cases;
mod formula_text;
mod formulas;
mod gate;
mod geometry;
mod growth;
mod handed_on;
mod hostile;
mod imports;
mod interrupted;
mod layers;
mod licences;
mod lossless;
mod marks;
mod mechanics_joints;
mod mechanics_otherwise;
mod mechanics_properties;
mod mends;
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
mod reconcile;
mod record;
mod recovery;
mod reference;
mod rule_in_full;
mod second_evaluator;
mod selection;
mod sentences;
mod server;
mod session;
mod set_mutants;
mod slips;
mod step_text;
mod switches;
mod taken_away;
mod terminal;
mod tidy;
mod told;
mod tolerance;
mod undefined;
mod units;
mod verdicts;
// The fuzz targets read this one too, and use all of it.
mod waivers;
#[allow(dead_code)]
mod whole_path;
mod words;
mod worked;
mod worked_codes;
mod worked_examples;
mod worked_pitfalls;
mod worked_places;
mod worked_strength;
mod yard;

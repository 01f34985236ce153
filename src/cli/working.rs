//! `pitchboard working`: how a number comes about.

use std::path::PathBuf;

use clap::Args;

use super::{Outcome, Output, read};
use crate::base::names::nearest;
use crate::base::{Class, Source};
use crate::derive::{Quantity, Working, quantities};
use crate::measure::Measure;
use crate::model::{self, Design, Id};
use crate::report::{self, Look};
use crate::syntax;

const EXAMPLES: &str = "\
Examples:
  pitchboard working hide.stair                      every quantity, one a line
  pitchboard working hide.stair flight               all of one thing, step by step
  pitchboard working hide.stair \"guard left\" opening one quantity
  pitchboard working hide.stair \"tread 5\" 'depth at 12\"'  a quantity at a place
  pitchboard working hide.stair --measured flight    from the measured figures

A working shows how a number comes about. It is no permit and no approval.";

/// What `working` was asked for.
#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub struct Ask {
    /// The design, or `-` for standard input
    #[arg(value_name = "FILE")]
    pub file: PathBuf,
    /// A thing drawn, as a report calls it: `flight`, `tread 2`, `guard left`
    #[arg(value_name = "ELEMENT")]
    pub element: Option<String>,
    /// A quantity of it, as a rule names it: `pitch`, `triangle opening`
    #[arg(value_name = "QUANTITY")]
    pub quantity: Option<String>,
    /// Work from the measured figures in place of the drawn
    #[arg(long)]
    pub measured: bool,
}

impl Ask {
    /// Prints the working.
    pub fn run(&self, look: &Look, output: &mut Output<'_>) -> Outcome {
        let source = match read(&self.file) {
            Ok(source) => source,
            Err(refused) => {
                output.put(&report::finding(&refused, look));
                return Outcome::Unchecked;
            }
        };
        let (tree, mut findings) = syntax::parse_design(&source);
        let stairs = model::build(&tree, &source, &mut findings);
        for finding in &findings {
            output.put(&format!("{}\n", report::finding(finding, look)));
        }
        let unread = findings.iter().map(|finding| finding.class).min();
        let mut outcome = match unread {
            Some(Class::Unchecked) => Outcome::Unchecked,
            Some(_) => Outcome::Broken,
            None => Outcome::Sound,
        };
        let mut shown = false;
        for stair in &stairs {
            let design = if self.measured { stair.measured.as_ref() } else { Some(&stair.drawn) };
            let Some(design) = design else { continue };
            if stairs.len() > 1 {
                output.put(&format!("{}\n", report::sentence(&stair.title, look.unicode)));
            }
            shown |= self.stair(design, &source, look, output);
        }
        if !shown {
            output.put(&format!("{}\n", self.nothing(&stairs, look)));
            outcome = Outcome::Unchecked;
        }
        outcome
    }

    fn stair(&self, design: &Design, source: &Source, look: &Look, output: &mut Output<'_>) -> bool {
        let working = Working::new(design);
        let mut shown = false;
        for id in 0..design.elements.len() {
            if !self.wants(design, id) {
                continue;
            }
            let part = design.get(id).is_some_and(model::Element::is_part);
            for entry in quantities().filter(|entry| entry.kind == design.kind(id) || part && entry.kind == "part") {
                let place = self.quantity.as_deref().and_then(|wanted| place(wanted, entry));
                let asked = match &self.quantity {
                    Some(wanted) => wanted.eq_ignore_ascii_case(entry.name) || place.is_some(),
                    None => !entry.at_a_place(),
                };
                if !asked {
                    continue;
                }
                let worked = working.work(id, entry, place);
                shown = true;
                if self.element.is_some() {
                    output.put(&format!("{}\n", report::derivation(&working, source, &worked, look)));
                } else {
                    output.put(&format!("{}\n", report::sentence(&report::headline(&working, &worked), look.unicode)));
                }
            }
        }
        shown
    }

    fn wants(&self, design: &Design, id: Id) -> bool {
        let Some(wanted) = &self.element else {
            // The block that treads share is worked as the steps that were made from it.
            return !(design.kind(id) == "tread"
                && id < design.drawn
                && design.of_kind("tread").all(|tread| tread != id));
        };
        let wanted = wanted.replace('"', "").to_lowercase();
        let wanted = wanted.strip_prefix("the ").unwrap_or(&wanted);
        let called = design.called(id).replace('"', "").to_lowercase();
        called == wanted || design.kind(id) == wanted
    }

    fn nothing(&self, stairs: &[model::Stair], look: &Look) -> String {
        let wanted = self.element.as_deref().unwrap_or("a stair");
        if self.measured && stairs.iter().all(|stair| stair.measured.is_none()) {
            return "Nothing is measured in this design: add `measured \"name\" { }`.".to_owned();
        }
        let names: Vec<String> = stairs
            .iter()
            .flat_map(|s| (0..s.drawn.elements.len()).map(|id| s.drawn.called(id).replace('"', "")))
            .collect();
        let known = quantities().map(|entry| entry.name);
        let near = match &self.quantity {
            Some(quantity) if names.iter().any(|name| name == wanted || name.starts_with(wanted)) => {
                nearest(quantity, known)
            }
            _ => nearest(wanted, names.iter().map(String::as_str)),
        };
        let near = near.map(|near| format!(" Did you mean `{near}`?")).unwrap_or_default();
        let asked = match &self.quantity {
            Some(quantity) => format!("`{quantity}` of `{wanted}`"),
            None => format!("`{wanted}`"),
        };
        report::sentence(&format!("There is no {asked} to work out in this design.{near}"), look.unicode)
    }
}

/// The place in `depth at 12"`, if it is this quantity that is asked.
fn place(wanted: &str, entry: &Quantity) -> Option<Measure> {
    let (name, rest) = wanted.split_at_checked(entry.name.len())?;
    let asked = entry.at_a_place() && name.eq_ignore_ascii_case(entry.name);
    asked.then(|| syntax::length(rest.trim())).flatten()
}

//! `pitchboard working`: how a number comes about, and how a rule came to its outcome.

use std::path::PathBuf;
use std::sync::Arc;

use clap::Args;

use super::{Disk, Outcome, Output, read};
use crate::base::names::nearest;
use crate::base::{Diagnostic, Severity, Source};
use crate::check::{Drawing, LoadedSet, asked_for, held_always};
use crate::derive::{Evaluation, Quantity, quantities};
use crate::measure::Measure;
use crate::model::{self, Design, Id, Stair, kinds};
use crate::report::{self, Look};
use crate::rules::{Rule, RuleSet};
use crate::session::Session;
use crate::syntax;
use crate::wording;

const EXAMPLES: &str = "\
Examples:
  pitchboard working hide.stair                      every quantity, one a line
  pitchboard working hide.stair flight               all of one thing, step by step
  pitchboard working hide.stair \"guard left\" opening one quantity
  pitchboard working hide.stair \"tread 5\" 'depth at 12\"'  a quantity at a place
  pitchboard working hide.stair \"riser 2\" \"riser height\"
                                                     one rule: its terms, its limits, what decided
  pitchboard working hide.stair --measured flight    from the measured figures
  pitchboard working hide.stair stringer 'bending ratio' --markdown
                                                     a page of figures for whoever checks them

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
    /// A quantity of it, as a rule names it: `pitch`, `triangle opening`; or a rule that holds it
    #[arg(value_name = "QUANTITY|RULE")]
    pub name: Option<String>,
    /// Seek the rule in this set, in place of those that the design names; may be given several times
    #[arg(long, value_name = "NAME|FILE")]
    pub rules: Vec<String>,
    /// Work from the measured figures in place of the drawn
    #[arg(long)]
    pub measured: bool,
    /// Print the working of quantities as Markdown, for a file that others read
    #[arg(long)]
    pub markdown: bool,
}

impl Ask {
    /// Prints the working.
    pub fn run(&self, look: &Look, output: &mut Output<'_>) -> Outcome {
        let source = match read(&self.file) {
            Ok(source) => source,
            Err(refused) => {
                output.put(&report::finding(&*refused, look));
                return Outcome::Unchecked;
            }
        };
        let session = Session::new(Disk);
        let drawing = session.draw(&source);
        let (stairs, diagnostics) = (&drawing.stairs, &drawing.diagnostics);
        for slip in diagnostics {
            output.put(&format!("{}\n", report::finding(slip, look)));
        }
        let mut outcome = match diagnostics.iter().map(Diagnostic::severity).min() {
            Some(Severity::Unchecked) => Outcome::Unchecked,
            Some(_) => Outcome::Broken,
            None => Outcome::Sound,
        };
        let mut shown = false;
        let mut seen = Sets::default();
        for stair in stairs {
            let sets = self.sets(stair, &drawing, &session);
            let design = if self.measured { stair.measured.as_ref() } else { Some(&stair.drawn) };
            let Some(design) = design else { continue };
            if stairs.len() > 1 {
                output.put(&format!("{}\n", report::sentence(&stair.title, look.unicode)));
            }
            shown |= self.stair(design, &sets.read, &source, look, output);
            seen.read.extend(sets.read);
            seen.refused.extend(sets.refused);
        }
        if !shown {
            for why in &seen.refused {
                output.put(&format!("{}\n", report::sentence(why, look.unicode)));
            }
            output.put(&format!("{}\n", self.nothing(stairs, &seen.read, look)));
            outcome = Outcome::Unchecked;
        }
        outcome
    }

    /// The sets in which a rule may be asked for.
    fn sets(&self, stair: &Stair, drawing: &Drawing, session: &Session) -> Sets {
        let mut sets = Sets::default();
        if self.name.is_none() {
            return sets;
        }
        sets.read.push(held_always());
        let asked: Vec<(&str, Option<&Source>)> = match self.rules.as_slice() {
            [] => {
                let asked = asked_for(stair, &drawing.source, drawing.shop.as_ref()).into_iter();
                asked.map(|(name, by, _)| (name, Some(by))).collect()
            }
            rules => rules.iter().map(|name| (name.as_str(), None)).collect(),
        };
        for (name, asked_by) in asked {
            match session.set(name, asked_by) {
                Ok(loaded) => {
                    if loaded.diagnostics.iter().any(|slip| slip.severity() != Severity::Advised) {
                        sets.refused.push(format!(
                            "The set `{name}` could not be read in full; `pitchboard rules` tells where."
                        ));
                    }
                    if !loaded.set.is_drawing() {
                        sets.read.push(loaded);
                    }
                }
                Err(refusal) => sets.refused.push(wording::refusal(&refusal)),
            }
        }
        sets
    }

    fn stair(
        &self,
        design: &Design,
        sets: &[Arc<LoadedSet>],
        source: &Source,
        look: &Look,
        output: &mut Output<'_>,
    ) -> bool {
        let evaluation = Evaluation::traced(design);
        let mut shown = false;
        for id in 0..design.elements.len() {
            if !self.wants(design, id) {
                continue;
            }
            let part = design.get(id).is_some_and(model::Element::is_part);
            for entry in quantities().filter(|entry| design.is(id, entry.kind) || part && entry.kind == kinds::PART) {
                let place = self.name.as_deref().and_then(|wanted| place(wanted, entry));
                let asked = match &self.name {
                    Some(wanted) => wanted.eq_ignore_ascii_case(entry.name) || place.is_some(),
                    None => !entry.at_a_place(),
                };
                if !asked {
                    continue;
                }
                let worked = evaluation.work(id, entry, place);
                shown = true;
                if self.markdown {
                    output.put(&report::derivation_page(&evaluation, source, &worked).markdown(0));
                } else if self.element.is_some() {
                    output.put(&format!("{}\n", report::derivation(&evaluation, source, &worked, look)));
                } else {
                    output
                        .put(&format!("{}\n", report::sentence(&report::headline(&evaluation, &worked), look.unicode)));
                }
            }
            for (set, rule) in self.asked(sets).filter(|(_, rule)| design.of_kind(rule.kind).any(|held| held == id)) {
                shown = true;
                output.put(&format!("{}\n", report::explanation(&evaluation, source, (set, rule), id, look)));
            }
        }
        shown
    }

    /// The rules of the name that is asked for.
    fn asked<'s>(&self, sets: &'s [Arc<LoadedSet>]) -> impl Iterator<Item = (&'s RuleSet, &'s Rule)> {
        let rules = sets.iter().flat_map(|loaded| loaded.set.rules.iter().map(move |rule| (&loaded.set, &**rule)));
        rules.filter(|(_, rule)| self.name.as_ref().is_some_and(|wanted| wanted.eq_ignore_ascii_case(&rule.name)))
    }

    fn wants(&self, design: &Design, id: Id) -> bool {
        let Some(wanted) = &self.element else {
            // The block that treads share is worked as the steps that were made from it.
            return design.kind(id).is_none_or(|kind| {
                kind.made_from.is_none() || id >= design.drawn || design.of_kind(kind).any(|step| step == id)
            });
        };
        let wanted = wanted.replace('"', "").to_lowercase();
        let wanted = wanted.strip_prefix("the ").unwrap_or(&wanted);
        design.is_called(id, wanted) || design.kind(id).is_some_and(|kind| kind.name == wanted)
    }

    fn nothing(&self, stairs: &[Stair], sets: &[Arc<LoadedSet>], look: &Look) -> String {
        let wanted = self.element.as_deref().unwrap_or("a stair");
        if self.measured && stairs.iter().all(|stair| stair.measured.is_none()) {
            return "Nothing is measured in this design: add `measured \"name\" { }`.".to_owned();
        }
        let names: Vec<String> = stairs
            .iter()
            .flat_map(|s| (0..s.drawn.elements.len()).map(|id| s.drawn.called(id).replace('"', "")))
            .collect();
        if let Some((_, rule)) = self.asked(sets).next() {
            let held: Vec<String> = stairs
                .iter()
                .flat_map(|s| s.drawn.of_kind(rule.kind).map(|id| s.drawn.called(id).replace('"', "")))
                .collect();
            let there = match held.as_slice() {
                [] => format!("No {} is drawn in this design.", rule.kind.name),
                [only] => format!("Ask for `{only}`."),
                [first, .., last] => format!("Ask for `{first}` to `{last}`, or for `{}`.", rule.kind.name),
            };
            let said =
                format!("The rule `{}` holds each {}, and `{wanted}` is none. {there}", rule.name, rule.kind.name);
            return report::sentence(&said, look.unicode);
        }
        let rules = sets.iter().flat_map(|loaded| loaded.set.rules.iter().map(|rule| rule.name.as_str()));
        let known = quantities().map(|entry| entry.name).chain(rules);
        let near = match &self.name {
            Some(quantity) if names.iter().any(|name| name == wanted || name.starts_with(wanted)) => {
                nearest(quantity, known)
            }
            _ => nearest(wanted, names.iter().map(String::as_str)),
        };
        let near = near.map(|near| format!(" Did you mean `{near}`?")).unwrap_or_else(|| {
            // A shop and a design may ask for the same one.
            let mut titles: Vec<String> = Vec::new();
            for title in sets.iter().map(|loaded| &loaded.set.title) {
                if !titles.contains(title) {
                    titles.push(title.clone());
                }
            }
            match (&self.name, titles.as_slice()) {
                (Some(_), [_, ..]) => {
                    format!(" Rules were sought in {}; `--rules` names another set.", report::listed(&titles))
                }
                _ => String::new(),
            }
        });
        let asked = match &self.name {
            Some(quantity) => format!("`{quantity}` of `{wanted}`"),
            None => format!("`{wanted}`"),
        };
        report::sentence(&format!("There is no {asked} to work out in this design.{near}"), look.unicode)
    }
}

/// Sets that were read, and why others, or parts of them, were not.
#[derive(Default)]
struct Sets {
    read: Vec<Arc<LoadedSet>>,
    refused: Vec<String>,
}

/// The place in `depth at 12"`, if it is this quantity that is asked.
fn place(wanted: &str, entry: &Quantity) -> Option<Measure> {
    let (name, rest) = wanted.split_at_checked(entry.name.len())?;
    let asked = entry.at_a_place() && name.eq_ignore_ascii_case(entry.name);
    asked.then(|| syntax::length(rest.trim())).flatten()
}

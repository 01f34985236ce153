//! What a set changes of the one that it takes in: rules withdrawn, rules amended.

use std::sync::Arc;

use super::bounds;
use super::load::{Block, Reader};
use super::parts::{Holder, Narrows, Parts, Said};
use super::resolve;
use super::rule::{Amendment, Change, Limit, Part, Rule, Withdrawn, one_line};
use crate::base::names::did_you_mean;
use crate::base::{Finding, Source, Span, notices};
use crate::measure::{Dimension, Measure, equal, print};

impl Reader<'_> {
    /// Takes a rule out.
    pub(super) fn withdraw(&mut self, block: &Block<'_>) {
        let parts = self.parts(block.body, Holder::Withdrawal);
        let Some(at) = self.position(block, "withdraw") else { return };
        let Some((because, _)) = parts.because.filter(|(because, _)| !because.is_empty()) else {
            if !parts.damaged {
                let message = format!("rule \"{}\" is withdrawn without a reason", block.name);
                self.say(&notices::MISSING_REASON, block.name_span, message, None);
            }
            return;
        };
        let rule = self.set.rules.remove(at);
        let (set, source) = (self.set.title.clone(), self.source.clone());
        self.set.withdrawn.push(Withdrawn { rule, set, source, span: block.name_span, because });
    }

    /// Changes what an amendment states, and leaves the rest of a rule as it was.
    pub(super) fn amend(&mut self, block: &Block<'_>) {
        let parts = self.parts(block.body, Holder::Amendment);
        let Some(at) = self.position(block, "amend") else { return };
        let Some(old) = self.set.rules.get(at).map(|rule| Rule::clone(rule)) else { return };
        if let Some(first) = old.amendments.last().filter(|last| last.source == *self.source).map(|last| last.span) {
            let message = format!("this set amends \"{}\" already", block.name);
            let finding = Finding::notice(&notices::STATED_TWICE, self.source, block.name_span, message);
            let finding = finding.with_help("Put all that differs into one `amend`.");
            self.findings.push(finding.with_label(first, "amended here first"));
            return;
        }
        let told = self.findings.len();
        if parts.is_empty() && !parts.damaged {
            let message = format!("this says of \"{}\" nothing that differs", block.name);
            self.say(&notices::NOTHING_CHANGED, block.name_span, message, None);
            return;
        }
        let mut amended = Amended { rule: old.clone(), changes: Vec::new(), old };
        let added = self.limits(&mut amended, &parts.limits);
        if !self.asked(&mut amended, &parts, added) {
            return;
        }
        self.texts(&mut amended, &parts);
        if let Some((finding, spoils)) = self.unsound(&amended, block.name_span) {
            self.findings.push(finding);
            if spoils {
                return;
            }
        }
        let Amended { mut rule, changes, old } = amended;
        let fragments = parts.fragments.into_iter().map(|fragment| (self.source.clone(), fragment));
        rule.fragments.extend(fragments);
        // A slip that was told is no amendment that changes nothing, but the rest of it stands.
        if changes.is_empty() && rule.fragments.len() == old.fragments.len() && self.findings.len() > told {
            return;
        }
        let (set, source, span) = (self.set.title.clone(), self.source.clone(), block.name_span);
        rule.amendments.push(Amendment { set, source, span, changes, inherited: old.fragments.len() });
        if let Some(place) = self.set.rules.get_mut(at) {
            *place = Arc::new(rule);
        }
    }

    /// Puts limits in place of the rule's own; gives back those that it does not have.
    fn limits(&mut self, amended: &mut Amended, limits: &[Limit]) -> Vec<Limit> {
        let mut added = Vec::new();
        for limit in limits {
            let Some(old) = amended.rule.limits.iter_mut().find(|old| old.name == limit.name) else {
                added.push(limit.clone());
                continue;
            };
            if old.measure.dimension != limit.measure.dimension {
                let old = old.clone();
                self.other_sort(limit, &old);
                continue;
            }
            if equal(old.measure.value, limit.measure.value, limit.measure.dimension) {
                let message = format!("`{}` is {} already, set by {}", limit.name, print(old.measure), old.set);
                self.say(&notices::NOTHING_CHANGED, limit.span, message, None);
                continue;
            }
            if let Some(meant) = another_unit(limit, old) {
                let words = self.source.slice(limit.span);
                let message = format!("`{words}` is {meant}, in place of {}", print(old.measure));
                let help = format!("Look at the unit. If it is right, write `{meant}`.");
                self.say(&notices::ANOTHER_UNIT, limit.span, message, Some(help));
            }
            amended.changes.push(Change {
                part: Part::Limit(limit.name.clone()),
                span: limit.span,
                now: print(limit.measure),
                before: print(old.measure),
                set_by: old.set.clone(),
            });
            let replaced = Some(Box::new(old.clone()));
            *old = Limit { replaced, ..limit.clone() };
        }
        added
    }

    /// Puts a clause, a condition or a verb in place of the rule's own. False if what should be read could not be.
    fn asked(&mut self, amended: &mut Amended, parts: &Parts, added: Vec<Limit>) -> bool {
        let (known, before) = (amended.rule.limits.len(), amended.rule.limits.clone());
        // A new limit means something only to new words.
        let reads = parts.clause.is_some() || parts.narrows.is_some();
        if reads {
            amended.rule.limits.extend(added.iter().cloned());
        }
        let mut used = vec![false; amended.rule.limits.len()];
        if let Some(clause) = &parts.clause {
            if let (Some((_, span)), _) | (_, Some(Narrows::Always(span) | Narrows::Where(_, span))) =
                (&parts.verb, &parts.narrows)
            {
                let message = "the clause that stands beside this says it already".to_owned();
                let finding = Finding::notice(&notices::STATED_TWICE, self.source, *span, message);
                self.findings.push(finding.with_label(clause.span, "the clause"));
            }
            let limits = amended.rule.limits.clone();
            let Some(read) = resolve::clause(clause, &limits, self.source, self.findings) else { return false };
            used.clone_from(&read.used);
            let now = one_line(self.source.slice(clause.span));
            amended.change(Part::Clause, clause.span, now, amended.old.wording());
            let rule = &mut amended.rule;
            rule.source = self.source.clone();
            rule.clause = clause.span;
            rule.kind = read.kind;
            rule.condition = read.condition;
            rule.narrows = clause.narrows.map(|span| (self.source.clone(), span));
            rule.requirement = read.requirement;
            rule.asks = clause.asks;
            rule.shall = clause.shall;
        } else {
            match &parts.narrows {
                Some(Narrows::Where(tree, span)) => {
                    let limits = amended.rule.limits.clone();
                    let Some((node, read)) =
                        resolve::condition(tree, amended.rule.kind, &limits, self.source, self.findings)
                    else {
                        return false;
                    };
                    used = read;
                    self.narrow(amended, Some(node), *span);
                }
                Some(Narrows::Always(span)) => self.narrow(amended, None, *span),
                None => {}
            }
            if let Some((shall, span)) = parts.verb {
                let said = |shall| if shall { "shall" } else { "should" };
                if shall == amended.rule.shall {
                    let message = format!("the verb is `{}` already", said(shall));
                    self.say(&notices::NOTHING_CHANGED, span, message, None);
                } else {
                    amended.change(Part::Verb, span, said(shall).to_owned(), said(!shall).to_owned());
                    amended.rule.shall = shall;
                }
            }
        }
        let new = added.iter().zip(used.iter().skip(known)).filter(|(_, used)| reads && **used);
        for (limit, _) in new {
            amended.changes.push(Change {
                part: Part::Limit(limit.name.clone()),
                span: limit.span,
                now: print(limit.measure),
                before: String::new(),
                set_by: String::new(),
            });
        }
        for (limit, used) in added.iter().zip(used.iter().skip(known).copied().chain(std::iter::repeat(false))) {
            if !used || !reads {
                let near = did_you_mean(&limit.name, before.iter().map(|old| old.name.as_str()));
                let known: Vec<String> = before.iter().map(|old| format!("`{}`", old.name)).collect();
                let help = near.unwrap_or_else(|| match known.as_slice() {
                    [] => "It names none.".to_owned(),
                    known => format!("It has {}.", known.join(", ")),
                });
                let message = format!("rule \"{}\" has no limit `{}` to amend", amended.rule.name, limit.name);
                let finding = Finding::notice(&notices::UNKNOWN_NAME, self.source, limit.named, message);
                self.findings.push(finding.with_main_label("the rule has no such limit").with_help(help));
            }
        }
        true
    }

    fn narrow(&mut self, amended: &mut Amended, condition: Option<super::Node>, span: Span) {
        let narrows = condition.is_some().then(|| (self.source.clone(), span));
        let words = |narrows: &Option<(Source, Span)>| {
            narrows.as_ref().map_or_else(|| "always".to_owned(), |(source, span)| one_line(source.slice(*span)))
        };
        let (now, before) = (words(&narrows), words(&amended.rule.narrows));
        if now == before {
            let message = "the rule applies so already".to_owned();
            return self.say(&notices::NOTHING_CHANGED, span, message, None);
        }
        amended.change(Part::Condition, span, now, before);
        amended.rule.condition = condition;
        amended.rule.narrows = narrows;
    }

    fn texts(&mut self, amended: &mut Amended, parts: &Parts) {
        let mut put = |part: Part, said: &Option<Said>, slot: fn(&mut Rule) -> &mut String| {
            let Some((text, span)) = said else { return None };
            let before = slot(&mut amended.rule).clone();
            if before == *text {
                return Some((*span, part));
            }
            slot(&mut amended.rule).clone_from(text);
            amended.change(part, *span, text.clone(), before);
            None
        };
        let same = [
            put(Part::Source, &parts.cites, |rule| &mut rule.cites),
            put(Part::Because, &parts.because, |rule| &mut rule.because),
            put(Part::Sure, &parts.sure, |rule| &mut rule.sure),
        ];
        for (span, part) in same.into_iter().flatten() {
            let what = match part {
                Part::Source => "source",
                Part::Because => "reason",
                _ => "word on how sure it is",
            };
            self.say(&notices::NOTHING_CHANGED, span, format!("the {what} is this already"), None);
        }
        // Figures that all come from another document are as sure as it is, not as those that they replace.
        let rule = &mut amended.rule;
        let anew = |limit: &Limit| limit.source == *self.source;
        if parts.cites.is_some() && parts.sure.is_none() && !rule.limits.is_empty() && rule.limits.iter().all(anew) {
            rule.sure.clear();
        }
    }

    /// A rule that its amendment keeps from doing what it is there for, at the words that do so; also whether it is
    /// spoilt, or only idle.
    fn unsound(&self, amended: &Amended, head: Span) -> Option<(Finding, bool)> {
        let alters = |change: &&Change| matches!(change.part, Part::Limit(_) | Part::Condition | Part::Clause);
        amended.changes.iter().find(alters)?;
        let trouble = bounds::trouble(&held(&amended.rule, &|narrows, span| words(&amended.rule, narrows, span)))?;
        let limit = trouble.limits.iter().filter_map(|at| amended.rule.limits.get(*at));
        let limit = limit.map(|limit| (&limit.source, limit.span)).find(|(source, _)| *source == self.source);
        let (in_where, place) = trouble.place;
        let text =
            if in_where { amended.rule.narrows.as_ref().map(|(source, _)| source) } else { Some(&amended.rule.source) };
        let narrowed = amended.changes.iter().find(|change| change.part == Part::Condition).map(|change| change.span);
        let place = match (limit, text, narrowed) {
            (Some((_, span)), ..) => span,
            (None, Some(text), _) if *text == *self.source => place,
            (None, _, Some(span)) => span,
            _ => head,
        };
        let before = bounds::trouble(&held(&amended.old, &|narrows, span| words(&amended.old, narrows, span)));
        // What was idle or worse before is told where it was written.
        if before.is_some_and(|before| std::ptr::eq(before.notice, trouble.notice)) {
            return None;
        }
        let message = format!("with this, {}", trouble.message);
        let finding = Finding::notice(trouble.notice, self.source, place, message);
        Some((finding, trouble.spoils()))
    }

    /// Where the rule stands that a block speaks of; if there is none, why is told.
    fn position(&mut self, block: &Block<'_>, what: &str) -> Option<usize> {
        let Block { name, name_span, .. } = block;
        if name.is_empty() || self.base_is_lost {
            return None;
        }
        if let Some(at) = self.set.rules.iter().position(|rule| rule.name == *name) {
            return Some(at);
        }
        if self.set.unread.contains(name) {
            return None;
        }
        if self.set.takes_in.is_empty() {
            let message = format!("this set takes no other in, so there is nothing to {what}");
            let help = "Say which set it starts from: `amends: residential`, in the `ruleset` block.";
            let finding = Finding::notice(&notices::UNKNOWN_NAME, self.source, *name_span, message);
            self.findings.push(finding.with_main_label("no set below has it").with_help(help));
            return None;
        }
        if let Some(gone) = self.set.withdrawn.iter().rev().find(|gone| gone.rule.name == *name) {
            let here = gone.source == *self.source;
            let by = if here {
                "this set".to_owned()
            } else {
                format!("{} ({})", gone.set, at_line(&gone.source, gone.span))
            };
            let message = format!("{by} withdraws \"{name}\" already: \"{}\"", gone.because);
            let mut finding = Finding::notice(&notices::WITHDRAWN, self.source, *name_span, message);
            finding = finding.with_help(match (what, here) {
                ("amend", true) => "Take out one of the two.",
                ("amend", false) => "To bring it back, write it as a `rule` of this set.",
                _ => "Take this one out.",
            });
            if here {
                finding = finding.with_label(gone.span, "withdrawn here");
            }
            self.findings.push(finding);
            return None;
        }
        if let Some((_, own)) = self.own.iter().find(|(own, _)| own == name) {
            let message = format!("\"{name}\" is this set's own rule");
            let finding = Finding::notice(&notices::UNKNOWN_NAME, self.source, *name_span, message);
            let help = if what == "amend" { "Change it where it stands." } else { "Take it out where it stands." };
            let finding = finding.with_main_label("a rule of this very set").with_help(help);
            self.findings.push(finding.with_label(*own, "written here"));
            return None;
        }
        let near = did_you_mean(name, self.set.rules.iter().map(|rule| rule.name.as_str()));
        let below = self.set.takes_in.first().map_or("", |below| below.title.as_str());
        let help = near.unwrap_or_else(|| format!("`pitchboard rules` with the name of {below} lists its rules."));
        let message = format!("{below} has no rule \"{name}\" to {what}");
        let finding = Finding::notice(&notices::UNKNOWN_NAME, self.source, *name_span, message);
        self.findings.push(finding.with_main_label("no rule has this name").with_help(help));
        None
    }
}

/// A rule with the changes of one amendment.
struct Amended {
    old: Rule,
    rule: Rule,
    changes: Vec<Change>,
}

impl Amended {
    fn change(&mut self, part: Part, span: Span, now: String, before: String) {
        let set_by = self.old.set_by(&part).to_owned();
        self.changes.push(Change { part, span, now, before, set_by });
    }
}

/// A rule as the reasoning over bounds takes it.
pub(super) fn held<'a>(rule: &'a Rule, words: &'a dyn Fn(bool, Span) -> String) -> bounds::Held<'a> {
    let (condition, requirement) = (rule.condition.as_ref(), &rule.requirement);
    bounds::Held { condition, requirement, limits: &rule.limits, words }
}

/// The words of a rule's `where`, if the flag is set, or else of what it asks.
pub(super) fn words(rule: &Rule, narrows: bool, span: Span) -> String {
    let text = match &rule.narrows {
        Some((source, _)) if narrows => source,
        _ => &rule.source,
    };
    one_line(text.slice(span))
}

/// A length in another unit than the one it replaces and less than half of it or more than twice as much, in that
/// one's unit: more likely a wrong unit than a change of that size.
fn another_unit(new: &Limit, old: &Limit) -> Option<String> {
    let ratio = new.measure.value / old.measure.value;
    let same = new.measure.style.is_metric() == old.measure.style.is_metric();
    let far = new.measure.dimension == Dimension::LENGTH && !same && !(0.5..=2.0).contains(&ratio);
    far.then(|| print(Measure { style: old.measure.style, ..new.measure }))
}

/// `county.rules:7`.
fn at_line(source: &Source, span: Span) -> String {
    format!("{}:{}", source.name, source.line(span.start))
}

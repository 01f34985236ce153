//! A ruleset from its text, and from the sets that it amends.

use super::resolve;
use super::rule::{Limit, Rule, RuleSet};
use crate::base::names::{did_you_mean, nearest};
use crate::base::{Finding, Source, Span, notices};
use crate::syntax::{self, Fragment, Item, Term, TermKind};

/// Where rulesets are found. The core asks; a face answers.
pub trait Library {
    /// The text of a set, by a built-in name or a path as a file wrote it.
    ///
    /// # Errors
    /// One sentence that says why there is no such set.
    fn ruleset(&self, name: &str, asked_by: Option<&str>) -> Result<Source, String>;
}

/// Longest chain of sets that take one another in.
const DEEPEST: usize = 16;

/// Reads a set and those it amends. What could not be read is in the findings; the rest of the set stands.
pub fn load(source: &Source, library: &dyn Library, findings: &mut Vec<Finding>) -> RuleSet {
    load_within(source, library, findings, &mut vec![source.name.to_string()])
}

fn load_within(
    source: &Source,
    library: &dyn Library,
    findings: &mut Vec<Finding>,
    chain: &mut Vec<String>,
) -> RuleSet {
    let (tree, slips) = syntax::parse_rules(source);
    findings.extend(slips);
    let mut reader = Reader { source, findings, library, set: RuleSet::default(), chain };
    reader.set.title = source.name.to_string();
    reader.items(&tree.items, "");
    reader.set
}

struct Reader<'a> {
    source: &'a Source,
    findings: &'a mut Vec<Finding>,
    library: &'a dyn Library,
    set: RuleSet,
    chain: &'a mut Vec<String>,
}

impl Reader<'_> {
    fn say(&mut self, notice: &crate::base::Notice, span: Span, message: String, help: Option<String>) {
        let finding = Finding::notice(notice, self.source, span, message);
        self.findings.push(match help {
            Some(help) => finding.with_help(help),
            None => finding,
        });
    }

    fn items(&mut self, items: &[Item], chapter: &str) {
        for item in items {
            match item {
                Item::Block { head, head_span, body, .. } => self.block(head, *head_span, body, chapter),
                Item::Property { name, name_span, .. } => {
                    let message = format!("`{name}` stands outside of any rule");
                    self.say(&notices::WRONG_PLACE, *name_span, message, None);
                }
                Item::Malformed { span, .. } => {
                    let message = "this line is no statement".to_owned();
                    self.say(&notices::NOT_A_STATEMENT, *span, message, Some(HEADS.to_owned()));
                }
                Item::Clause(span) => {
                    self.say(&notices::WRONG_PLACE, *span, "a clause stands outside of any rule".to_owned(), None);
                }
                Item::Fragment(fragment) => {
                    self.say(
                        &notices::WRONG_PLACE,
                        fragment.span,
                        "a fragment stands outside of any rule".to_owned(),
                        None,
                    );
                }
            }
        }
    }

    fn block(&mut self, head: &[Term], span: Span, body: &[Item], chapter: &str) {
        let word = head.first().and_then(Term::word).unwrap_or("").to_lowercase();
        let name = match head.get(1).map(|term| &term.kind) {
            Some(TermKind::Text(text)) => text.trim().to_owned(),
            _ => head.iter().skip(1).filter_map(Term::word).collect::<Vec<_>>().join(" "),
        };
        match word.as_str() {
            "ruleset" => self.header(name, body),
            "chapter" => self.items(body, &name),
            "rule" => self.rule(&name, span, body, chapter),
            "amend" => self.amend(&name, span, body),
            "withdraw" => self.withdraw(&name, span, body),
            _ => {
                let help = did_you_mean(&word, ["ruleset", "chapter", "rule", "amend", "withdraw"]);
                let message = format!("`{word}` is no part of a ruleset");
                self.say(&notices::UNKNOWN_KIND, span, message, Some(help.unwrap_or_else(|| HEADS.to_owned())));
            }
        }
    }

    fn header(&mut self, title: String, body: &[Item]) {
        if !title.is_empty() {
            self.set.title = title;
        }
        for item in body {
            let Item::Property { name, name_span, value, value_span, .. } = item else {
                self.items(std::slice::from_ref(item), "");
                continue;
            };
            match name.as_str() {
                "basis" => self.set.basis = text_of(value),
                "edition" => self.set.edition = text_of(value),
                "caution" => self.set.caution = text_of(value),
                "amends" => self.take_in(&text_of(value), *value_span),
                _ => {
                    let help = did_you_mean(name, ["basis", "edition", "caution", "amends"]);
                    let message = format!("a ruleset has no property `{name}`");
                    let help = help.unwrap_or_else(|| "A ruleset takes basis, edition, caution, amends.".to_owned());
                    self.say(&notices::UNKNOWN_PROPERTY, *name_span, message, Some(help));
                }
            }
        }
    }

    fn take_in(&mut self, name: &str, span: Span) {
        let base = match self.library.ruleset(name, Some(&self.source.name)) {
            Ok(base) => base,
            Err(why) => return self.say(&notices::UNKNOWN_SET, span, why, None),
        };
        let base_name = base.name.to_string();
        if self.chain.contains(&base_name) || self.chain.len() >= DEEPEST {
            let message = format!("`{name}` takes in a set that takes it in");
            return self.say(&notices::CIRCULAR_SETS, span, message, None);
        }
        self.chain.push(base_name);
        let taken = load_within(&base, self.library, self.findings, self.chain);
        self.chain.pop();
        self.set.rules = taken.rules;
        if self.set.caution.is_empty() {
            self.set.caution = taken.caution;
        }
    }

    fn rule(&mut self, name: &str, span: Span, body: &[Item], chapter: &str) {
        if let Some(earlier) = self.set.rules.iter().find(|rule| rule.name == name) {
            let message = format!("a rule `{name}` is in the set already");
            let same = earlier.source == *self.source;
            let first = earlier.span;
            let finding = Finding::notice(&notices::NAMED_TWICE, self.source, span, message);
            self.findings.push(if same { finding.with_label(first, "named here first") } else { finding });
            return;
        }
        let parts = self.parts(body);
        let Some(clause) = parts.clause else {
            if !parts.damaged {
                self.say(&notices::MISSING_CLAUSE, span, format!("rule `{name}` asks for nothing"), None);
            }
            return;
        };
        if parts.cites.is_empty() {
            self.say(&notices::MISSING_SOURCE, span, format!("rule `{name}` names no source"), None);
        }
        let Some(read) = resolve::clause(&clause, &parts.limits, self.source, self.findings) else { return };
        self.set.rules.push(Rule {
            name: name.to_owned(),
            chapter: chapter.to_owned(),
            set: self.set.title.clone(),
            source: self.source.clone(),
            span,
            clause: clause.span,
            kind: read.kind,
            condition: read.condition,
            shall: clause.shall,
            requirement: read.requirement,
            limits: parts.limits,
            cites: parts.cites,
            because: parts.because,
            sure: parts.sure,
            fragments: parts.fragments,
        });
    }

    fn amend(&mut self, name: &str, span: Span, body: &[Item]) {
        let parts = self.parts(body);
        let Some(at) = self.position(name, span, "amended") else { return };
        let source = self.source;
        let title = self.set.title.clone();
        let Some(rule) = self.set.rules.get_mut(at) else { return };
        let mut unknown = Vec::new();
        for limit in parts.limits {
            match rule.limits.iter_mut().find(|old| old.name == limit.name) {
                Some(old) => {
                    let replaced = Some(Box::new(old.clone()));
                    *old = Limit { replaced, ..limit };
                }
                None => unknown.push((limit, rule.limits.iter().map(|old| old.name.clone()).collect::<Vec<_>>())),
            }
        }
        if !parts.cites.is_empty() {
            rule.cites = parts.cites;
        }
        if !parts.because.is_empty() {
            rule.because = parts.because;
        }
        if !parts.sure.is_empty() {
            rule.sure = parts.sure;
        }
        if !parts.fragments.is_empty() {
            rule.fragments = parts.fragments;
        }
        rule.set = title;
        if let Some(clause) = parts.clause {
            let limits = rule.limits.clone();
            if let Some(read) = resolve::clause(&clause, &limits, source, self.findings)
                && let Some(rule) = self.set.rules.get_mut(at)
            {
                rule.source = source.clone();
                rule.clause = clause.span;
                rule.kind = read.kind;
                rule.condition = read.condition;
                rule.requirement = read.requirement;
                rule.shall = clause.shall;
            }
        }
        for (limit, known) in unknown {
            let help = did_you_mean(&limit.name, known.iter().map(String::as_str));
            let message = format!("rule `{name}` has no limit `{}` to amend", limit.name);
            self.say(&notices::UNKNOWN_NAME, limit.span, message, help);
        }
    }

    fn withdraw(&mut self, name: &str, span: Span, body: &[Item]) {
        self.parts(body);
        if let Some(at) = self.position(name, span, "withdrawn") {
            self.set.rules.remove(at);
        }
    }

    fn position(&mut self, name: &str, span: Span, done: &str) -> Option<usize> {
        let at = self.set.rules.iter().position(|rule| rule.name == name);
        if at.is_none() {
            let near = nearest(name, self.set.rules.iter().map(|rule| rule.name.as_str()));
            let help = near.map(|near| format!("did you mean `{near}`?"));
            let message = format!("there is no rule `{name}` to be {done}");
            self.say(&notices::UNKNOWN_NAME, span, message, help);
        }
        at
    }

    fn parts(&mut self, body: &[Item]) -> Parts {
        let mut parts = Parts::default();
        for item in body {
            match item {
                Item::Clause(span) => match syntax::parse_clause(self.source, *span) {
                    Ok(clause) if parts.clause.is_none() => parts.clause = Some(clause),
                    Ok(_) => {
                        let message = "a rule has one clause; this is a second".to_owned();
                        self.say(&notices::STATED_TWICE, *span, message, Some("Give it a rule of its own.".to_owned()));
                    }
                    Err(finding) => {
                        parts.damaged = true;
                        self.findings.push(*finding);
                    }
                },
                Item::Fragment(fragment) => parts.fragments.push((self.source.clone(), *fragment)),
                Item::Property { name, name_span, value, value_span, damaged } => match name.as_str() {
                    "source" => parts.cites = text_of(value),
                    "because" => parts.because = text_of(value),
                    "sure" => parts.sure = text_of(value),
                    _ if *damaged => {}
                    _ => match (name.strip_prefix("limit "), value.as_slice()) {
                        (Some(limit), [Term { kind: TermKind::Figure(measure), .. }]) => {
                            let (name, source) = (limit.to_owned(), self.source.clone());
                            let set = self.set.title.clone();
                            parts.limits.push(Limit {
                                name,
                                measure: *measure,
                                source,
                                span: *value_span,
                                set,
                                replaced: None,
                            });
                        }
                        (Some(limit), _) => {
                            let message = format!("limit `{limit}` takes one number with its unit");
                            self.say(&notices::WRONG_VALUE, *value_span, message, None);
                        }
                        (None, _) => {
                            let known = ["limit", "source", "because", "sure", "passes", "fails", "spares"];
                            let message = format!("a rule has no property `{name}`");
                            let help = did_you_mean(name, known)
                                .unwrap_or_else(|| format!("A rule takes each ..., {}.", known.join(", ")));
                            self.say(&notices::UNKNOWN_PROPERTY, *name_span, message, Some(help));
                        }
                    },
                },
                other => self.items(std::slice::from_ref(other), ""),
            }
        }
        parts
    }
}

const HEADS: &str = "A ruleset is made of `ruleset \"name\" { }`, `chapter`, `rule`, `amend` and `withdraw`.";

#[derive(Default)]
struct Parts {
    clause: Option<syntax::ClauseTree>,
    limits: Vec<Limit>,
    cites: String,
    because: String,
    sure: String,
    fragments: Vec<(Source, Fragment)>,
    damaged: bool,
}

fn text_of(value: &[Term]) -> String {
    match value {
        [Term { kind: TermKind::Text(text), .. }] => text.clone(),
        _ => value.iter().filter_map(Term::word).collect::<Vec<_>>().join(" "),
    }
}

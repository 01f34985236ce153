//! What a set changes of the one that it takes in: rules withdrawn, rules amended.

use std::sync::Arc;

use super::blocks::Block;
use super::clause_text::words;
use super::compare::way_of;
use super::drawing::is_held;
use super::figures::shared;
use super::node::{Node, What};
use super::parts::{NewCondition, Parts, StatedText, StatedVerb, parts, parts_of as parts_of_block};
use super::problem::{AmendmentProblem, BlockKind, Fault, Holder, Problem, RowMeant, SetProblem, Withdrawer};
use super::proportion::out_of_proportion;
use super::resolve::{self, Names};
use super::retable::{Retabled, retabled};
use super::rule::{Amendment, Change, Limit, LimitOf, Part, Rule, RuleSet, Sourced, Withdrawn, one_line};
use super::satisfiability::{self, Place};
use super::saying::{Piece, Puts};
use super::sentence;
use super::table::{RowAsks, Table, TableRow};
use crate::base::names::nearest;
use crate::base::{HasNotice, Reporter, Source, Span, limits, work};
use crate::derive::Quantity;
use crate::measure::{Dimension, Measure, Style, equal};
use crate::model::Property;
use crate::syntax::{self, ClauseTree};

/// Changes the rules that a set has taken in.
pub(super) struct Amender<'r, 'a> {
    pub set: &'r mut RuleSet,
    pub report: &'r mut Reporter<'a, Problem>,
    /// The rules that this text writes itself, with the places of their names.
    pub own: &'r [(String, Span)],
    /// The set below could not be had, which was reported; what it would hold is not known.
    pub base_is_lost: bool,
}

impl Amender<'_, '_> {
    /// Takes a rule out.
    pub fn withdraw(&mut self, block: &Block<'_>) {
        let parts = parts(block.body, Holder::Withdrawal, &self.set.title, self.report);
        let Some(at) = self.position(block) else { return };
        let Some((because, _)) = parts.because.filter(|(because, _)| !because.is_empty()) else {
            if !parts.damaged {
                self.report.push(block.name_span, AmendmentProblem::NoReason { rule: block.name.clone() });
            }
            return;
        };
        #[allow(clippy::disallowed_methods)] // It was found there.
        let rule = self.set.rules.remove(at);
        let (set, source) = (self.set.title.clone(), self.report.source.clone());
        self.set.withdrawn.push(Withdrawn { rule, set, source, span: block.name_span, because });
    }

    /// Changes what an amendment states, and leaves the rest of a rule as it was.
    pub fn amend(&mut self, block: &Block<'_>) {
        let mut parts = parts(block.body, Holder::Amendment, &self.set.title, self.report);
        let Some(at) = self.position(block) else { return };
        let Some(old) = self.set.rules.get(at).map(Arc::clone) else { return };
        let source = self.report.source;
        if let Some(first) = old.amendments.last().filter(|last| last.source == *source).map(|last| last.span) {
            let rule = block.name.clone();
            return self.report.push(block.name_span, AmendmentProblem::AmendedTwice { rule, first });
        }
        work::done(old.limits.len() + old.fragments.len());
        let old = Rule::clone(&old);
        let before = self.report.found.len();
        if parts.is_empty() && !parts.damaged {
            let rule = block.name.clone();
            return self.report.push(block.name_span, AmendmentProblem::NothingDiffers { rule });
        }
        let mut amended = Amended { rule: old.clone(), changes: Vec::new(), old };
        self.by_their_names_now(&mut parts, &amended.old.limits, &amended.old.tables);
        let added = self.limits(&mut amended, &parts.limits);
        if self.asked(&mut amended, &parts, &added).is_none() {
            return;
        }
        self.texts(&mut amended, &parts);
        self.says(&mut amended, &parts);
        if let Some((place, fault)) = unsound(&amended, source, block.name_span) {
            let spoils = fault.spoils();
            self.report.push(place, Problem::Unsound { fault, amended: true, against: None });
            if spoils {
                return;
            }
        } else if let Some(found) = out_of_proportion(&amended.rule)
            && let Some(place) = found.place(&amended.rule, source)
        {
            // What was so before the amendment is told where it was written.
            let limits = found.values(&amended.rule);
            let problem = Problem::OutOfProportion { settles: found.settles, words: found.words, limits };
            self.report.push(place, problem);
        }
        let Amended { mut rule, changes, old } = amended;
        let fragments = parts.fragments.into_iter().map(|fragment| (source.clone(), fragment));
        rule.fragments.extend(fragments);
        // A slip that was reported is no amendment that changes nothing, but the rest of it stands.
        let unchanged = changes.is_empty() && rule.fragments.len() == old.fragments.len();
        if unchanged && self.report.found.len() > before {
            return;
        }
        let (set, source, span) = (self.set.title.clone(), source.clone(), block.name_span);
        let departs =
            changes.iter().any(|change| !matches!(change.part, Part::Because | Part::Sure | Part::Waive | Part::Says));
        let stated = parts.cites.is_some() || parts.because.is_some();
        let grounds = if departs && !stated { Sourced::No } else { Sourced::Yes };
        let inherited = old.fragments.len();
        let way = way_of(&old, &rule);
        rule.amendments.push(Amendment { set, source, span, changes, inherited, grounds, way });
        if let Some(place) = self.set.rules.get_mut(at) {
            *place = Arc::new(rule);
        }
    }

    /// Limits and tables that an amendment calls as they were called before get their names of now, which is told.
    fn by_their_names_now(&mut self, parts: &mut Parts, limits: &[Limit], tables: &[Table]) {
        for table in &mut parts.tables {
            let was = |known: &&Table| known.formerly.as_ref().is_some_and(|former| *former == table.name);
            let Some(now) = tables.iter().find(was).filter(|_| tables.iter().all(|known| known.name != table.name))
            else {
                continue;
            };
            let was = std::mem::replace(&mut table.name, now.name.clone());
            for row in &mut table.rows {
                let called = format!("{}{}", now.name, row.limit.strip_prefix(was.as_str()).unwrap_or_default());
                if let Some(limit) = parts.limits.iter_mut().find(|limit| limit.name == row.limit) {
                    limit.name.clone_from(&called);
                }
                row.limit = called;
            }
            self.report.push(table.stands, AmendmentProblem::FormerLimit { was, now: now.name.clone() });
        }
        for limit in &mut parts.limits {
            let mut former = limits.iter().filter(|known| known.formerly.contains(&limit.name));
            let (Some(now), None) = (former.next(), former.next()) else { continue };
            if limits.iter().any(|known| known.name == limit.name) {
                continue;
            }
            let was = std::mem::replace(&mut limit.name, now.name.clone());
            self.report.push(limit.named, AmendmentProblem::FormerLimit { was, now: now.name.clone() });
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
                self.report.push(limit.span, other_sort(limit, old));
                continue;
            }
            let same = |a: Measure, b: Measure| equal(a.value, b.value, b.dimension);
            let same_metric = match (old.metric, limit.metric) {
                (Some(old), Some(new)) => same(old, new),
                (old, new) => old.is_none() && new.is_none(),
            };
            if same(old.measure, limit.measure) && same_metric {
                let (name, is, set) = (limit.name.clone(), old.figures(), old.set.clone());
                self.report.push(limit.span, AmendmentProblem::SameLimit { limit: name, is, set });
                continue;
            }
            if let Some(now) = another_unit(limit, old) {
                self.report.push(limit.span, AmendmentProblem::AnotherUnit { now, was: old.measure });
            }
            amended.changes.push(Change {
                part: Part::Limit(limit.name.clone()),
                span: limit.span,
                now: limit.figures(),
                before: old.figures(),
                set_by: old.set.clone(),
            });
            let replaced = Some(Box::new(old.clone()));
            // A figure of the set that is amended for one rule is that rule's own from then on.
            *old = Limit { replaced, formerly: old.formerly.clone(), ..limit.clone() };
        }
        added
    }

    /// Puts a clause, a condition or a verb in place of the rule's own. Nothing if what should be read could not be.
    fn asked(&mut self, amended: &mut Amended, parts: &Parts, added: &[Limit]) -> Option<()> {
        let gone = self.retable(amended, parts, added);
        let before: Vec<String> = amended.rule.limits.iter().map(|limit| limit.name.clone()).collect();
        // A new limit means something only to new words, or to a table that takes it in.
        if parts.clause.is_some() || parts.condition.is_some() || gone.is_some() {
            amended.rule.limits.extend(added.iter().map(|limit| supersedes(limit, &amended.old)));
        }
        if let Some(clause) = &parts.clause {
            let shared = shared(clause, parts, self.set, self.report.source);
            let new = |figure: &Limit| amended.rule.limits.iter().all(|limit| limit.name != figure.name);
            let limits: Vec<Limit> = shared.limits.into_iter().filter(new).collect();
            let new = |figure: &Table| amended.rule.tables.iter().all(|table| table.name != figure.name);
            let tables: Vec<Table> = shared.tables.into_iter().filter(new).collect();
            amended.rule.limits.extend(limits);
            amended.rule.tables.extend(tables);
        }
        let used = match &parts.clause {
            Some(clause) => self.clause(amended, parts, clause)?,
            None => {
                let read = gone.as_ref().and_then(|_| reread(&mut amended.rule)).unwrap_or_default();
                let used = self.condition_and_verb(amended, parts)?;
                let longest = read.len().max(used.len());
                let is = |used: &[bool], at: usize| used.get(at).copied().unwrap_or(false);
                (0..longest).map(|at| is(&read, at) || is(&used, at)).collect()
            }
        };
        drop_unread(&mut amended.rule, gone.unwrap_or_default());
        let used = used.into_iter().skip(before.len()).chain(std::iter::repeat(false));
        let (read, unread): (Vec<_>, Vec<_>) = added.iter().zip(used).partition(|(_, used)| *used);
        amended.changes.extend(read.into_iter().map(|(limit, _)| Change {
            part: Part::Limit(limit.name.clone()),
            span: limit.span,
            now: limit.figures(),
            before: String::new(),
            set_by: String::new(),
        }));
        for (limit, _) in unread {
            let near = nearest(&limit.name, before.iter().map(String::as_str)).map(str::to_owned);
            let (rule, name, known) = (amended.rule.name.clone(), limit.name.clone(), before.clone());
            let of_table =
                |table: &&Table| name.strip_prefix(table.name.as_str()).is_some_and(|row| row.starts_with(' '));
            let row = amended.old.tables.iter().find(of_table).map(|table| {
                let row = name.strip_prefix(table.name.as_str()).unwrap_or_default().trim_start().to_owned();
                RowMeant { table: table.name.clone(), by: table.by_words.clone(), figures: limit.figures(), row }
            });
            self.report.push(limit.named, AmendmentProblem::NoSuchLimit { rule, limit: name, near, known, row });
        }
        Some(())
    }

    /// Puts the tables of an amendment into those of the rule, or in place of a single figure of the name, and a single
    /// figure in place of a table; the limits that no longer count. Nothing where no table is another than before.
    fn retable(&mut self, amended: &mut Amended, parts: &Parts, added: &[Limit]) -> Option<Vec<String>> {
        let rule = &mut amended.rule;
        let (mut gone, mut changed) = (Vec::new(), false);
        for new in &parts.tables {
            let Some(old) = rule.tables.iter_mut().find(|old| old.name == new.name) else {
                let single = rule.limits.iter().any(|limit| limit.name == new.name);
                if single || parts.clause.is_some() {
                    gone.extend(single.then(|| new.name.clone()));
                    rule.tables.push(new.clone());
                    changed = true;
                }
                continue;
            };
            let Retabled { table, gone: rows, anew } = retabled(old, new);
            if anew && !rows.is_empty() {
                let (table, rows) = (new.name.clone(), rows.clone());
                let problem = AmendmentProblem::RowsLeftOut {
                    table,
                    by: Some(new.by_words.clone()),
                    was: old.by_words.clone(),
                    rows,
                };
                self.report.push(new.stands, problem);
            }
            gone.extend(rows);
            changed = true;
            *old = table;
        }
        for limit in added {
            let Some(at) = rule.tables.iter().position(|table| table.name == limit.name) else { continue };
            if let Some(old) = rule.tables.get(at) {
                let rows: Vec<String> = old.rows.iter().map(|row| row.limit.clone()).collect();
                let (table, was) = (old.name.clone(), old.by_words.clone());
                let problem = AmendmentProblem::RowsLeftOut { table, by: None, was, rows: rows.clone() };
                self.report.push(limit.named, problem);
                gone.extend(rows);
            }
            rule.tables.retain(|table| table.name != limit.name);
            changed = true;
        }
        // A clause reads a limit before a table of its name.
        for limit in &mut rule.limits {
            if gone.contains(&limit.name) && rule.tables.iter().any(|table| table.name == limit.name) {
                limit.name = overruled(&limit.name);
            }
        }
        let gone: Vec<String> = gone.into_iter().flat_map(|name| [overruled(&name), name]).collect();
        changed.then_some(gone)
    }

    /// Puts a clause in place of the rule's own; which of the limits it reads.
    fn clause(&mut self, amended: &mut Amended, parts: &Parts, clause: &ClauseTree) -> Option<Vec<bool>> {
        let beside = parts.verb.map(|verb| verb.span).or(match &parts.condition {
            Some(NewCondition::Always(span) | NewCondition::Where(_, span)) => Some(*span),
            None => None,
        });
        if let Some(span) = beside {
            self.report.push(span, AmendmentProblem::BesideClause { clause: clause.span });
        }
        let refused = [parts.refused.as_slice(), &self.set.unread_figures].concat();
        let names = Names {
            limits: &amended.rule.limits,
            tables: &amended.rule.tables,
            classes: &amended.rule.classes,
            refused: &refused,
        };
        let read = resolve::clause(clause, names, self.report)?;
        let here = |limit: &String| parts.limits.iter().any(|new| new.name == *limit);
        for odd in read.reach.iter().filter(|odd| parts.tables.iter().any(|table| table.name == odd.table)) {
            if odd.row.as_ref().is_none_or(here) {
                self.report.push(odd.span, odd.problem.clone());
            }
        }
        let source = self.report.source;
        let now = one_line(source.slice(clause.span));
        amended.change(Part::Clause, clause.span, now, amended.old.wording());
        let rule = &mut amended.rule;
        rule.source = source.clone();
        rule.clause = clause.span;
        rule.kind = read.kind;
        rule.condition = read.condition;
        rule.narrows = clause.narrows.map(|span| (source.clone(), span));
        rule.unless = clause.spares.iter().map(|span| (source.clone(), *span)).collect();
        rule.requirement = read.requirement;
        rule.asks = clause.asks;
        rule.shall = clause.shall;
        // What was said of the old clause, why it stood and how sure it was, goes with it.
        for (part, slot, stated) in [
            (Part::Because, &mut rule.because, parts.because.is_some()),
            (Part::Sure, &mut rule.sure, parts.sure.is_some()),
        ] {
            if !stated && !slot.is_empty() {
                let before = std::mem::take(slot);
                let set_by = amended.old.set_by(&part).to_owned();
                amended.changes.push(Change { part, span: clause.span, now: String::new(), before, set_by });
            }
        }
        rule.says.clear();
        Some(read.used)
    }

    /// Puts the sentences that an amendment states in place of the rule's own; of one whose clause it replaced, there
    /// are none left.
    fn says(&mut self, amended: &mut Amended, parts: &Parts) {
        if parts.says.is_empty() {
            return;
        }
        let rule = &amended.rule;
        let refused = [parts.refused.as_slice(), &self.set.unread_figures].concat();
        let names = Names { limits: &rule.limits, tables: &rule.tables, classes: &rule.classes, refused: &refused };
        let says = sentence::sayings(&parts.says, rule.kind, names, &rule.requirement, self.report);
        let Some((first, last)) = parts.says.first().zip(parts.says.last()) else { return };
        let said = |source: &Source, span: Span| source.slice(span).to_owned();
        let before = amended.old.says.first().map(|old| said(&old.source, old.span)).unwrap_or_default();
        let now = said(self.report.source, first.span);
        if !says.is_empty() {
            amended.change(Part::Says, first.span.to(last.span), now, before);
            amended.rule.says = says;
        }
    }

    /// Changes a figure of the set below, in every rule that reads it.
    pub fn amend_figure(&mut self, block: &Block<'_>) {
        let name = self.figure_called(block);
        let names = (self.set.title.as_str(), name.as_str());
        let parts = parts_of_block(block.body, Holder::Figure, names, self.report);
        if name.is_empty() || self.base_is_lost {
            return;
        }
        let source = self.report.source;
        let below = |figure: &&Limit| figure.source != *source;
        let is_table = self.set.figure_tables.iter().any(|table| table.name == name);
        if !is_table && !self.set.figures.iter().filter(below).any(|figure| figure.name == name) {
            return self.no_such_figure(name, block.name_span);
        }
        if parts.limits.is_empty() {
            if !parts.damaged {
                self.report.push(block.name_span, SetProblem::NoFigure { figure: name });
            }
            return;
        }
        match parts.limits.first() {
            Some(new) if !is_table && parts.tables.is_empty() => self.move_figure(block, &parts, new),
            _ => self.move_table(block, &name, &parts),
        }
    }

    /// The figure that a block speaks of, by its name of now; where it is called as it was before, that is told.
    fn figure_called(&mut self, block: &Block<'_>) -> String {
        let name = &block.name;
        let figures = &self.set.figures;
        let tables = &self.set.figure_tables;
        if figures.iter().any(|figure| figure.name == *name) || tables.iter().any(|table| table.name == *name) {
            return name.clone();
        }
        let mut former = self.set.former_figures.iter().filter(|(former, _)| former == name).map(|(_, now)| now);
        match (former.next(), former.next()) {
            (Some(now), None) => {
                let now = now.clone();
                self.report.push(block.name_span, SetProblem::FormerFigure { was: name.clone(), now: now.clone() });
                now
            }
            _ => name.clone(),
        }
    }

    fn no_such_figure(&mut self, figure: String, place: Span) {
        if self.set.unread_figures.contains(&figure) {
            return;
        }
        let source = self.report.source;
        let tables = &self.set.figure_tables;
        let of_table = |limit: &Limit| tables.iter().find(|table| table.rows.iter().any(|row| row.limit == limit.name));
        let called = |limit: &Limit| of_table(limit).map_or_else(|| limit.name.clone(), |table| table.name.clone());
        let below = self.set.figures.iter().filter(|figure| figure.source != *source);
        let mut known: Vec<String> = below.map(called).collect();
        known.dedup();
        let near = nearest(&figure, known.iter().map(String::as_str)).map(str::to_owned);
        let own = self.set.figures.iter().find(|own| called(own) == figure && own.replaced.is_none());
        let own = own.map(|own| own.named);
        self.report.push(place, SetProblem::NoSuchFigure { figure, near, known, own });
    }

    /// Moves a figure, or one row of a figure that is a table, in every rule that reads it.
    fn move_figure(&mut self, block: &Block<'_>, parts: &Parts, new: &Limit) {
        let source = self.report.source;
        let here = |figure: &&mut Limit| figure.name == new.name && figure.source != *source;
        let Some(old) = self.set.figures.iter_mut().find(here) else { return };
        if old.measure.dimension != new.measure.dimension {
            let problem = other_sort(new, old);
            return self.report.push(new.span, problem);
        }
        if equal(old.measure.value, new.measure.value, old.measure.dimension) && old.metric.is_none() {
            let (limit, is, set) = (new.name.clone(), old.figures(), old.set.clone());
            return self.report.push(new.span, AmendmentProblem::SameLimit { limit, is, set });
        }
        if let Some(now) = another_unit(new, old) {
            self.report.push(new.span, AmendmentProblem::AnotherUnit { now, was: old.measure });
        }
        let cites = parts.cites.as_ref().map(|(cites, _)| cites.clone()).unwrap_or_default();
        let (replaced, formerly) = (Some(Box::new(old.clone())), old.formerly.clone());
        let figure = Limit { replaced, cites, formerly, ..new.clone() };
        *old = figure.clone();
        let reads = |limit: &Limit| limit.of == LimitOf::Set && limit.name == figure.name;
        let anew = parts.cites.is_some() && parts.sure.is_none();
        let mut found = Vec::new();
        for rule in self.set.rules.iter_mut().filter(|rule| rule.limits.iter().any(reads)) {
            let before = Rule::clone(rule);
            let mut amended = before.clone();
            let Some(limit) = amended.limits.iter_mut().find(|limit| reads(limit)) else { continue };
            let change = Change {
                part: Part::Limit(figure.name.clone()),
                span: figure.span,
                now: figure.figures(),
                before: limit.figures(),
                set_by: limit.set.clone(),
            };
            *limit = figure.clone();
            if let Some(fault) = satisfiability::fault(&amended).map(|found| found.fault) {
                let spoils = fault.spoils();
                found.push(fault);
                if spoils {
                    continue;
                }
            }
            let by = (self.set.title.as_str(), source, block.name_span);
            put_amendment(&before, &mut amended, vec![change], parts, by);
            if anew && amended.limits.iter().all(reads) {
                amended.sure.clear();
            }
            *rule = Arc::new(amended);
        }
        for fault in found {
            self.report.push(figure.span, Problem::Unsound { fault, amended: true, against: None });
        }
    }

    /// Puts a table, or one figure, in place of a figure that is a table or a single one, in every rule that reads it.
    fn move_table(&mut self, block: &Block<'_>, name: &str, parts: &Parts) {
        let source = self.report.source;
        let cites = parts.cites.as_ref().map(|(cites, _)| cites.clone()).unwrap_or_default();
        let old = self.set.figure_tables.iter().find(|table| table.name == name).cloned();
        let of_old = |limit: &Limit| match &old {
            Some(table) => table.rows.iter().any(|row| row.limit == limit.name),
            None => limit.name == name,
        };
        let first = self.set.figures.iter().find(|figure| of_old(figure)).cloned();
        if let Some((first, new)) = first.as_ref().zip(parts.limits.first())
            && first.measure.dimension != new.measure.dimension
        {
            let problem = other_sort(new, first);
            return self.report.push(new.span, problem);
        }
        // What the rules read: each of them is amended as by a table of its own.
        let reads = |rule: &Rule| rule.limits.iter().any(|limit| limit.of == LimitOf::Set && of_old(limit));
        let mut told = Vec::new();
        let limits: Vec<Limit> = parts
            .limits
            .iter()
            .map(|limit| Limit { cites: cites.clone(), named: block.name_span, ..limit.clone() })
            .collect();
        let readers: Vec<usize> =
            self.set.rules.iter().enumerate().filter(|(_, rule)| reads(rule)).map(|(at, _)| at).collect();
        for at in readers {
            let Some(before) = self.set.rules.get(at).map(|rule| Rule::clone(rule)) else { continue };
            let mut amended = Amended { rule: before.clone(), changes: Vec::new(), old: before.clone() };
            // Each rule would tell the same of the same words.
            std::mem::swap(self.report.found, &mut told);
            let of_rule = self.report.found.len();
            let added = self.limits(&mut amended, &limits);
            let asked = self.asked(&mut amended, parts, &added);
            let found = unsound(&amended, source, block.name_span);
            std::mem::swap(self.report.found, &mut told);
            let new: Vec<_> = told.drain(of_rule..).filter(|said| !self.report.found.contains(said)).collect();
            self.report.found.extend(new);
            if let Some((place, fault)) = found {
                let spoils = fault.spoils();
                self.report.push(place, Problem::Unsound { fault, amended: true, against: None });
                if spoils {
                    continue;
                }
            }
            if asked.is_none() || amended.changes.is_empty() {
                continue;
            }
            let Amended { rule: mut now, changes, .. } = amended;
            put_amendment(&before, &mut now, changes, parts, (&self.set.title, source, block.name_span));
            if let Some(place) = self.set.rules.get_mut(at) {
                *place = Arc::new(now);
            }
        }
        self.keep_figure(name, old.as_ref(), parts, &limits, first.as_ref());
    }

    /// Keeps a figure as an amendment leaves it, for the rules that read it from here on.
    fn keep_figure(&mut self, name: &str, old: Option<&Table>, parts: &Parts, limits: &[Limit], first: Option<&Limit>) {
        let set = &mut *self.set;
        let table = match (old, parts.tables.first()) {
            (Some(old), Some(new)) => Some(retabled(old, new).table),
            (_, new) => new.cloned(),
        };
        let before = std::mem::take(&mut set.figures);
        let of_old = |limit: &Limit| match old {
            Some(table) => table.rows.iter().any(|row| row.limit == limit.name),
            None => limit.name == name,
        };
        let (of_it, others): (Vec<Limit>, Vec<Limit>) = before.into_iter().partition(of_old);
        set.figures = others;
        let put = |limit: &Limit| {
            let before = of_it.iter().find(|before| before.name == limit.name);
            let named = first.map_or(limit.named, |first| first.named);
            let replaced = before.map(|before| Box::new(before.clone()));
            let formerly = before.map(|before| before.formerly.clone()).unwrap_or_default();
            Limit { named, replaced, formerly, ..limit.clone() }
        };
        let stays = |limit: &&Limit| {
            let has = |row: &TableRow| row.limit == limit.name;
            let restated = limits.iter().any(|new| new.name == limit.name);
            !restated && table.as_ref().is_some_and(|table| table.rows.iter().any(has))
        };
        let kept: Vec<Limit> = of_it.iter().filter(stays).cloned().collect();
        set.figures.extend(kept);
        set.figures.extend(limits.iter().map(put));
        set.figure_tables.retain(|table| table.name != name);
        set.figure_tables.extend(table);
    }

    /// Puts a condition and a verb in place of the rule's own; which of the limits the condition reads.
    fn condition_and_verb(&mut self, amended: &mut Amended, parts: &Parts) -> Option<Vec<bool>> {
        let mut used = Vec::new();
        match &parts.condition {
            Some(NewCondition::Where(tree, span)) => {
                let rule = &amended.rule;
                let refused = [parts.refused.as_slice(), &self.set.unread_figures].concat();
                let names =
                    Names { limits: &rule.limits, tables: &rule.tables, classes: &rule.classes, refused: &refused };
                let (node, read) = resolve::condition(tree, rule.kind, names, self.report)?;
                used = read;
                let spares = tree.unless.as_ref().map(|(_, spares)| *spares);
                self.narrow(amended, Some((node, tree.narrows)), spares, *span);
            }
            Some(NewCondition::Always(span)) => self.narrow(amended, None, None, *span),
            None => {}
        }
        if let Some(StatedVerb { shall, span }) = parts.verb {
            let verb = |shall| if shall { "shall" } else { "should" };
            if shall == amended.rule.shall {
                self.report.push(span, AmendmentProblem::SameVerb { verb: verb(shall) });
            } else {
                amended.change(Part::Verb, span, verb(shall).to_owned(), verb(!shall).to_owned());
                amended.rule.shall = shall;
            }
        }
        Some(used)
    }

    fn narrow(&mut self, amended: &mut Amended, condition: Option<(Node, Span)>, spares: Option<Span>, span: Span) {
        let here = |span: Span| (self.report.source.clone(), span);
        let narrows = condition.as_ref().map(|(_, narrows)| here(*narrows));
        let unless = spares.into_iter().map(here).collect();
        let new = Rule { narrows, unless, ..amended.rule.clone() };
        let words = |rule: &Rule| rule.condition_words().unwrap_or_else(|| "always".to_owned());
        let (now, before) = (words(&new), words(&amended.rule));
        if now == before {
            return self.report.push(span, AmendmentProblem::SameCondition);
        }
        let condition = condition.map(|(node, _)| node);
        self.dropped(amended, condition.as_ref(), span);
        amended.change(Part::Condition, span, now, before);
        amended.rule = Rule { condition, ..new };
    }

    /// Reports the parts of the rule's own condition that a new one does not hold.
    fn dropped(&mut self, amended: &Amended, condition: Option<&Node>, span: Span) {
        let rule = &amended.rule;
        let Some(before) = &rule.condition else { return };
        let kept: Vec<String> =
            condition.map(parts_of).unwrap_or_default().into_iter().map(|part| words(part, rule)).collect();
        // What the new one settles is kept in other words.
        let settled = |part: &Node| condition.is_some_and(|condition| satisfiability::settles(condition, part, rule));
        let gone = parts_of(before).into_iter().filter(|part| !settled(part));
        let gone = gone.map(|part| words(part, rule)).filter(|part| !kept.contains(part));
        let dropped: Vec<String> = gone.collect();
        // That it applies always is said in so many words.
        if !dropped.is_empty() && condition.is_some() {
            let set = amended.old.set_by(&Part::Condition).to_owned();
            self.report.push(span, AmendmentProblem::Drops { dropped, set });
        }
    }

    /// Reports the rules that keep a figure of which an amendment of this text changes one: the same figure, of the
    /// same quantity, or the very figure of the set that both read.
    pub fn same_figures(&mut self) {
        let here = |limit: &Limit| limit.source == *self.report.source;
        let mut found = Vec::new();
        for rule in &self.set.rules {
            let new = rule.limits.iter().enumerate().filter(|(_, limit)| here(limit));
            for (at, limit) in new {
                let Some(before) = &limit.replaced else { continue };
                let of = compared_with(rule, at);
                let keeps = |other: &&Arc<Rule>| {
                    let mut limits = other.limits.iter().enumerate();
                    other.name != rule.name
                        && limits.any(|(at, kept)| {
                            let same = kept.measure.dimension == before.measure.dimension
                                && equal(kept.measure.value, before.measure.value, kept.measure.dimension);
                            let shared =
                                before.of == LimitOf::Set && kept.of == LimitOf::Set && kept.name == before.name;
                            same && (shared || compared_with(other, at).iter().any(|quantity| of.contains(quantity)))
                        })
                };
                let rules: Vec<String> = self.set.rules.iter().filter(keeps).map(|other| other.name.clone()).collect();
                if !rules.is_empty() {
                    let problem = AmendmentProblem::SameFigure { figure: before.figures(), rules };
                    // A figure of the set is told of once, however many rules read it.
                    if !found.contains(&(limit.span, problem.clone())) {
                        found.push((limit.span, problem));
                    }
                }
            }
        }
        for (span, problem) in found {
            self.report.push(span, problem);
        }
    }

    fn texts(&mut self, amended: &mut Amended, parts: &Parts) {
        let mut put = |part: Part, stated: &Option<StatedText>, slot: fn(&mut Rule) -> &mut String| {
            let Some((text, span)) = stated else { return None };
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
            self.report.push(span, AmendmentProblem::SameText(part));
        }
        if let Some((waivable, span)) = parts.waivable {
            let word = |waivable| if waivable { "allowed" } else { "never" };
            if waivable == amended.rule.waivable {
                self.report.push(span, AmendmentProblem::SameText(Part::Waive));
            } else {
                amended.rule.waivable = waivable;
                amended.change(Part::Waive, span, word(waivable).to_owned(), word(!waivable).to_owned());
            }
        }
        // Figures that all come from another document are as sure as it is, not as those that they replace.
        let rule = &mut amended.rule;
        let anew = |limit: &Limit| limit.source == *self.report.source;
        if parts.cites.is_some() && parts.sure.is_none() && !rule.limits.is_empty() && rule.limits.iter().all(anew) {
            rule.sure.clear();
        }
    }

    /// Where the rule stands that a block speaks of; if there is none, why is reported.
    fn position(&mut self, block: &Block<'_>) -> Option<usize> {
        let name = &block.name;
        if name.is_empty() || self.base_is_lost {
            return None;
        }
        work::done(self.set.rules.len());
        let rules = || self.set.rules.iter();
        let found = rules().position(|rule| rule.name == *name);
        let former = || {
            let mut found = rules().enumerate().filter(|(_, rule)| rule.was_called(name));
            found.next().filter(|_| found.next().is_none())
        };
        // A rule of this very text is no other's to amend.
        if found.is_none()
            && self.own.iter().all(|(own, _)| own != name)
            && let Some((at, rule)) = former()
        {
            let problem = AmendmentProblem::FormerRule { was: name.clone(), now: rule.name.clone() };
            self.report.push(block.name_span, problem);
            return Some(at);
        }
        if found.is_none() && !self.set.unread.contains(name) {
            let problem = self.no_such_rule(name.clone(), block.kind);
            self.report.push(block.name_span, problem);
        }
        found
    }

    /// The rule that stands in place of one that was withdrawn: that set's own of the same source, which asks it of the same
    /// things; where there are several, none.
    fn heir(&self, gone: &Withdrawn) -> Option<String> {
        let of_it = |rule: &&Arc<Rule>| {
            rule.set == gone.set
                && rule.kind == gone.rule.kind
                && !rule.cites.is_empty()
                && rule.cites == gone.rule.cites
        };
        let mut heirs = self.set.rules.iter().filter(of_it);
        match (heirs.next(), heirs.next()) {
            (Some(heir), None) => Some(heir.name.clone()),
            _ => None,
        }
    }

    /// Why there is no rule of a name to amend or to withdraw.
    fn no_such_rule(&self, rule: String, block: BlockKind) -> AmendmentProblem {
        let Some(below) = self.set.takes_in.first() else { return AmendmentProblem::NothingBelow(block) };
        if let Some(gone) = self.set.withdrawn.iter().rev().find(|gone| gone.rule.name == rule) {
            let by = if gone.source == *self.report.source {
                Withdrawer::Here(gone.span)
            } else {
                Withdrawer::Below(gone.set.clone(), gone.source.passage(gone.span))
            };
            let because = gone.because.clone();
            let heir = self.heir(gone);
            return AmendmentProblem::Withdrawn { rule, block, by, because, heir };
        }
        if let Some((_, written)) = self.own.iter().find(|(own, _)| *own == rule) {
            return AmendmentProblem::OwnRule { rule, block, written: *written };
        }
        if is_held(&rule) {
            return AmendmentProblem::HeldAlways { rule, block };
        }
        let sought = self.report.found.len() < limits::NEAR_NAMES;
        let names = self.set.rules.iter().filter(move |_| sought).map(|rule| rule.name.as_str());
        let near = nearest(&rule, names.clone()).map(str::to_owned);
        let sharing = sharing_words(&rule, names);
        AmendmentProblem::NoSuchRule { rule, block, below: below.title.clone(), near, sharing }
    }
}

/// Notes in a rule what a figure of a set changes of it.
fn put_amendment(
    before: &Rule,
    now: &mut Rule,
    changes: Vec<Change>,
    parts: &Parts,
    (set, source, span): (&str, &Source, Span),
) {
    let way = way_of(before, now);
    match now.amendments.last_mut().filter(|last| last.source == *source) {
        // The same text amends the rule itself, too.
        Some(last) => {
            last.changes.extend(changes);
            last.way = last.way.max(way);
        }
        None => {
            let inherited = before.fragments.len();
            let grounds = if parts.cites.is_some() || parts.because.is_some() { Sourced::Yes } else { Sourced::No };
            let (set, source) = (set.to_owned(), source.clone());
            now.amendments.push(Amendment { set, source, span, changes, inherited, grounds, way });
        }
    }
}

/// The name of a figure of which a table takes the place; no clause can name it.
fn overruled(name: &str) -> String {
    [name, ":"].concat()
}

/// A row that an amendment adds, with the figure that counted for its words before.
fn supersedes(limit: &Limit, old: &Rule) -> Limit {
    let before = old.tables.iter().find_map(|table| {
        let words = limit.name.strip_prefix(table.name.as_str())?.trim_start().strip_prefix("for ")?;
        let holds = |asks: &RowAsks| match asks {
            RowAsks::Otherwise => true,
            RowAsks::Words(choice) => words.split(" or ").all(|word| choice.iter().any(|known| known.words == word)),
            RowAsks::Number(_) | RowAsks::Both(_) => false,
        };
        let row = table.rows.iter().find(|row| holds(&row.asks))?;
        old.limits.iter().find(|limit| limit.name == row.limit)
    });
    match before.filter(|before| before.measure.dimension == limit.measure.dimension) {
        Some(before) => Limit { replaced: Some(Box::new(before.clone())), ..limit.clone() },
        None => limit.clone(),
    }
}

/// Reads the clause of a rule again, for its tables are others; which of the limits it reads. Nothing where it cannot be
/// read so.
fn reread(rule: &mut Rule) -> Option<Vec<bool>> {
    let tree = syntax::parse_clause(&rule.source, rule.clause).ok()?;
    let mut found = Vec::new();
    let names = Names { limits: &rule.limits, tables: &rule.tables, classes: &rule.classes, refused: &[] };
    let read = resolve::clause(&tree, names, &mut Reporter { source: &rule.source, found: &mut found })?;
    let here = |span: &Span| (rule.source.clone(), *span);
    let narrowed_by_itself = rule.narrows == tree.narrows.as_ref().map(here)
        && rule.unless == tree.spares.iter().map(here).collect::<Vec<_>>();
    if narrowed_by_itself {
        rule.condition = read.condition;
    }
    rule.requirement = read.requirement;
    Some(read.used)
}

/// Takes out limits that no longer count, but for those that something of the rule still reads.
fn drop_unread(rule: &mut Rule, gone: Vec<String>) {
    if gone.is_empty() {
        return;
    }
    let mut read: Vec<usize> = Vec::new();
    let mut nodes: Vec<&Node> = rule.condition.iter().chain([&rule.requirement]).collect();
    nodes.extend(rule.says.iter().flat_map(|saying| &saying.pieces).filter_map(|piece| match piece {
        Piece::Put(Puts::Node(node), _) => Some(node),
        _ => None,
    }));
    nodes.iter().for_each(|node| node.reads_limits(&mut |at| read.push(at)));
    let stays: Vec<bool> =
        rule.limits.iter().enumerate().map(|(at, limit)| read.contains(&at) || !gone.contains(&limit.name)).collect();
    let moved = |at: usize| stays.iter().take(at).filter(|stays| **stays).count();
    rule.condition.iter_mut().chain([&mut rule.requirement]).for_each(|node| node.relimit(&moved));
    for piece in rule.says.iter_mut().flat_map(|saying| &mut saying.pieces) {
        if let Piece::Put(Puts::Node(node), _) = piece {
            node.relimit(&moved);
        }
    }
    let mut stays = stays.iter();
    rule.limits.retain(|_| stays.next().copied().unwrap_or(true));
}

/// So many names are offered for one that there is not.
const OFFERED: usize = 4;

/// Names that share whole words with another, those that share most first.
fn sharing_words<'n>(name: &str, names: impl Iterator<Item = &'n str>) -> Vec<String> {
    let words = |name: &str| -> Vec<String> { name.split_whitespace().map(str::to_lowercase).collect() };
    let wanted: Vec<String> = words(name).into_iter().filter(|word| word.len() > 2).collect();
    let shared = |other: &str| words(other).iter().filter(|word| wanted.contains(word)).count();
    let mut found: Vec<(usize, &str)> =
        names.map(|name| (shared(name), name)).filter(|(shared, _)| *shared > 0).collect();
    found.sort_by_key(|(shared, _)| std::cmp::Reverse(*shared));
    let most = found.first().map_or(0, |(shared, _)| *shared);
    found.into_iter().take_while(|(shared, _)| *shared == most).take(OFFERED).map(|(_, name)| name.to_owned()).collect()
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

/// What keeps an amended rule from doing what it is there for, and the words of the amendment that do so; what was no
/// better before was reported where it was written.
fn unsound(amended: &Amended, source: &Source, head: Span) -> Option<(Span, Fault)> {
    let alters = |change: &&Change| matches!(change.part, Part::Limit(_) | Part::Condition | Part::Clause);
    amended.changes.iter().find(alters)?;
    let found = satisfiability::fault(&amended.rule)?;
    let limit = found.limits.iter().filter_map(|at| amended.rule.limits.get(*at));
    let limit = limit.map(|limit| (&limit.source, limit.span)).find(|(from, _)| *from == source);
    let (place, span) = found.place;
    let text = match place {
        Place::Condition => amended.rule.narrows.iter().chain(&amended.rule.unless).map(|(source, _)| source).next(),
        Place::Requirement => Some(&amended.rule.source),
    };
    let narrowed = amended.changes.iter().find(|change| change.part == Part::Condition).map(|change| change.span);
    let span = match (limit, text, narrowed) {
        (Some((_, limit)), ..) => limit,
        (None, Some(text), _) if text == source => span,
        (None, _, Some(condition)) => condition,
        _ => head,
    };
    let before = satisfiability::fault(&amended.old);
    let as_before = before.is_some_and(|before| before.fault.notice() == found.fault.notice());
    (!as_before).then_some((span, found.fault))
}

/// What is said of a figure that takes the place of one of another sort.
fn other_sort(limit: &Limit, old: &Limit) -> AmendmentProblem {
    let bare = limit.measure.dimension == Dimension::NUMBER && limit.measure.style == Style::NUMBER;
    if bare && old.measure.dimension == Dimension::LENGTH {
        return AmendmentProblem::LimitWithoutUnit { limit: limit.name.clone() };
    }
    AmendmentProblem::OtherSort { now: limit.measure, was: old.measure, set: old.set.clone() }
}

/// A length in another unit than the one it replaces and less than half of it or more than twice as much, in that
/// one's unit: more likely a wrong unit than a change of that size.
fn another_unit(new: &Limit, old: &Limit) -> Option<Measure> {
    let ratio = new.measure.value / old.measure.value;
    let (new_style, old_style) = (new.measure.style, old.measure.style);
    // Feet and inches stand in one figure; centimetres and millimetres do not.
    let same = match (new_style.is_metric(), old_style.is_metric()) {
        (true, true) => new_style.unit().name == old_style.unit().name,
        (new, old) => new == old,
    };
    let far = new.measure.dimension == Dimension::LENGTH && !same && !(0.5..=2.0).contains(&ratio);
    far.then_some(Measure { style: old.measure.style, ..new.measure })
}

/// The parts that must all hold for a condition to.
fn parts_of(node: &Node) -> Vec<&Node> {
    match node {
        Node::All(terms) => terms.iter().flat_map(parts_of).collect(),
        other => vec![other],
    }
}

/// The names of what a limit of a rule is compared with.
fn compared_with(rule: &Rule, limit: usize) -> Vec<&'static str> {
    let mut names = Vec::new();
    for node in rule.condition.iter().chain([&rule.requirement]) {
        node.pairs(&mut |a, b| {
            let other = if a.limits().contains(&limit) { b } else { a };
            if (a.limits().contains(&limit) || b.limits().contains(&limit))
                && let Node::Read(What::Quantity(Quantity { name, .. }) | What::Property(Property { name, .. }), _) =
                    other
            {
                names.push(*name);
            }
        });
    }
    names
}

//! A ruleset from its text, and from the sets that it amends.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::amend::Amender;
use super::blocks::{Block, HEADING, blocks, is_ruleset, misplaced};
use super::drawing::is_drawing;
use super::figures::shared;
use super::parts::{Parts, StatedText, parts, parts_of, stated_once, text_of};
use super::problem::{BlockKind, BlockProblem, Holder, Problem, SetProblem};
use super::proportion::out_of_proportion;
use super::refusal::SetRefusal;
use super::resolve::{self, Names, Reach, Resolved};
use super::rule::{Applies, Below, Limit, LimitOf, Purpose, Rule, RuleSet};
use super::satisfiability;
use super::sentence;
use super::table::Table;
use crate::base::names::{nearest, says_something};
use crate::base::{Diagnostic, Reporter, Severity, Source, Span, lift};
use crate::syntax::{self, Item, Term, TermKind};

/// Finds the text of a set that another one amends: by its name or file as the other writes it, and the other's text.
pub type FindBase<'a> = dyn Fn(&str, &Source) -> Result<Source, SetRefusal> + 'a;

/// Longest chain of sets that take one another in.
const DEEPEST: usize = 16;

/// Reads a set and those it amends. What could not be read is in `found`; the rest of the set stands.
pub fn load(source: &Source, find_base: &FindBase<'_>, found: &mut Vec<Diagnostic<Problem>>) -> RuleSet {
    let before = found.len();
    let Some(set) = load_within(source, find_base, found, &mut vec![source.clone()]) else {
        return RuleSet { text: Some(source.clone()), title: source.name.to_string(), ..RuleSet::default() };
    };
    // Of a set that could not be read, that was reported.
    let read = found.iter().skip(before).all(|slip| slip.severity() == Severity::Advised);
    if set.rules.is_empty() && read {
        found.push(Diagnostic::whole(source, SetProblem::AsksNothing { withdrawn: set.withdrawn.len() }));
    }
    set
}

/// A set that takes no other in; what could not be read of it is in `found`.
pub fn load_alone(source: &Source, found: &mut Vec<Diagnostic<Problem>>) -> RuleSet {
    load(source, &|name, _| Err(SetRefusal::NotBuiltIn { name: name.to_owned(), near: None }), found)
}

/// Nothing if the text is no ruleset.
fn load_within(
    source: &Source,
    find_base: &FindBase<'_>,
    found: &mut Vec<Diagnostic<Problem>>,
    chain: &mut Vec<Source>,
) -> Option<RuleSet> {
    let (tree, slips) = syntax::rules_stated(source);
    if !is_ruleset(&tree.items) {
        // Of a text that is too large to be read nobody can say what it is.
        let too_large = slips.into_iter().find(|slip| slip.problem == syntax::Problem::TooLarge);
        found.push(too_large.map_or_else(|| Diagnostic::whole(source, SetProblem::NotARuleset), Diagnostic::lift));
        return None;
    }
    let mut here = lift(slips);
    let mut below = Vec::new();
    let mut loader = Loader {
        report: Reporter { source, found: &mut here },
        below: &mut below,
        find_base,
        set: RuleSet { text: Some(source.clone()), title: source.name.to_string(), ..RuleSet::default() },
        chain,
        base_is_lost: false,
        caution_below: String::new(),
        shipped: tree.kept,
        applies: if is_drawing(source) { Applies::WhereStated } else { Applies::Always },
        former_rules: Vec::new(),
        odd_figures: BTreeSet::new(),
    };
    loader.read(&tree.items);
    let set = loader.set;
    here.sort_by_key(|diagnostic| diagnostic.span);
    found.extend(below);
    found.extend(here);
    Some(set)
}

/// One text being read.
struct Loader<'a> {
    /// Where what is found in this text is reported.
    report: Reporter<'a, Problem>,
    /// What is found in the texts of the sets below.
    below: &'a mut Vec<Diagnostic<Problem>>,
    find_base: &'a FindBase<'a>,
    set: RuleSet,
    chain: &'a mut Vec<Source>,
    /// The set that it amends could not be had, which was reported; what it would amend is not known.
    base_is_lost: bool,
    /// What the authors of the set that it amends warn of.
    caution_below: String,
    /// The text is shipped: that its own rules can be kept and broken is held by a test, not proved at each start.
    shipped: bool,
    /// When its rules apply.
    applies: Applies,
    /// Former names of the rules of this text.
    former_rules: Vec<StatedText>,
    /// Where something odd was reported of the figures that are tables: once, however many rules read them.
    odd_figures: BTreeSet<Span>,
}

impl Loader<'_> {
    /// The heading first, whatever its place; then what is taken out, changed and added to the set below.
    fn read(&mut self, items: &[Item]) {
        let blocks = blocks(items, &mut self.report);
        let of = |kind: BlockKind| blocks.iter().filter(move |block| block.kind == kind);
        let mut heads = of(BlockKind::Ruleset);
        if let Some(head) = heads.next() {
            self.heading(head);
            heads.for_each(|second| self.report.push(second.head, SetProblem::SecondHeading { first: head.head }));
        }
        of(BlockKind::Figure).for_each(|block| self.figure(block));
        let own: Vec<_> = of(BlockKind::Rule).map(|block| (block.name.clone(), block.name_span)).collect();
        let (set, report) = (&mut self.set, &mut self.report);
        let mut amender = Amender { set, report, own: &own, base_is_lost: self.base_is_lost };
        of(BlockKind::Withdraw).for_each(|block| amender.withdraw(block));
        of(BlockKind::Amend).filter(|block| !block.of_figure).for_each(|block| amender.amend(block));
        of(BlockKind::Amend).filter(|block| block.of_figure).for_each(|block| amender.amend_figure(block));
        amender.same_figures();
        of(BlockKind::Rule).for_each(|block| self.rule(block));
        self.former_names_are_free();
        self.rules_together();
        self.below_is_amended();
        self.figures_are_read();
    }

    /// Holds each rule that this text states or changes against all others: of two that nothing meets both of it is told
    /// once, at this text's own words.
    fn rules_together(&mut self) {
        if self.shipped {
            return;
        }
        let source = self.report.source;
        let here = |rule: &Rule| {
            let amended = rule.amendments.iter().rev().find(|amendment| amendment.source == *source);
            amended
                .map(|amendment| amendment.span)
                .or_else(|| (rule.source == *source).then(|| satisfiability::asks(rule)))
        };
        let rules = &self.set.rules;
        for (at, rule) in rules.iter().enumerate() {
            let Some(place) = here(rule) else { continue };
            let mut others =
                rules.iter().enumerate().filter(|(other, rule)| *other != at && (*other < at || here(rule).is_none()));
            if let Some(fault) = others.find_map(|(_, other)| satisfiability::quarrel(rule, other)) {
                self.report.push(place, Problem::Unsound { fault, amended: false, against: None });
            }
        }
    }

    /// Notes whether this text changes anything of the set that it takes in.
    fn below_is_amended(&mut self) {
        let here = self.report.source;
        let amended = |rule: &Arc<Rule>| rule.amendments.iter().any(|amendment| amendment.source == *here);
        let amends = self.set.rules.iter().any(amended) || self.set.withdrawn.iter().any(|gone| gone.source == *here);
        if let Some(below) = self.set.takes_in.first_mut() {
            below.amended = amends;
        }
    }

    /// A figure that rules share.
    fn figure(&mut self, block: &Block<'_>) {
        let names = (self.set.title.as_str(), block.name.as_str());
        let parts = parts_of(block.body, Holder::Figure, names, &mut self.report);
        if block.name.is_empty() {
            return;
        }
        let figure = block.name.clone();
        if parts.limits.is_empty() {
            self.set.unread_figures.push(figure.clone());
            self.set.unread_figures.extend(parts.formerly.iter().map(|(former, _)| former.clone()));
        }
        if !syntax::is_name(&figure) {
            return self.report.push(block.name_span, BlockProblem::LimitName { name: figure });
        }
        let known = |known: &&Limit| known.name == figure || of_table(&self.set.figure_tables, &figure, &known.name);
        if let Some(earlier) = self.set.figures.iter().find(known) {
            let set = earlier.set.clone();
            return self.report.push(block.name_span, SetProblem::FigureTwice { figure, set });
        }
        if parts.limits.is_empty() {
            if !parts.damaged {
                self.report.push(block.name_span, SetProblem::NoFigure { figure });
            }
            return;
        }
        let cites = parts.cites.map(|(cites, _)| cites).unwrap_or_default();
        let formerly: Vec<String> =
            parts.formerly.iter().chain(&parts.former_limits).map(|(former, _)| former.clone()).collect();
        self.set.former_figures.extend(parts.formerly.into_iter().map(|(former, _)| (former, figure.clone())));
        for limit in parts.limits {
            let row = limit.name.strip_prefix(figure.as_str()).unwrap_or_default();
            let formerly = formerly.iter().map(|former| format!("{former}{row}")).collect();
            self.set.figures.push(Limit { named: block.name_span, cites: cites.clone(), formerly, ..limit });
        }
        let former = formerly.first().cloned();
        self.set
            .figure_tables
            .extend(parts.tables.into_iter().map(|table| Table { formerly: former.clone(), ..table }));
    }

    /// Reports the former names of this text that something in the set goes by, or went by too.
    fn former_names_are_free(&mut self) {
        for (name, span) in std::mem::take(&mut self.former_rules) {
            let now = self.set.rules.iter().any(|rule| rule.name == name);
            if now || self.set.rules.iter().filter(|rule| rule.was_called(&name)).count() > 1 {
                self.report.push(span, SetProblem::FormerNameTaken { name, now });
            }
        }
    }

    /// Reports the figures of this text that no rule reads.
    fn figures_are_read(&mut self) {
        let here = self.set.figures.iter().filter(|figure| figure.source == *self.report.source);
        let read = |figure: &Limit| {
            let mut limits = self.set.rules.iter().flat_map(|rule| &rule.limits);
            limits.any(|limit| limit.of == LimitOf::Set && limit.name == figure.name)
        };
        let tables = &self.set.figure_tables;
        let called = |figure: &Limit| {
            let table = tables.iter().find(|table| table.rows.iter().any(|row| row.limit == figure.name));
            table.map_or_else(|| figure.name.clone(), |table| table.name.clone())
        };
        let mut unread: Vec<_> =
            here.filter(|figure| !read(figure)).map(|figure| (figure.named, called(figure))).collect();
        unread.dedup();
        // One that could not be read may be the one that does.
        if self.set.unread.is_empty() {
            for (place, figure) in unread {
                self.report.push(place, SetProblem::UnusedFigure { figure });
            }
        }
    }

    fn heading(&mut self, block: &Block<'_>) {
        if !block.name.is_empty() {
            self.set.title.clone_from(&block.name);
            self.set.titled = block.name_span;
        }
        let mut stated = BTreeMap::new();
        for item in block.body {
            match item {
                Item::Property { name, name_span, value, value_span, damaged, .. } => {
                    if stated_once(&mut stated, name, *name_span, &mut self.report) {
                        self.heading_property(name, *name_span, value, *value_span, *damaged);
                    }
                }
                Item::Block { .. } => {}
                other => misplaced(other, &mut self.report),
            }
        }
        self.keep_caution_below();
        if let Some(below) = self.set.takes_in.iter().find(|below| below.title == self.set.title) {
            let title = below.title.clone();
            self.report.push(block.name_span, SetProblem::TitleOfBelow { title });
        }
    }

    /// What the authors of the set below warn of holds beside what its own do.
    fn keep_caution_below(&mut self) {
        let (own, below) = (&mut self.set.caution, &self.caution_below);
        if own.contains(below.as_str()) {
            return;
        }
        if !own.is_empty() {
            own.push(' ');
        }
        own.push_str(below);
    }

    fn heading_property(&mut self, name: &str, name_span: Span, value: &[Term], value_span: Span, damaged: bool) {
        if !HEADING.contains(&name) {
            let (name, near) = (name.to_owned(), nearest(name, HEADING));
            return self.report.push(name_span, SetProblem::HeadingProperty { name, near });
        }
        self.base_is_lost |= name == "amends" && (damaged || value.is_empty());
        if damaged {
            return;
        }
        if value.is_empty() {
            return self.report.push(name_span, BlockProblem::NothingStated { name: name.to_owned() });
        }
        let text = text_of(self.report.source, value, value_span);
        if !says_something(&text) {
            return self.report.push(value_span, BlockProblem::NothingStated { name: name.to_owned() });
        }
        match name {
            "basis" => self.set.basis = text,
            "edition" => self.set.edition = text,
            "caution" => self.set.caution = text,
            "for" => self.serves(value),
            "classes" => {
                let classes = text.split(',').map(|class| class.trim().to_lowercase());
                self.set.classes = classes.filter(|class| !class.is_empty()).collect();
            }
            _ => self.take_in(text, value, value_span),
        }
    }

    /// What the set is for: words of a closed list.
    fn serves(&mut self, value: &[Term]) {
        self.set.serves.clear();
        for term in value.iter().filter(|term| term.kind != TermKind::Comma) {
            let said = self.report.source.slice(term.span);
            match Purpose::of(said) {
                Some(purpose) => self.set.serves.push(purpose),
                None => {
                    let near = nearest(said, Purpose::ALL.map(Purpose::word));
                    self.report.push(term.span, SetProblem::Purpose { said: said.to_owned(), near });
                }
            }
        }
    }

    fn take_in(&mut self, name: String, value: &[Term], span: Span) {
        self.base_is_lost = true;
        if value.iter().any(|term| term.kind == TermKind::Comma) {
            return self.report.push(span, SetProblem::SeveralBases);
        }
        let base = match (self.find_base)(&name, self.report.source) {
            Ok(base) => base,
            Err(refusal) => return self.report.push(span, SetProblem::Refused(refusal)),
        };
        if is_drawing(&base) {
            return self.report.push(span, SetProblem::HeldAlways);
        }
        // The same text by another path is the same set.
        if let Some(at) = self.chain.iter().position(|set| set.name == base.name || set.text == base.text) {
            let sets = self.chain.iter().skip(at).map(|set| set.name.to_string()).collect();
            return self.report.push(span, SetProblem::Circle { sets });
        }
        if self.chain.len() >= DEEPEST {
            return self.report.push(span, SetProblem::TooDeep { name });
        }
        self.chain.push(base.clone());
        let taken = load_within(&base, self.find_base, self.below, self.chain);
        self.chain.pop();
        let Some(taken) = taken else { return };
        self.base_is_lost = false;
        self.set.takes_in =
            vec![Below { title: taken.title, edition: taken.edition, text: taken.text, amended: false }];
        self.set.takes_in.extend(taken.takes_in);
        self.set.rules = taken.rules;
        self.set.figures = taken.figures;
        self.set.figure_tables = taken.figure_tables;
        self.set.former_figures = taken.former_figures;
        self.set.withdrawn = taken.withdrawn;
        self.set.unread = taken.unread;
        self.set.unread_figures = taken.unread_figures;
        if self.set.serves.is_empty() {
            self.set.serves = taken.serves;
        }
        if self.set.classes.is_empty() {
            self.set.classes = taken.classes;
        }
        self.caution_below = taken.caution;
    }

    fn rule(&mut self, block: &Block<'_>) {
        let name = &block.name;
        let mut parts = parts(block.body, Holder::Rule, &self.set.title, &mut self.report);
        if name.is_empty() {
            return;
        }
        if let Some(earlier) = self.set.rules.iter().find(|rule| rule.name == *name) {
            let problem = taken(earlier, self.report.source);
            return self.report.push(block.name_span, problem);
        }
        let Some(clause) = parts.clause.take() else {
            if !parts.damaged {
                self.report.push(block.head, SetProblem::NoClause { rule: name.clone() });
            }
            return self.unread(name, &parts.formerly);
        };
        if parts.cites.as_ref().is_none_or(|(cites, _)| cites.is_empty()) && !parts.damaged {
            self.report.push(block.head, SetProblem::NoSource { rule: name.clone() });
        }
        let shared = shared(&clause, &parts, &self.set, self.report.source);
        parts.limits.extend(shared.limits);
        parts.tables.extend(shared.tables);
        parts.refused.extend(self.set.unread_figures.iter().cloned());
        let refused = parts.refused.clone();
        let names =
            Names { limits: &parts.limits, tables: &parts.tables, classes: &self.set.classes, refused: &refused };
        let read = resolve::clause(&clause, names, &mut self.report);
        let Some(read) = read.filter(|read| self.limits_are_sound(&parts.limits, read)) else {
            return self.unread(name, &parts.formerly);
        };
        let of_figure = |odd: &Reach| self.set.figure_tables.iter().find(|table| table.name == odd.table);
        for odd in &read.reach {
            match of_figure(odd).filter(|table| table.stands == odd.of) {
                // What a set below says of its figures was reported there.
                Some(_) if !self.odd_figures.insert(odd.span) => {}
                Some(table)
                    if !self.set.figures.iter().any(|figure| {
                        *self.report.source == figure.source
                            && of_table(std::slice::from_ref(table), &table.name, &figure.name)
                    }) => {}
                _ => self.report.push(odd.span, odd.problem.clone()),
            }
        }
        self.former_rules.extend(parts.formerly.iter().cloned());
        let rule = self.put_together(block, parts, &clause, read);
        if !self.shipped
            && let Some(found) = satisfiability::fault(&rule)
        {
            let (fault, against) = (found.fault, found.against);
            let spoils = fault.spoils();
            self.report.push(found.place.1, Problem::Unsound { fault, amended: false, against });
            if spoils {
                return self.set.unread.push(name.clone());
            }
        } else if !self.shipped
            && let Some(found) = satisfiability::idle(&rule)
        {
            self.report.push(found.place.1, Problem::Unsound { fault: found.fault, amended: false, against: None });
        } else if !self.shipped
            && let Some(found) = out_of_proportion(&rule)
            && let Some(place) = found.place(&rule, self.report.source)
        {
            let limits = found.values(&rule);
            let problem = Problem::OutOfProportion { settles: found.settles, words: found.words, limits };
            self.report.push(place, problem);
        }
        self.set.rules.push(Arc::new(rule));
    }

    /// Notes that a rule of the text could not be read, by each of its names.
    fn unread(&mut self, name: &str, formerly: &[StatedText]) {
        self.set.unread.push(name.to_owned());
        self.set.unread.extend(formerly.iter().map(|(former, _)| former.clone()));
    }

    /// Whether no limit hides what the kind has; that, and one that is never read, is reported.
    fn limits_are_sound(&mut self, limits: &[Limit], read: &Resolved) -> bool {
        for (limit, used) in limits.iter().zip(&read.used) {
            let name = || limit.name.clone();
            if resolve::known(&limit.name, read.kind) && limit.of == LimitOf::Rule {
                self.report.push(limit.named, SetProblem::LimitHides { limit: name(), kind: read.kind });
                return false;
            }
            if !used && limit.of == LimitOf::Rule {
                self.report.push(limit.span, SetProblem::UnusedLimit { limit: name() });
            }
        }
        true
    }

    fn put_together(&mut self, block: &Block<'_>, parts: Parts, clause: &syntax::ClauseTree, read: Resolved) -> Rule {
        let refused = parts.refused.clone();
        let names =
            Names { limits: &parts.limits, tables: &parts.tables, classes: &self.set.classes, refused: &refused };
        let says = sentence::sayings(&parts.says, read.kind, names, &read.requirement, &mut self.report);
        let source = self.report.source;
        let text = |stated: Option<(String, Span)>| stated.map(|(text, _)| text).unwrap_or_default();
        Rule {
            name: block.name.clone(),
            chapter: block.chapter.clone(),
            set: self.set.title.clone(),
            source: source.clone(),
            span: block.head,
            clause: clause.span,
            kind: read.kind,
            condition: read.condition,
            narrows: clause.narrows.map(|span| (source.clone(), span)),
            shall: clause.shall,
            requirement: read.requirement,
            asks: clause.asks,
            unless: clause.spares.iter().map(|span| (source.clone(), *span)).collect(),
            limits: parts.limits,
            classes: Arc::clone(&self.set.classes),
            tables: parts.tables,
            says,
            cites: text(parts.cites),
            because: text(parts.because),
            sure: text(parts.sure),
            fragments: parts.fragments.into_iter().map(|fragment| (source.clone(), fragment)).collect(),
            amendments: Vec::new(),
            waivable: parts.waivable.is_none_or(|(waivable, _)| waivable),
            applies: self.applies,
            formerly: parts.formerly.into_iter().map(|(former, _)| former).collect(),
        }
    }
}

/// Whether a limit is a row of the table of this name.
fn of_table(tables: &[Table], name: &str, limit: &str) -> bool {
    let mut named = tables.iter().filter(|table| table.name == name);
    named.any(|table| table.rows.iter().any(|row| row.limit == limit))
}

/// The problem of a rule whose name an earlier one has.
fn taken(earlier: &Rule, source: &Source) -> SetProblem {
    let name = earlier.name.clone();
    if earlier.source == *source && earlier.amendments.is_empty() {
        SetProblem::RuleTwice { name, first: earlier.span }
    } else {
        SetProblem::RuleOfBelow { name, set: earlier.set.clone() }
    }
}

#[cfg(test)]
mod tests {
    use std::path::{Path, PathBuf};

    use super::*;

    fn shipped(name: &str) -> PathBuf {
        Path::new(env!("CARGO_MANIFEST_DIR")).join("rulesets").join(name).with_extension("rules")
    }

    /// The set of a text, and what was found in it and in the sets that it amends, each followed by `end`.
    fn loaded(name: &str, end: &str) -> (RuleSet, Vec<Diagnostic<Problem>>) {
        let text = |name: &str| {
            let text = std::fs::read_to_string(shipped(name)).expect("a text");
            Source::new(name, format!("{text}{end}"))
        };
        let mut found = Vec::new();
        let set = load(&text(name), &|base, _| Ok(text(base)), &mut found);
        (set, found)
    }

    #[test]
    fn what_is_not_sought_in_a_shipped_set_is_not_in_it() {
        let sets = std::fs::read_dir(shipped("any").parent().expect("a folder")).expect("a folder");
        let sets = sets.map(|entry| entry.expect("an entry").path());
        let mut rules = 0;
        for path in sets.filter(|path| path.extension().is_some_and(|end| end == "rules")) {
            let name = path.file_stem().and_then(|stem| stem.to_str()).expect("a name");
            let (set, found) = loaded(name, "");
            assert_eq!(found, [], "{name}");
            // One sign more is another text: all is sought in it.
            let (sought, found) = loaded(name, "\n");
            assert_eq!(found, [], "{name}");
            assert_eq!(set.rules.len(), sought.rules.len(), "{name}");
            rules += set.rules.len();
        }
        assert!(rules > 200, "{rules} rules");
    }
}

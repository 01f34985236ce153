//! What came of one input, as one version of the library has it, and the lines that hold it on the disk.
//! Nothing here knows the library, so that both versions are written down alike.

use std::fmt::Write as _;

/// What came of one input.
#[derive(Debug, Clone, Default)]
pub struct Seen {
    /// Exit code of a run over this input alone.
    pub exit: u8,
    /// Rules by how they stand, where rules were held.
    pub tally: Option<Tally>,
    pub findings: Vec<Finding>,
    pub not_checked: Vec<NotChecked>,
    /// Sentences of the customs that stood in for what is not stated.
    pub customs: Vec<String>,
    pub sets: Vec<Set>,
    /// The shop's file that had a say, and in what.
    pub shop: Option<(String, Vec<String>)>,
    /// The proof of a set, where the input is one.
    pub proof: Option<Proof>,
}

#[derive(Debug, Clone, Copy, Default)]
pub struct Tally {
    pub passed: usize,
    pub broken: usize,
    pub advised: usize,
    pub not_applicable: usize,
    pub not_checked: usize,
    pub from_memory: usize,
}

/// A place in a text: its name, and the first byte and one past the last.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Place {
    pub text: String,
    pub start: u32,
    pub end: u32,
}

/// One finding. What a version does not tell is left empty.
#[derive(Debug, Clone, Default)]
pub struct Finding {
    /// Name of the rule or of the notice.
    pub name: String,
    pub class: String,
    /// The main label; none where the finding points at nothing.
    pub place: Option<Place>,
    /// The value found, as it is printed beside its limit.
    pub value: String,
    /// `at most`, `not`, and so on; empty for `equal` and `is`.
    pub relation: String,
    pub limit: String,
    /// Words that are offered to be written, in their order.
    pub offers: Vec<String>,
    /// The rule that would ask for more if the offer were taken.
    pub then: String,
    /// The word that was likely meant.
    pub nearest: String,
    /// The other labels, in their order.
    pub behind: Vec<Place>,
    /// Words of the shop's file.
    pub beside: Vec<Place>,
    /// Title of the set whose rule speaks.
    pub set: String,
    /// Message and help: shown, and compared only where wordings are asked for.
    pub said: String,
}

/// A rule that could not be settled for one element.
#[derive(Debug, Clone, Default)]
pub struct NotChecked {
    pub set: String,
    pub rule: String,
    pub shall: bool,
    /// The element, as a report calls it.
    pub about: String,
    pub place: Place,
    /// What would settle it.
    pub needs: String,
}

/// A set that a design was held to, or that was read.
#[derive(Debug, Clone, Default)]
pub struct Set {
    pub title: String,
    pub edition: String,
    pub basis: String,
    pub caution: String,
    /// Titles and editions of the sets that it takes in, the nearest first.
    pub amends: Vec<String>,
}

/// How the proof of a set went.
#[derive(Debug, Clone, Default)]
pub struct Proof {
    pub rules: usize,
    pub withdrawn: usize,
    pub fragments: usize,
    pub set_aside: usize,
    pub without_passing: usize,
    pub without_failing: usize,
    /// Fragments that do not do what they are there for.
    pub failed: Vec<Failed>,
}

#[derive(Debug, Clone, Default)]
pub struct Failed {
    pub rule: String,
    pub kind: String,
    pub place: Place,
    pub said: String,
}

/// One line: a fact about an input. Facts of one part and name are matched with one another.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Fact {
    pub part: String,
    pub name: String,
    pub fields: Vec<(String, String)>,
}

impl Fact {
    pub fn new(part: &str, name: &str, fields: &[(&str, String)]) -> Self {
        let fields = fields.iter().map(|(key, value)| ((*key).to_owned(), value.clone())).collect();
        Self { part: part.to_owned(), name: name.to_owned(), fields }
    }

    pub fn field(&self, wanted: &str) -> &str {
        self.fields.iter().find(|(key, _)| key == wanted).map_or("", |(_, value)| value)
    }

    /// The line of an input.
    pub fn line(&self, input: &str) -> String {
        let mut line = format!("{}\t{}\t{}", escaped(input), self.part, escaped(&self.name));
        for (key, value) in self.fields.iter().filter(|(_, value)| !value.is_empty()) {
            let _ = write!(line, "\t{key}={}", escaped(value));
        }
        line
    }

    /// The input and the fact of a line.
    pub fn read(line: &str) -> Option<(String, Self)> {
        let mut columns = line.split('\t');
        let (input, part, name) = (columns.next()?, columns.next()?, columns.next()?);
        let fields = columns.filter_map(|column| column.split_once('='));
        let fields = fields.map(|(key, value)| (key.to_owned(), plain(value))).collect();
        Some((plain(input), Self { part: part.to_owned(), name: plain(name), fields }))
    }
}

/// One line of text for any text.
pub fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '\\' => out.push_str("\\\\"),
            '\n' => out.push_str("\\n"),
            '\t' => out.push_str("\\t"),
            '\r' => out.push_str("\\r"),
            c if c.is_control() => drop(write!(out, "\\u{:x};", u32::from(c))),
            c => out.push(c),
        }
    }
    out
}

/// The text of such a line.
pub fn plain(line: &str) -> String {
    let mut out = String::with_capacity(line.len());
    let mut chars = line.chars();
    while let Some(c) = chars.next() {
        match (c, if c == '\\' { chars.next() } else { None }) {
            ('\\', Some('n')) => out.push('\n'),
            ('\\', Some('t')) => out.push('\t'),
            ('\\', Some('r')) => out.push('\r'),
            ('\\', Some('u')) => {
                let figures: String = chars.by_ref().take_while(|c| *c != ';').collect();
                out.extend(u32::from_str_radix(&figures, 16).ok().and_then(char::from_u32));
            }
            ('\\', Some(other)) => out.push(other),
            (c, _) => out.push(c),
        }
    }
    out
}

impl Place {
    fn told(&self) -> String {
        format!("{}:{}..{}", self.text, self.start, self.end)
    }
}

fn told(places: &[Place]) -> String {
    places.iter().map(Place::told).collect::<Vec<_>>().join(" | ")
}

impl Seen {
    /// The facts of it, one a line.
    pub fn facts(&self) -> Vec<Fact> {
        let mut facts = vec![Fact::new("exit", "exit", &[("code", self.exit.to_string())])];
        if let Some(tally) = self.tally {
            let counts = [
                ("passed", tally.passed.to_string()),
                ("broken", tally.broken.to_string()),
                ("advised", tally.advised.to_string()),
                ("not applicable", tally.not_applicable.to_string()),
                ("not checked", tally.not_checked.to_string()),
                ("from memory", tally.from_memory.to_string()),
            ];
            facts.push(Fact::new("tally", "tally", &counts));
        }
        facts.extend(self.findings.iter().map(Finding::fact));
        facts.extend(self.not_checked.iter().map(NotChecked::fact));
        facts.extend(self.customs.iter().map(|custom| Fact::new("custom", custom, &[])));
        facts.extend(self.sets.iter().map(Set::fact));
        if let Some((name, shares)) = &self.shop {
            facts.push(Fact::new("shop", name, &[("shares", shares.join(" | "))]));
        }
        if let Some(proof) = &self.proof {
            facts.push(proof.fact());
            facts.extend(proof.failed.iter().map(Failed::fact));
        }
        facts
    }
}

impl Finding {
    fn fact(&self) -> Fact {
        let fields = [
            ("class", self.class.clone()),
            ("place", self.place.as_ref().map(Place::told).unwrap_or_default()),
            ("value", self.value.clone()),
            ("relation", self.relation.clone()),
            ("limit", self.limit.clone()),
            ("offers", self.offers.join(" | ")),
            ("then", self.then.clone()),
            ("nearest", self.nearest.clone()),
            ("behind", told(&self.behind)),
            ("beside", told(&self.beside)),
            ("set", self.set.clone()),
            ("said", self.said.clone()),
        ];
        Fact::new("finding", &self.name, &fields)
    }
}

impl NotChecked {
    fn fact(&self) -> Fact {
        let fields = [
            ("set", self.set.clone()),
            ("verb", if self.shall { "shall" } else { "should" }.to_owned()),
            ("about", self.about.clone()),
            ("place", self.place.told()),
            ("needs", self.needs.clone()),
        ];
        Fact::new("not checked", &self.rule, &fields)
    }
}

impl Set {
    fn fact(&self) -> Fact {
        let fields = [
            ("edition", self.edition.clone()),
            ("basis", self.basis.clone()),
            ("caution", self.caution.clone()),
            ("amends", self.amends.join(" | ")),
        ];
        Fact::new("set", &self.title, &fields)
    }
}

impl Proof {
    fn fact(&self) -> Fact {
        let fields = [
            ("rules", self.rules.to_string()),
            ("withdrawn", self.withdrawn.to_string()),
            ("fragments", self.fragments.to_string()),
            ("failed", self.failed.len().to_string()),
            ("set aside", self.set_aside.to_string()),
            ("without passing", self.without_passing.to_string()),
            ("without failing", self.without_failing.to_string()),
        ];
        Fact::new("proof", "proof", &fields)
    }
}

impl Failed {
    fn fact(&self) -> Fact {
        let fields = [("kind", self.kind.clone()), ("place", self.place.told()), ("said", self.said.clone())];
        Fact::new("failed proof", &self.rule, &fields)
    }
}

//! Holds what two versions came to against each other: what differs, by kind, and whether it is known why.

use std::collections::BTreeMap;
use std::error::Error;
use std::fmt::Write as _;
use std::fs;
use std::path::Path;

use super::input::Corpus;
use super::record::Fact;

/// Fields that are compared only where wordings are asked for.
const WORDING: &str = "said";

/// One difference.
struct Difference {
    /// `finding: limit, offers`, `finding: no longer`, `exit: code`.
    kind: String,
    input: String,
    name: String,
    /// The fields that differ, as they were and as they are.
    before: String,
    after: String,
    /// What else to show.
    shown: String,
}

/// A difference that is known, with its reason.
struct Known {
    kind: String,
    input: String,
    name: String,
    before: String,
    after: String,
    reason: String,
    covers: usize,
}

type Facts = BTreeMap<String, Vec<Fact>>;

/// `compare BEFORE NOW KNOWN RENAMED DIFFERENCES SAMPLES WORDS`: true where nothing is left unexplained.
pub fn run(arguments: &[String]) -> Result<bool, Box<dyn Error>> {
    let [before, now, known, renamed, out, samples, words] = arguments else {
        return Err("compare BEFORE NOW KNOWN RENAMED DIFFERENCES SAMPLES WORDS".into());
    };
    let mut old = read(before)?;
    let new = read(now)?;
    rename(&mut old, &table(renamed)?);
    // A run over fewer inputs is held against those of them that the other has.
    old.retain(|input, _| new.contains_key(input));
    let lacking = new.keys().filter(|input| !old.contains_key(*input)).count();
    if lacking > 0 || new.is_empty() {
        return Err(format!("{lacking} of {} inputs were not put to both versions", new.len()).into());
    }
    let mut known: Vec<Known> = table(known)?.into_iter().filter_map(Known::read).collect();
    let mut differences = Vec::new();
    let mut reworded = BTreeMap::new();
    for (input, after) in &new {
        let before = old.get(input).map_or(&[][..], Vec::as_slice);
        differences.extend(held(input, before, after, words == "yes", &mut reworded));
    }
    account(&old);
    told(&differences, &mut known, out, samples.parse()?, &reworded, new.len())
}

/// `text CORPUS INPUT`: the text of an input.
pub fn text(arguments: &[String]) -> Result<(), Box<dyn Error>> {
    let [folder, name] = arguments else { return Err("text CORPUS INPUT".into()) };
    let corpus = Corpus::read(Path::new(folder), 1)?;
    let found = corpus.inputs.iter().find(|input| input.name == *name).ok_or("there is no such input")?;
    print!("{}", found.text);
    Ok(())
}

/// The facts of each input, from all parts of an answer.
fn read(stem: &str) -> Result<Facts, Box<dyn Error>> {
    let mut facts = Facts::new();
    for part in 0.. {
        let path = format!("{stem}.{part}");
        if !Path::new(&path).exists() {
            break;
        }
        for line in fs::read_to_string(path)?.split('\n').filter(|line| !line.is_empty()) {
            let (input, fact) = Fact::read(line).ok_or_else(|| format!("no fact: {line}"))?;
            facts.entry(input).or_default().push(fact);
        }
    }
    Ok(facts)
}

/// Rows of a table: columns between tabs; what begins with `#` is none.
fn table(path: &str) -> Result<Vec<Vec<String>>, Box<dyn Error>> {
    let text = fs::read_to_string(path)?;
    let rows = text.lines().filter(|line| !line.trim().is_empty() && !line.starts_with('#'));
    Ok(rows.map(|line| line.split('\t').map(str::to_owned).collect()).collect())
}

/// Puts the words of now for those of before: `FIELD, BEFORE, NOW`. The field `name` is a fact's name.
fn rename(facts: &mut Facts, table: &[Vec<String>]) {
    for fact in facts.values_mut().flatten() {
        for row in table {
            let [field, before, now] = row.as_slice() else { continue };
            if field == "name" && fact.name == *before {
                fact.name.clone_from(now);
            }
            if field == "part" && fact.part == *before {
                fact.part.clone_from(now);
            }
            for (_, value) in fact.fields.iter_mut().filter(|(key, value)| key == field && value == before) {
                value.clone_from(now);
            }
        }
    }
}

fn stripped(fact: &Fact) -> Fact {
    let fields = fact.fields.iter().filter(|(key, value)| key != WORDING && !value.is_empty()).cloned().collect();
    Fact { fields, ..fact.clone() }
}

/// What differs for one input.
fn held(
    input: &str,
    before: &[Fact],
    after: &[Fact],
    words: bool,
    reworded: &mut BTreeMap<String, usize>,
) -> Vec<Difference> {
    let panicked = |facts: &[Fact]| facts.iter().any(|fact| fact.part == "panic");
    let difference = |kind: &str, fact: &Fact| Difference {
        kind: kind.to_owned(),
        input: input.to_owned(),
        name: fact.name.clone(),
        before: String::new(),
        after: String::new(),
        shown: fact.line(input),
    };
    match (panicked(before), panicked(after)) {
        (true, true) => return Vec::new(),
        (true, false) => return before.iter().take(1).map(|fact| difference("panic: no longer", fact)).collect(),
        (false, true) => return after.iter().take(1).map(|fact| difference("panic: new", fact)).collect(),
        (false, false) => {}
    }
    let mut old: Vec<&Fact> = before.iter().collect();
    let mut new: Vec<&Fact> = Vec::new();
    for fact in after {
        let same = stripped(fact);
        let worded = old.iter().position(|old| *old == fact);
        match worded.or_else(|| old.iter().position(|old| stripped(old) == same)) {
            Some(at) => {
                let was = old.swap_remove(at);
                if was.field(WORDING) != fact.field(WORDING) {
                    *reworded.entry(format!("{}: {}", fact.part, fact.name)).or_default() += 1;
                    if words {
                        new.push(fact);
                        old.push(was);
                    }
                }
            }
            None => new.push(fact),
        }
    }
    let mut differences = Vec::new();
    // The likest are held against each other first.
    let alike: [fn(&Fact, &Fact) -> bool; 4] = [
        |a, b| a.part == b.part && a.name == b.name && a.field("place") == b.field("place"),
        |a, b| a.part == b.part && a.name == b.name,
        |a, b| a.part == b.part && a.field("place") == b.field("place") && a.field("value") == b.field("value"),
        |a, b| a.part == "shop" && b.part == "shop",
    ];
    for alike in alike {
        let mut left = Vec::new();
        for fact in new {
            match old.iter().position(|old| alike(old, fact)) {
                Some(at) => differences.push(fields(input, old.remove(at), fact)),
                None => left.push(fact),
            }
        }
        new = left;
    }
    differences.extend(old.iter().map(|fact| gone(difference(&format!("{}: no longer", fact.part), fact), fact, true)));
    differences.extend(new.iter().map(|fact| gone(difference(&format!("{}: new", fact.part), fact), fact, false)));
    differences
}

/// A fact that only one of the two has.
fn gone(difference: Difference, fact: &Fact, before: bool) -> Difference {
    let said = format!("{} at {}", fact.field("class"), fact.field("place"));
    if before { Difference { before: said, ..difference } } else { Difference { after: said, ..difference } }
}

/// Two facts that speak of the same, by the fields that differ.
fn fields(input: &str, before: &Fact, after: &Fact) -> Difference {
    let mut keys: Vec<&str> = Vec::new();
    for (key, _) in before.fields.iter().chain(&after.fields) {
        if !keys.contains(&key.as_str()) && before.field(key) != after.field(key) {
            keys.push(key);
        }
    }
    if keys.len() > 1 {
        keys.retain(|key| *key != WORDING);
    }
    let told = |fact: &Fact| {
        let each = keys.iter().map(|key| format!("{key}={}", super::record::escaped(fact.field(key))));
        each.collect::<Vec<_>>().join(" ")
    };
    let (mut was, mut is) = (told(before), told(after));
    if before.name != after.name {
        keys.insert(0, "name");
        was = format!("name={} {was}", before.name);
        is = format!("name={} {is}", after.name);
    }
    Difference {
        kind: format!("{}: {}", after.part, keys.join(", ")),
        input: input.to_owned(),
        name: before.name.clone(),
        before: was,
        after: is,
        shown: after.line(input),
    }
}

impl Known {
    fn read(row: Vec<String>) -> Option<Self> {
        let [kind, input, name, before, after, reason] = <[String; 6]>::try_from(row).ok()?;
        Some(Self { kind, input, name, before, after, reason, covers: 0 })
    }

    fn explains(&self, difference: &Difference) -> bool {
        let pairs = [
            (&self.kind, &difference.kind),
            (&self.input, &difference.input),
            (&self.name, &difference.name),
            (&self.before, &difference.before),
            (&self.after, &difference.after),
        ];
        pairs.into_iter().all(|(pattern, text)| fits(pattern, text))
    }
}

/// A pattern in which `*` is any text.
fn fits(pattern: &str, text: &str) -> bool {
    let mut parts = pattern.split('*');
    let first = parts.next().unwrap_or_default();
    let Some(mut rest) = text.strip_prefix(first) else { return false };
    let parts: Vec<&str> = parts.collect();
    let Some((last, middle)) = parts.split_last() else { return rest.is_empty() };
    for part in middle {
        match rest.split_once(part) {
            Some((_, after)) => rest = after,
            None => return false,
        }
    }
    rest.ends_with(last)
}

/// How much was compared.
fn account(facts: &Facts) {
    let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
    let mut inputs: BTreeMap<&str, usize> = BTreeMap::new();
    for (input, facts) in facts {
        *inputs.entry(input.split('/').next().unwrap_or_default()).or_default() += 1;
        for fact in facts {
            *counts.entry(&fact.part).or_default() += 1;
        }
    }
    let listed = |counts: &BTreeMap<&str, usize>| {
        counts.iter().map(|(what, count)| format!("{count} {what}")).collect::<Vec<_>>().join(", ")
    };
    println!("inputs: {}", listed(&inputs));
    println!("facts of the earlier version: {}", listed(&counts));
    let finding = |field: &str| {
        let all = facts.values().flatten().filter(|fact| fact.part == "finding" && !fact.field(field).is_empty());
        format!("{} with {field}", all.count())
    };
    println!("of the findings: {}", ["place", "value", "limit", "offers", "nearest", "behind"].map(finding).join(", "));
}

fn told(
    differences: &[Difference],
    known: &mut [Known],
    out: &str,
    samples: usize,
    reworded: &BTreeMap<String, usize>,
    inputs: usize,
) -> Result<bool, Box<dyn Error>> {
    let mut all = String::new();
    let mut left: BTreeMap<&str, Vec<&Difference>> = BTreeMap::new();
    for difference in differences {
        let explained = known.iter_mut().find(|known| known.explains(difference));
        let reason = explained.as_ref().map_or("", |known| known.reason.as_str()).to_owned();
        match explained {
            Some(known) => known.covers += 1,
            None => left.entry(&difference.kind).or_default().push(difference),
        }
        let Difference { kind, input, name, before, after, .. } = difference;
        let _ = writeln!(all, "{kind}\t{input}\t{name}\t{before}\t{after}\t{reason}");
    }
    fs::write(out, all)?;
    for known in known.iter() {
        let idle = if known.covers == 0 { "COVERS NOTHING, take it out: " } else { "" };
        println!("known, {:5}: {idle}{} [{}] {}", known.covers, known.kind, known.name, known.reason);
    }
    let worded: usize = reworded.values().sum();
    println!("{worded} facts are the same in other words, of {} names (`--words` lists them)", reworded.len());
    for (kind, of_kind) in &left {
        println!("\n{:5}  {kind}", of_kind.len());
        for difference in of_kind.iter().take(samples) {
            println!("       {} [{}]", difference.input, difference.name);
            println!("         before: {}", difference.before);
            println!("         now:    {}", difference.after);
            println!("         {}", difference.shown.replace('\t', " ; "));
        }
    }
    let unexplained: usize = left.values().map(Vec::len).sum();
    let explained = differences.len() - unexplained;
    println!("\n{inputs} inputs, {explained} known differences, {unexplained} that nothing explains (all in {out})");
    Ok(unexplained == 0)
}

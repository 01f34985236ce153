//! The words of the rule language, each with what it says and an example. The reference reads this table; the grammar
//! and the reader know the same words, and a test holds every example to them.

/// Where a word may stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stands {
    /// At the top of a set.
    Set,
    /// In the heading of a set.
    Heading,
    /// In a rule.
    Rule,
    /// In an amendment, where what stands in a rule stands too.
    Amendment,
    /// In a clause.
    Clause,
}

/// One word, or what is written with it.
#[derive(Debug, Clone, Copy)]
pub struct Word {
    /// Where it may stand.
    pub stands: Stands,
    /// As it is written.
    pub word: &'static str,
    /// What it says.
    pub help: &'static str,
    /// A piece of a set that has it.
    pub example: &'static str,
}

macro_rules! words {
    ($($stands:ident $word:literal, $help:literal, $example:literal;)*) => {
        /// Every word of the rule language.
        pub static WORDS: &[Word] =
            &[$(Word { stands: Stands::$stands, word: $word, help: $help, example: $example }),*];
    };
}

words! {
    Set "ruleset", "the heading of a set: its title, and what it rests on", "ruleset \"Shop rules\" { basis: \"our own bench\" }";
    Set "chapter", "rules that belong together", "chapter \"Treads\" { }";
    Set "rule", "one rule, by its name", "rule \"low risers\" { each riser shall have height <= 7\"; source: \"common practice\" }";
    Set "figure", "a figure that several rules read under one name, so that another set moves it once", "figure \"ball\" { is: 4\" (102 mm) }\nrule \"gap\" { each guard shall have opening < ball; source: \"x\" }";
    Set "is by", "of a figure that is a table: a figure, then when it counts, as in a limit", "figure \"bend\" { is by width of flight: 42\" up to 44\", 60\" otherwise }\nrule \"boards\" { each tread shall have length <= bend; source: \"x\" }";
    Set "amend", "changes a rule of the set that is taken in", "amend \"riser height\" { limit tallest: 7-1/2\" }";
    Set "amend figure", "moves a figure of the set that is taken in, in every rule that reads it", "amend figure \"shared\" { is: 7-1/2\"; source: \"county 4\" }";
    Set "withdraw", "takes out a rule of the set that is taken in", "withdraw \"riser spread\" { because: \"Ordinance 14-4 holds neighbours instead.\" }";
    Heading "basis", "what the set rests on", "basis: \"our own bench\"";
    Heading "edition", "of that", "edition: \"2026\"";
    Heading "caution", "what a report says with every result", "caution: \"A pass is no permit.\"";
    Heading "for", "what it is for: `dwelling`, `shared`, `public`, `workplace`, `accessible` or `any`", "for: dwelling, public";
    Heading "classes", "the classes of use that its document has; a stair states its `class`", "classes: service, common, main private";
    Heading "amends", "takes in another set, by its name or its file", "amends: residential";
    Rule "limit", "a figure with a name, so that another set can change it", "limit most: 42\"";
    Rule "limit ( )", "beside a figure in inches, the metric one that the source prints: what is written in metric alone is held to that one", "limit most: 42\" (1067 mm)";
    Rule "limit by", "a table: a figure, then when it counts (`up to`, `under`, `over`, `from` or `at` a figure, `for` a word, `otherwise`); the first row that holds", "limit most by width of flight: 42\" up to 44\", 48\" over 44\" up to 60\", 60\" otherwise";
    Rule "limit by, and", "a table that goes by two things: each row says both, joined by `and`, or one", "limit most by use of stair and width of flight: 42\" for dwelling and up to 44\", 48\" for dwelling, 60\" otherwise";
    Rule "read between", "last row of a table: between rows that stand `at` a figure the value is read in proportion", "limit most by width of flight: 42\" at 36\", 60\" at 54\", read between";
    Rule "limit, formerly", "the name that a limit went by before: what amends it by that is read, and told the new one", "limit most formerly longest: 42\"";
    Rule "formerly", "the name that a rule, or a figure, went by before, in quotes; several parted by commas", "formerly: \"longest board\"";
    Rule "says", "the rule's own sentence for a finding, with `element`, `value`, `limit`, `asked`, `miss`, `verb`, `words`, a limit or any value of the clause put in; `says height: ...` where that decided", "says: \"{element} is {value} high, {verb} be {asked}: {miss}\"";
    Rule "source", "document and clause; every rule has one", "source: \"common practice\"";
    Rule "because", "why, in one sentence", "because: \"Longer boards bow.\"";
    Rule "sure", "`memory` where the figure was not looked up, `second hand` where it was seen quoted by another, `seen` where it was seen", "sure: memory";
    Rule "waive", "`never` where no design may give itself leave to depart from the rule; `allowed`, unless stated", "waive: never";
    Rule "passes", "a piece of a design that passes", "passes: flight { risers: 3 of 7\" }";
    Rule "fails", "a piece of a design that fails", "fails: flight { risers: 3 of 12\" }";
    Rule "spares", "a piece of a design to which the rule does not apply", "spares: handrail left { }";
    Amendment "verb", "`shall` or `should`, in place of the rule's own", "verb: should";
    Amendment "where", "what narrows the rule, in place of its own; `always` for nothing", "where: setting of stair is outdoors";
    Clause "each", "opens a clause, with the kind that it holds", "each riser shall have height <= 7\"";
    Clause "where", "narrows it", "each tread where run < 11\" shall have nosing >= 3/4\"";
    Clause "unless", "spares, before the verb or at the end", "each flight shall have width >= 36\" unless rise < 30\"";
    Clause "shall have", "is required; not met, it is broken", "each riser shall have height <= 7\"";
    Clause "should have", "is advice; not met, it is advised", "each riser should have height <= 7\"";
    Clause "per", "a slope, as so much per foot", "each tread shall have slope <= 1/4\" per 12\"";
    Clause "<=, <", "at most, and less than; chained where a value stands between two", "each guard shall have 34\" <= height <= 42\" and opening < 4\"";
    Clause ">=, >", "at least, and more than; a value at its limit passes `>=` and fails `>`", "each flight where number of risers > 3 shall have width >= 36\"";
    Clause "=, !=", "just that, and any other", "each flight where number of risers != 1 shall have number of handrails = 1";
    Clause "is, is not", "a word, or any other", "each tread shall have edge is not square";
    Clause "is one of", "any of these words", "each handrail shall have ends is one of returned, at a post";
    Clause "and, or, not", "join and deny conditions; parentheses group them", "each flight where not (rise < 30\" or width > 60\") shall have number of handrails >= 1 and width >= 36\"";
    Clause "+ - * /", "reckon, with blanks round a minus", "each flight shall have (unit run + 2 * unit rise) / 2 - 1/2\" <= 12\"";
    Clause "per", "a straight slope, one length over another", "each landing shall have slope <= 1/4\" per 12\"";
    Clause "of", "asks something that the thing belongs to or serves", "each tread shall have length >= width of flight";
    Clause "of riser before, riser after", "the neighbour in a row, going up: of a riser, tread, flight or landing", "each riser shall have height of riser before - height <= 3/16\" and height of riser after - height <= 3/16\"";
    Clause "first, last", "the first and the last of a row", "each flight shall have height of first riser - height of last riser <= 3/8\"";
    Clause "drawn, measured", "the value as it was drawn, and as it was measured; where nothing was measured the rule does not apply", "each riser shall have measured height - drawn height <= 3/16\"";
    Clause "deviation of", "how far the measured value is from the drawn one, either way", "each riser shall have deviation of height <= 3/16\"";
    Clause "( )", "a place worked out", "each tread where shape is winder shall have depth at (width of flight / 2) >= 10\"";
    Clause "number of", "how many there are", "each flight shall have number of handrails >= 1";
    Clause "number of ( where )", "how many there are of such", "each flight shall have number of (handrails where risers missed = 0) >= 1";
    Clause "largest, smallest", "of all of them", "each flight shall have largest height of risers - smallest height of risers <= 3/8\"";
    Clause "total", "of all of them together", "each stair shall have total rise of flights <= 151\"";
    Clause "largest change of, along", "between neighbours", "each flight shall have largest change of height along risers <= 3/16\"";
    Clause "largest increase of, along", "between neighbours, going up", "each flight shall have largest increase of height along risers <= 3/16\"";
    Clause "largest decrease of, along", "between neighbours, going up", "each flight shall have largest decrease of height along risers <= 3/16\"";
    Clause "lesser of, greater of", "of two values", "each flight shall have lesser of rise and 30\" <= greater of run and 10\"";
}

#[cfg(test)]
mod tests {
    use super::super::load;
    use super::*;
    use crate::base::Source;

    fn below() -> Source {
        let rule = |name: &str, tallest: &str| {
            format!(
                "rule \"{name}\" {{ limit tallest: {tallest}; each riser shall have height <= tallest; source: \"x\" }}
"
            )
        };
        let shared = "figure \"shared\" { is: 8\" }
rule \"shared height\" { each riser shall have height <= shared; source: \"x\" }
";
        Source::new("base", rule("riser height", "7\"") + &rule("riser spread", "6\"") + shared)
    }

    /// A set without a rule is an error.
    const RULE: &str = "rule \"low\" { each riser shall have height <= 7\"; source: \"x\" }";

    #[test]
    fn every_example_is_read_without_a_word_to_say() {
        let base = "ruleset \"b\" { amends: residential }\n";
        for word in WORDS {
            let example = word.example;
            let text = match word.stands {
                Stands::Set if word.word == "ruleset" => format!("{example}\n{RULE}"),
                Stands::Set => format!("{base}{example}"),
                Stands::Heading => format!("ruleset \"t\" {{ {example} }}\n{RULE}"),
                Stands::Rule if example.starts_with("limit") => {
                    format!("rule \"r\" {{ {example}\n each tread shall have length <= most; source: \"x\" }}")
                }
                Stands::Amendment => format!("{base}amend \"riser height\" {{ {example} }}"),
                Stands::Rule if word.word == "source" => {
                    format!("rule \"r\" {{ each riser shall have height <= 7\"\n {example} }}")
                }
                Stands::Rule => {
                    format!("rule \"r\" {{ each riser shall have height <= 7\"\n source: \"x\"\n {example} }}")
                }
                Stands::Clause => format!("rule \"r\" {{ {example}; source: \"x\" }}"),
            };
            let mut findings = Vec::new();
            let set = load(&Source::new("t.rules", &text), &|_, _| Ok(below()), &mut findings);
            assert!(findings.is_empty(), "`{}`: {findings:?}\n{text}", word.word);
            assert!(!set.rules.is_empty(), "{text}");
            for part in word.word.split([',', ' ', '(', ')']).filter(|part| !part.is_empty()) {
                assert!(example.contains(part), "the example of `{}` has no `{part}`", word.word);
            }
        }
    }

    #[test]
    fn every_word_of_the_grammar_is_in_the_table() {
        let grammar = include_str!("../../grammar/rules.pest");
        let clause = grammar.split("clause      = {").nth(1).unwrap();
        let known: Vec<&str> = WORDS.iter().flat_map(|word| word.word.split([',', ' ', '(', ')'])).collect();
        let mut met = 0;
        for quoted in clause.lines().filter(|line| !line.trim_start().starts_with("//")) {
            for word in quoted.split('"').skip(1).step_by(2).filter(|word| word.chars().all(char::is_alphabetic)) {
                if word.len() > 1 {
                    assert!(known.contains(&word), "`{word}` of the grammar is not told");
                    met += 1;
                }
            }
        }
        assert!(met > 20, "{met}");
    }
}

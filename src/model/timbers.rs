//! What the trade says of timber: species, grades and treatments, each word in one table. The reader, its messages and
//! the reference read them.

use std::sync::LazyLock;

use super::phrases::Index;
use crate::handbook::gravity;

/// What is known of a timber by its name.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Species {
    /// The words that name it, lower case.
    pub name: &'static str,
    /// What it is called besides.
    pub also: &'static [&'static str],
    /// Of a broad-leaved tree.
    pub hardwood: bool,
    /// Its heartwood stands the weather untreated.
    pub durable: bool,
}

/// A grade.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Grade {
    /// The words of its stamp.
    pub name: &'static str,
    /// How it is written besides.
    pub also: &'static [&'static str],
}

/// What was done to a timber before it was built in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Treatment {
    /// What it is called.
    pub name: &'static str,
    /// How it is written besides.
    pub also: &'static [&'static str],
    /// What it does to how long the timber lasts.
    pub lasts: Lasts,
}

/// What is called so that was treated against fire.
pub const FIRE_RETARDANT: &str = "fire-retardant-treated";

/// What a treatment does to how long a timber lasts outdoors.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lasts {
    /// A preservative was forced into it.
    Preserved,
    /// None was: it lasts as its species does.
    Unpreserved,
    /// It says nothing of that: it was dried, or made safe for transport.
    AsBefore,
}

const fn soft(name: &'static str) -> Species {
    Species { name, also: &[], hardwood: false, durable: false }
}

const fn hard(name: &'static str) -> Species {
    Species { hardwood: true, ..soft(name) }
}

impl Species {
    const fn durable(self) -> Self {
        Self { durable: true, ..self }
    }

    const fn or(self, also: &'static [&'static str]) -> Self {
        Self { also, ..self }
    }

    /// Specific gravity by oven-dry weight and volume, where it is one timber of the handbook's table.
    pub fn gravity(&self) -> Option<f64> {
        gravity(self.name).map(|row| row.gravity)
    }

    /// Everything that it is called.
    pub fn names(&'static self) -> impl Iterator<Item = &'static str> {
        std::iter::once(self.name).chain(self.also.iter().copied())
    }
}

/// Gravities stand in the handbook's table under these names, each with its source. Which heartwoods last outdoors, and by what other names a timber goes: common practice, no source.
pub static SPECIES: &[Species] = &[
    soft("southern pine").or(&["southern yellow pine", "SYP"]),
    soft("mixed southern pine"),
    soft("douglas fir").or(&["douglas fir-larch", "doug fir", "DF-L"]),
    soft("douglas fir-larch north"),
    soft("douglas fir south"),
    soft("hem-fir"),
    soft("hem-fir north"),
    soft("spruce-pine-fir").or(&["SPF", "S-P-F"]),
    soft("spruce-pine-fir south").or(&["SPF south"]),
    soft("redwood").durable(),
    soft("redwood open grain").durable(),
    soft("northern white cedar").durable(),
    soft("alaska yellow cedar").durable(),
    soft("western red cedar").durable().or(&["cedar", "western cedar", "western cedars"]),
    soft("eastern white pine"),
    soft("ponderosa pine"),
    soft("scots pine").or(&["european redwood"]),
    soft("pine"),
    soft("hemlock"),
    soft("cypress").durable(),
    soft("spruce").or(&["norway spruce", "sitka spruce"]),
    soft("larch").durable().or(&["european larch", "siberian larch", "western larch"]),
    soft("fir"),
    hard("red oak"),
    hard("white oak").durable(),
    hard("oak"),
    hard("red maple"),
    hard("maple"),
    hard("beech"),
    hard("birch"),
    hard("hickory"),
    hard("poplar"),
    hard("black locust").durable().or(&["robinia"]),
    hard("black walnut").durable(),
    hard("chestnut").durable().or(&["sweet chestnut"]),
    hard("iroko").durable(),
    hard("ipe").durable(),
    hard("teak").durable(),
    hard("walnut"),
    hard("ash"),
];

const fn grade(name: &'static str, also: &'static [&'static str]) -> Grade {
    Grade { name, also }
}

/// Visual grades of the NDS supplement, and strength classes of EN 338: from memory.
pub static GRADES: &[Grade] = &[
    grade("No.1", &[]),
    grade("No.2", &[]),
    grade("No.3", &[]),
    grade("No.1 dense", &["dense No.1"]),
    grade("No.2 dense", &["dense No.2"]),
    grade("select structural", &["structural select"]),
    grade("dense select structural", &[]),
    grade("construction", &["construction grade"]),
    grade("standard", &["standard grade"]),
    grade("stud", &["stud grade"]),
    grade("utility", &["utility grade"]),
    grade("clear", &["clear grade"]),
    grade("C14", &[]),
    grade("C16", &[]),
    grade("C18", &[]),
    grade("C24", &[]),
    grade("C30", &[]),
    grade("D24", &[]),
    grade("D30", &[]),
    grade("D40", &[]),
];

/// What treatments are called: common practice, no source; the use categories are those of AWPA U1, from memory.
pub static TREATMENTS: &[Treatment] = &[
    Treatment {
        name: "treated",
        also: &[
            "pressure-treated",
            "preservative-treated",
            "PT",
            "KDAT",
            "kiln-dried after treatment",
            "ground contact",
            "treated for ground contact",
            "pressure-treated for ground contact",
            "UC3B",
            "UC4A",
            "UC4B",
        ],
        lasts: Lasts::Preserved,
    },
    Treatment {
        name: "untreated",
        also: &[
            "not treated",
            "never treated",
            "non-treated",
            "no treatment",
            "without treatment",
            "not pressure-treated",
            "not preservative-treated",
            "no preservative",
        ],
        lasts: Lasts::Unpreserved,
    },
    Treatment { name: "kiln-dried", also: &["KD", "S-DRY", "air-dried", "dry"], lasts: Lasts::AsBefore },
    Treatment { name: FIRE_RETARDANT, also: &["FRT"], lasts: Lasts::AsBefore },
    Treatment { name: "heat-treated", also: &["HT", "KD-HT"], lasts: Lasts::AsBefore },
    Treatment { name: "green", also: &["S-GRN", "unseasoned"], lasts: Lasts::AsBefore },
];

/// The timber that a name of somebody's own says, whole, in words of the trade: with its grade and what was done to it,
/// whatever its case, blanks and dashes, in the singular or in the plural; and whether that was preserved.
pub fn named(name: &str) -> Option<(&'static Species, bool)> {
    let (species, preserved) = said_by(name)?;
    Some((species?, preserved))
}

/// Whether a name says a grade or a treatment in words of the trade, and no timber.
pub fn names_no_timber(name: &str) -> bool {
    said_by(name).is_some_and(|(species, _)| species.is_none())
}

/// The timber that a name says, if any, and whether it was preserved; nothing where a word of it is none of the trade.
fn said_by(name: &str) -> Option<(Option<&'static Species>, bool)> {
    let words = plain_words(name);
    let (mut found, mut preserved, mut rest) = (None, false, words.as_slice());
    if rest.is_empty() {
        return None;
    }
    while !rest.is_empty() {
        let begins =
            |phrase: &str| Some(plain_words(phrase)).filter(|said| rest.starts_with(said)).map(|said| said.len());
        let longest =
            phrases().filter_map(|(phrase, said)| Some((begins(phrase)?, said))).max_by_key(|(used, _)| *used);
        let (used, said) = longest?;
        match said {
            Said::Species(species) => {
                if found.replace(species).is_some_and(|first: &Species| first != species) {
                    return None;
                }
            }
            Said::Treatment(treatment) => preserved |= treatment.lasts == Lasts::Preserved,
            Said::Grade(_) => {}
        }
        rest = rest.get(used..).unwrap_or_default();
    }
    Some((found, preserved))
}

/// The words of a name in lower case and in the singular, without what parts them.
fn plain_words(name: &str) -> Vec<String> {
    let name = name.to_lowercase().replace(['#', '№'], " no.");
    let parted = |sign: char| !(sign.is_alphanumeric() || sign == '/');
    let mut words: Vec<String> = name.split(parted).filter(|word| !word.is_empty()).map(singular).collect();
    // `S-P-F` is `SPF`.
    if words.iter().all(|word| word.chars().count() == 1) {
        words = vec![words.concat()];
    }
    words
}

fn singular(word: &str) -> String {
    let parts = |stem: &str, end: &str| word.strip_suffix(end).filter(|rest| rest.ends_with(stem)).map(str::to_owned);
    let many = word.chars().count() > 3 && word.ends_with('s') && !word.ends_with("ss") && !word.ends_with("us");
    let of_hiss = || parts("ch", "es").or_else(|| parts("sh", "es")).or_else(|| parts("ss", "es"));
    let of_y = || word.strip_suffix("ies").map(|rest| format!("{rest}y"));
    match many {
        true => of_hiss().or_else(of_y).unwrap_or_else(|| word.strip_suffix('s').unwrap_or(word).to_owned()),
        false => word.to_owned(),
    }
}

/// The timber of a name, if it is a known one.
pub fn species(name: &str) -> Option<&'static Species> {
    SPECIES.iter().find(|species| species.names().any(|known| known.eq_ignore_ascii_case(name)))
}

/// What a word of a timber's value says.
#[derive(Debug, Clone, Copy)]
pub enum Said {
    /// Which timber it is.
    Species(&'static Species),
    /// Its grade.
    Grade(&'static Grade),
    /// What was done to it.
    Treatment(&'static Treatment),
}

/// Every phrase of the three tables.
pub fn phrases() -> impl Iterator<Item = (&'static str, Said)> {
    let species = SPECIES.iter().flat_map(|row| row.names().map(move |name| (name, Said::Species(row))));
    let grades = GRADES.iter().flat_map(|row| both(row.name, row.also).map(move |name| (name, Said::Grade(row))));
    let treated = TREATMENTS.iter();
    let treatments = treated.flat_map(|row| both(row.name, row.also).map(move |name| (name, Said::Treatment(row))));
    species.chain(grades).chain(treatments)
}

/// The same by their first letters.
pub static INDEX: LazyLock<Index<Said>> = LazyLock::new(|| Index::of(phrases()));

fn both(name: &'static str, also: &'static [&'static str]) -> impl Iterator<Item = &'static str> {
    std::iter::once(name).chain(also.iter().copied())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_is_taken_whole() {
        let of = |said| species(said).map(|species| (species.name, species.gravity()));
        assert_eq!(of("southern pine"), Some(("southern pine", Some(0.55))));
        assert_eq!(of("mixed southern pine"), Some(("mixed southern pine", Some(0.51))));
        assert_eq!(of("European larch"), Some(("larch", None)));
        assert_eq!(of("white oak"), Some(("white oak", Some(0.73))));
        assert_eq!(of("bog oak"), None);
    }

    #[test]
    fn a_name_of_ones_own_is_known_however_it_is_written() {
        let of = |said| named(said).map(|(species, preserved)| (species.name, preserved));
        for pine in [
            "southern pine",
            "Southern  Pine",
            "southern-pine",
            "southern\u{2013}pine",
            "Southern pines",
            "SYP",
            "syp #2",
            "southern pine No.2",
            "southern pine No. 2, KD",
            "No.2 southern yellow pine",
        ] {
            assert_eq!(of(pine), Some(("southern pine", false)), "{pine}");
        }
        assert_eq!(of("southern pine, treated"), Some(("southern pine", true)));
        assert_eq!(of("s.p.f."), Some(("spruce-pine-fir", false)));
        assert_eq!(of("white oaks"), Some(("white oak", false)));
        assert_eq!(of("beeches"), Some(("beech", false)));
        assert_eq!(of("cypress"), Some(("cypress", false)));
        for none in ["treated", "No. 2", "PT", "pressure treated, S-DRY"] {
            assert!(names_no_timber(none), "{none}");
        }
        assert!(!names_no_timber("bog oak") && !names_no_timber("spruce, treated") && !names_no_timber(""));
        for other in ["bog oak", "treated", "No.2", "", "best southern pine", "oak or ash"] {
            assert_eq!(of(other), None, "{other}");
        }
    }

    /// A row of the table whose name nobody can write serves nobody; these stand for timbers that are sold under other names.
    #[test]
    fn every_gravity_is_that_of_a_timber() {
        let sold_otherwise = ["western woods", "northern species", "eastern softwoods", "eastern hemlock-tamarack"];
        for row in crate::handbook::GRAVITIES.iter() {
            let named = SPECIES.iter().any(|species| species.name == row.species);
            assert!(named != sold_otherwise.contains(&row.species), "{}", row.species);
        }
        assert_eq!(SPECIES.iter().filter(|species| species.gravity().is_some()).count(), 25);
    }

    #[test]
    fn no_phrase_stands_in_two_rows() {
        let mut seen = std::collections::BTreeSet::new();
        for (phrase, _) in phrases() {
            assert!(seen.insert(phrase.to_lowercase().replace('-', " ")), "{phrase} stands twice");
        }
    }
}

//! What the trade says of the finish of a tread, in one table: which words there are, and which of them grip when it is
//! wet. The reader, its messages and the reference read it.

use std::sync::LazyLock;

use super::phrases::Index;
use crate::measure::Measure;

/// One part of a finish.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct FinishWord {
    /// What it is called.
    pub name: &'static str,
    /// How it is written besides.
    pub also: &'static [&'static str],
    /// Whether it grips when it is wet.
    pub grips: Grips,
    /// What it is laid on as.
    pub laid: Laid,
}

/// Whether a finish grips when it is wet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Grips {
    /// Whatever else is put on.
    Always,
    /// Only while no film of paint or varnish fills it, and nothing smooths it.
    Open,
    /// It does not.
    Never,
}

/// What a part of a finish is laid on as.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Laid {
    /// In strips, which have a length.
    Strip,
    /// As a film that closes the surface.
    Film,
    /// It soaks in.
    Soaked,
    /// The surface itself is worked.
    Worked,
    /// Smooth, so that nothing of a rough surface is left.
    Smooth,
    /// Nothing is put on.
    Bare,
}

/// A stated finish.
#[derive(Debug, Clone, PartialEq)]
pub struct Finish {
    /// Its parts, in the order in which they are stated; at least one.
    pub parts: Vec<&'static FinishWord>,
    /// How long its strips are.
    pub strip: Option<Measure>,
}

impl Finish {
    /// Whether it grips when it is wet.
    pub fn grips(&self) -> bool {
        let closed = self.parts.iter().any(|part| matches!(part.laid, Laid::Film | Laid::Smooth));
        self.parts.iter().any(|part| match part.grips {
            Grips::Always => true,
            Grips::Open => !closed,
            Grips::Never => false,
        })
    }

    /// Whether a part of it is laid on in strips.
    pub fn has_strip(&self) -> bool {
        self.parts.iter().any(|part| part.laid == Laid::Strip)
    }

    /// Its parts, with commas between.
    pub fn words(&self) -> String {
        self.parts.iter().map(|part| part.name).collect::<Vec<_>>().join(", ")
    }
}

impl FinishWord {
    /// Everything that it is called.
    pub fn names(&'static self) -> impl Iterator<Item = &'static str> {
        std::iter::once(self.name).chain(self.also.iter().copied())
    }

    /// Whether the two cannot be true of one surface.
    pub fn contradicts(&self, other: &FinishWord) -> bool {
        let on = |bare: Laid, coat: Laid| bare == Laid::Bare && matches!(coat, Laid::Film | Laid::Soaked);
        let rough = |open: &FinishWord, smooth: Laid| open.grips == Grips::Open && smooth == Laid::Smooth;
        on(self.laid, other.laid) || on(other.laid, self.laid) || rough(self, other.laid) || rough(other, self.laid)
    }
}

const fn strip(name: &'static str, also: &'static [&'static str]) -> FinishWord {
    FinishWord { name, also, grips: Grips::Always, laid: Laid::Strip }
}

const fn grips(name: &'static str, also: &'static [&'static str], laid: Laid) -> FinishWord {
    FinishWord { name, also, grips: Grips::Always, laid }
}

const fn slips(name: &'static str, also: &'static [&'static str], laid: Laid) -> FinishWord {
    FinishWord { name, also, grips: Grips::Never, laid }
}

/// Which finishes grip when they are wet: common practice, no source. A word that may say two things (`sanded` alone
/// says that the wood was smoothed, not that there is sand on it) counts as the one that grips less.
pub static FINISHES: &[FinishWord] = &[
    strip("grit strip", &["grit strips", "sanded strip", "sanded strips", "abrasive strip", "abrasive strips"]),
    strip("grip strip", &["grip strips", "anti-slip strip", "anti-slip strips", "non-slip strip", "non-slip strips"]),
    strip("grip tape", &["grit tape", "anti-slip tape", "non-slip tape", "abrasive tape"]),
    grips(
        "sand in the paint",
        &["sanded paint", "paint with sand", "sand in paint", "grit in the paint", "paint with grit"],
        Laid::Film,
    ),
    grips("sand in the varnish", &["varnish with sand", "sand in varnish", "grit in the varnish"], Laid::Film),
    grips("anti-slip paint", &["non-slip paint", "slip-resistant paint", "grip paint", "deck grip paint"], Laid::Film),
    grips("anti-slip varnish", &["non-slip varnish", "slip-resistant varnish"], Laid::Film),
    grips("grooved", &["grooves", "grooved along", "grooved across", "ribbed", "ribs"], Laid::Worked),
    grips("wire mesh", &["mesh"], Laid::Worked),
    FinishWord {
        name: "rough sawn",
        also: &["sawn rough", "rough", "left rough", "saw rough"],
        grips: Grips::Open,
        laid: Laid::Worked,
    },
    slips("oil", &["oiled", "deck oil", "decking oil", "linseed oil", "danish oil", "tung oil"], Laid::Soaked),
    slips("hard wax oil", &["hardwax oil"], Laid::Film),
    slips("wax", &["waxed"], Laid::Film),
    slips("soap", &["soaped"], Laid::Soaked),
    slips("stain", &["stained"], Laid::Soaked),
    slips("varnish", &["varnished", "spar varnish", "floor varnish", "yacht varnish"], Laid::Film),
    slips("lacquer", &["lacquered"], Laid::Film),
    slips("paint", &["painted", "floor paint", "deck paint", "gloss paint", "primer", "primed"], Laid::Film),
    slips("carpet", &["carpeted", "carpet runner"], Laid::Film),
    slips("planed", &["planed smooth", "sanded", "sanded smooth", "smooth", "sanded down"], Laid::Smooth),
    slips(
        "bare",
        &["left bare", "unfinished", "not finished", "no finish", "none", "unpainted", "not painted"],
        Laid::Bare,
    ),
];

/// Every phrase of the table.
pub fn phrases() -> impl Iterator<Item = (&'static str, &'static FinishWord)> {
    FINISHES.iter().flat_map(|row| row.names().map(move |name| (name, row)))
}

/// The same by their first letters.
pub static INDEX: LazyLock<Index<&'static FinishWord>> = LazyLock::new(|| Index::of(phrases()));

#[cfg(test)]
mod tests {
    use super::*;

    fn of(names: &[&str]) -> Finish {
        let part = |name: &&str| phrases().find(|(phrase, _)| phrase == name).expect("a finish").1;
        Finish { parts: names.iter().map(part).collect(), strip: None }
    }

    /// Common practice, no source: what a joiner would walk on in the rain.
    #[test]
    fn what_is_smooth_or_under_a_film_does_not_grip() {
        for names in [&["sanded smooth", "varnished"][..], &["rough sawn", "paint"], &["oil"], &["bare"], &["sanded"]] {
            assert!(!of(names).grips(), "{names:?}");
        }
        for names in [&["grit strip"][..], &["varnish", "grip tape"], &["sanded paint"], &["rough sawn", "oil"]] {
            assert!(of(names).grips(), "{names:?}");
        }
    }

    #[test]
    fn no_phrase_stands_in_two_rows() {
        let mut seen = std::collections::BTreeSet::new();
        for (phrase, _) in phrases() {
            assert!(seen.insert(phrase.replace('-', " ")), "{phrase} stands twice");
        }
    }
}

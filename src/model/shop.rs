//! What a shop states once for every design below its file: rulesets by folder, stock, the longest bit.

use super::design::Stated;
use super::value::Section;
use crate::base::{Levels, Source, Span};

/// The name of a shop's file; it stands at the root of the shop's drawings.
pub const SHOP_FILE: &str = "shop.pitchboard";

/// A shop.
#[derive(Debug, Clone)]
pub struct Shop {
    /// Its name.
    pub title: String,
    /// Its file's text.
    pub source: Source,
    /// The rulesets of every design below, with their places.
    pub rules: Vec<(String, Span)>,
    /// The rulesets of single folders.
    pub folders: Vec<Folder>,
    /// What fails a run, of every design below; nothing where it does not say.
    pub fail_on: Option<Levels>,
    /// How deep its longest bit reaches.
    pub longest_bit: Option<Stated>,
    /// The sections it stocks.
    pub sections: Vec<StockedSection>,
    /// The timbers it stocks.
    pub timbers: Vec<StockedTimber>,
    /// Names of stock that stand in the file and could not be read.
    pub unread: Vec<String>,
}

/// A folder of a shop's drawings.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Folder {
    /// Its path from the shop's file, parts joined by `/`.
    pub path: String,
    /// Where that stands.
    pub span: Span,
    /// The rulesets of the designs in it and below; none where it does not name any.
    pub rules: Vec<(String, Span)>,
    /// What of those designs fails a run; nothing where it does not say.
    pub fail_on: Option<Levels>,
}

impl Folder {
    /// Whether a design lies in it or below, by its path from the shop's file.
    fn holds(&self, design: &str) -> bool {
        design.strip_prefix(self.path.as_str()).is_some_and(|rest| rest.starts_with('/'))
    }
}

/// A section that a shop stocks.
#[derive(Debug, Clone, PartialEq)]
pub struct StockedSection {
    /// Its name, `rail`, or its nominal size, `2x12`.
    pub name: String,
    /// It is a nominal size.
    pub nominal: bool,
    /// As it measures.
    pub section: Section,
    /// Where its name stands.
    pub span: Span,
}

/// A timber that a shop stocks.
#[derive(Debug, Clone, PartialEq)]
pub struct StockedTimber {
    /// Its name or species, lower case.
    pub name: String,
    /// What is stated of it.
    pub stated: Vec<Stated>,
    /// Where its name stands.
    pub span: Span,
}

impl Shop {
    /// The rulesets of a design by its path from the shop's file: those of the nearest folder that names any.
    pub fn rules_of(&self, design: &str) -> &[(String, Span)] {
        let naming = self.folders.iter().filter(|folder| !folder.rules.is_empty() && folder.holds(design));
        naming.max_by_key(|folder| folder.path.len()).map_or(&self.rules, |folder| &folder.rules)
    }

    /// What of a design fails a run, by its path from the shop's file: as the nearest folder says that says anything.
    pub fn fail_on(&self, design: &str) -> Option<Levels> {
        let saying = self.folders.iter().filter(|folder| folder.fail_on.is_some() && folder.holds(design));
        saying.max_by_key(|folder| folder.path.len()).map_or(self.fail_on, |folder| folder.fail_on)
    }

    /// A stocked section by its name.
    pub fn section(&self, name: &str) -> Option<&StockedSection> {
        self.sections.iter().find(|stocked| stocked.name.eq_ignore_ascii_case(name))
    }

    /// A stocked timber by its name or species.
    pub fn timber(&self, name: &str) -> Option<&StockedTimber> {
        self.timbers.iter().find(|stocked| stocked.name.eq_ignore_ascii_case(name))
    }
}

/// A nominal size as it is sold, without blanks: `2 x 12` is `2x12`. Nothing for a section that is no nominal size.
pub fn nominal(words: &str) -> Option<String> {
    let folded: String =
        words.chars().filter(|c| !c.is_whitespace()).map(|c| if c == '×' || c == 'X' { 'x' } else { c }).collect();
    let (thin, wide) = folded.split_once('x')?;
    let plain = |side: &str| !side.is_empty() && side.chars().all(|c| c.is_ascii_digit() || matches!(c, '/' | '.'));
    (plain(thin) && plain(wide)).then_some(folded)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_nominal_size_is_known_by_its_words() {
        assert_eq!(nominal("2x12").as_deref(), Some("2x12"));
        assert_eq!(nominal("5/4 × 6").as_deref(), Some("5/4x6"));
        for other in ["1-1/2\" x 11-1/4\"", "round 1-1/2\"", "box", "rail", "40 mm x 60 mm", "x", ""] {
            assert_eq!(nominal(other), None, "{other}");
        }
    }

    #[test]
    fn the_nearest_folder_wins() {
        let folder = |path: &str| Folder {
            path: path.to_owned(),
            span: Span::default(),
            rules: vec![(path.to_owned(), Span::default())],
            fail_on: None,
        };
        let shop = Shop {
            title: String::new(),
            source: Source::new("shop.pitchboard", ""),
            rules: vec![("all".to_owned(), Span::default())],
            folders: vec![folder("cabins/north"), folder("cabins"), folder("cab")],
            fail_on: None,
            longest_bit: None,
            sections: Vec::new(),
            timbers: Vec::new(),
            unread: Vec::new(),
        };
        let first = |design: &str| shop.rules_of(design)[0].0.clone();
        assert_eq!(first("cabins/north/a.stair"), "cabins/north");
        assert_eq!(first("cabins/northern/a.stair"), "cabins");
        assert_eq!(first("cabins.stair"), "all");
        assert_eq!(first("hides/cabins/a.stair"), "all");
    }
}

//! What a piece of lumber measures, by what it is called.

use std::sync::LazyLock;

use super::cited::Cited;
use super::table::Rows;

/// A class of lumber: each has its own sizes and design values.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LumberClass {
    /// Under 2 in thick, nominal.
    Board,
    /// 2 in to under 5 in thick, nominal: tables 4A and 4B.
    Dimension,
    /// 5 in and more in its least dimension, nominal: table 4D.
    Timber,
    /// Hardwood by its own convention, in quarters of an inch.
    Hardwood,
}

/// How its faces were left.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Surface {
    /// Dressed when dry.
    Dry,
    /// Dressed when green; a little larger, until it has dried.
    Green,
    /// Dressed on one side.
    OneSide,
    /// Dressed on two sides.
    TwoSides,
    /// Sawn to what it is called.
    FullSawn,
    /// Sawn about 1/8 in over the dressed size.
    RoughSawn,
}

/// A way of a section.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Way {
    /// The lesser.
    Thickness,
    /// The greater.
    Width,
}

/// One size.
#[derive(Debug)]
pub struct LumberSize {
    /// Of which class.
    pub class: LumberClass,
    /// How it is surfaced.
    pub surface: Surface,
    /// Of which way of the section; of both where it is a timber's.
    pub way: Option<Way>,
    /// As it is called, inches.
    pub nominal: f64,
    /// As it measures, inches.
    pub actual: f64,
    /// The millimetres that the standard prints beside it.
    pub print: Option<f64>,
    /// Where it is from.
    pub cited: Cited,
}

/// Every size.
pub static LUMBER_SIZES: LazyLock<Rows<LumberSize>> = LazyLock::new(|| {
    Rows::read(include_str!("../../rulesets/tables/lumber-sizes.tsv"), |row| {
        Some(LumberSize {
            class: match row.text("class")? {
                "board" => LumberClass::Board,
                "dimension" => LumberClass::Dimension,
                "timber" => LumberClass::Timber,
                "hardwood" => LumberClass::Hardwood,
                _ => return None,
            },
            surface: match row.text("condition")? {
                "dry" => Surface::Dry,
                "green" => Surface::Green,
                "S1S" => Surface::OneSide,
                "S2S" => Surface::TwoSides,
                _ => return None,
            },
            way: match row.text("way")? {
                "thickness" => Some(Way::Thickness),
                "width" => Some(Way::Width),
                "both" => None,
                _ => return None,
            },
            nominal: row.number("nominal")?,
            actual: row.number("actual")?,
            print: row.gathered("print")?,
            cited: row.cited()?,
        })
    })
});

/// How much larger rough-sawn lumber is than dressed lumber, inches: from memory, as a textbook has it.
const ROUGH: f64 = 0.125;

impl LumberClass {
    /// That of softwood lumber by its nominal sizes, inches.
    pub fn of(thickness: f64, width: f64) -> Self {
        match thickness.min(width) {
            least if least < 2.0 => Self::Board,
            least if least < 5.0 => Self::Dimension,
            _ => Self::Timber,
        }
    }
}

/// What a way of a piece measures, inches, by what it is called, inches; nothing where no table says.
pub fn actual(class: LumberClass, surface: Surface, way: Way, nominal: f64) -> Option<f64> {
    let dressed = |surface: Surface| {
        let of = |size: &&LumberSize| {
            size.class == class
                && size.surface == surface
                && size.way.is_none_or(|of| of == way)
                && (size.nominal - nominal).abs() < 1e-9
        };
        LUMBER_SIZES.iter().find(of).map(|size| size.actual)
    };
    match (surface, class) {
        (Surface::FullSawn, _) => Some(nominal),
        (Surface::RoughSawn, LumberClass::Timber) => Some(dressed(Surface::Green)? + ROUGH),
        (Surface::RoughSawn, _) => Some(dressed(Surface::Dry)? + ROUGH),
        (Surface::Dry, LumberClass::Timber) => dressed(Surface::Green),
        _ => dressed(surface),
    }
}

/// The nominal thickness of a piece that measures so much, inches, by which its class goes: of a board by the table, of
/// what is thicker the next whole inch, so that a full-sawn 4 is no timber.
pub fn nominal_thickness(actual: f64) -> Option<f64> {
    let board = |size: &&LumberSize| size.class == LumberClass::Board && size.way == Some(Way::Thickness);
    let mut boards = LUMBER_SIZES.iter().filter(board).filter(|size| size.actual + 1e-6 >= actual);
    match boards.next() {
        Some(size) => Some(size.nominal),
        None => Some((actual - 1e-6).ceil()).filter(|inches| (2.0..=16.0).contains(inches)),
    }
}

/// The dressed widths, nominal and actual, that a width lies between, inches: the greatest that it holds and the least that
/// holds it. One that is dressed lies between itself and itself.
pub fn widths_about(actual: f64) -> Option<((f64, f64), (f64, f64))> {
    let dressed = |size: &&LumberSize| {
        size.class == LumberClass::Dimension && size.surface == Surface::Dry && size.way == Some(Way::Width)
    };
    let sizes = || LUMBER_SIZES.iter().filter(dressed).map(|size| (size.nominal, size.actual));
    let least = sizes().filter(|(_, size)| size + 1e-6 >= actual).min_by(|a, b| a.1.total_cmp(&b.1))?;
    let greatest = sizes().filter(|(_, size)| size - 1e-6 <= actual).max_by(|a, b| a.1.total_cmp(&b.1));
    Some((greatest.unwrap_or(least), least))
}

/// The nominal size of a way of dressed softwood lumber that measures exactly so much, inches.
pub fn called(actual: f64) -> Option<f64> {
    let measures = |size: &&LumberSize| {
        let softwood = matches!(size.class, LumberClass::Dimension | LumberClass::Timber);
        softwood && (size.actual - actual).abs() < 1e-6
    };
    LUMBER_SIZES.iter().find(measures).map(|size| size.nominal)
}

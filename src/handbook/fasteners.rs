//! Sizes and strengths of bolts, screws, nails and washers.

use std::sync::LazyLock;

use super::cited::Cited;
use super::table::Rows;

/// A hex bolt. Inches, and psi.
#[derive(Debug)]
pub struct Bolt {
    /// Nominal diameter.
    pub diameter: f64,
    /// Root diameter of the thread.
    pub root: f64,
    /// Across the flats of head and nut.
    pub flats: f64,
    /// Height of the head.
    pub head: f64,
    /// Thickness of the nut.
    pub nut: f64,
    /// Bending yield strength.
    pub strength: f64,
    /// Where it is from.
    pub cited: Cited,
}

/// A lag screw. Inches, and psi.
#[derive(Debug)]
pub struct LagScrew {
    /// Nominal diameter.
    pub diameter: f64,
    /// Root diameter of the thread; not gathered above 1 in.
    pub root: Option<f64>,
    /// Threads an inch.
    pub threads: Option<f64>,
    /// Across the flats of the head.
    pub flats: f64,
    /// Length of the tapered tip.
    pub tip: Option<f64>,
    /// Bending yield strength.
    pub strength: f64,
    /// Where it is from.
    pub cited: Cited,
}

/// A wood screw of cut thread. Inches.
#[derive(Debug)]
pub struct WoodScrew {
    /// Its number.
    pub number: u32,
    /// Diameter of the shank.
    pub diameter: f64,
    /// Root diameter of the thread.
    pub root: f64,
    /// Diameter of the head.
    pub head: f64,
    /// Where it is from.
    pub cited: Cited,
}

/// A nail. Inches.
#[derive(Debug)]
pub struct Nail {
    /// `common`, `box` or `sinker`.
    pub kind: &'static str,
    /// Its pennyweight.
    pub penny: u32,
    /// Length.
    pub length: f64,
    /// Diameter of the shank.
    pub diameter: f64,
    /// Diameter of the head, where it was gathered.
    pub head: Option<f64>,
    /// Where it is from.
    pub cited: Cited,
}

/// The shape of a washer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WasherShape {
    /// A cut washer.
    Round,
    /// A plate.
    Square,
}

/// A washer. Inches.
#[derive(Debug)]
pub struct Washer {
    /// Round or square.
    pub shape: WasherShape,
    /// Of the bolt.
    pub diameter: f64,
    /// Diameter of the hole.
    pub hole: f64,
    /// Across a round one, along a side of a square one.
    pub outside: f64,
    /// Thickness.
    pub thickness: f64,
    /// Where it is from.
    pub cited: Cited,
}

/// The head of a round-head square-neck bolt. Inches, largest.
#[derive(Debug)]
pub struct CarriageHead {
    /// Nominal diameter of the bolt.
    pub diameter: f64,
    /// Across the head.
    pub head: f64,
    /// Side of the square neck.
    pub neck: f64,
    /// Depth of the neck.
    pub depth: f64,
    /// Where it is from.
    pub cited: Cited,
}

/// Bending yield strength of nails and wood screws, by the diameter of the shank.
#[derive(Debug)]
pub struct YieldStrength {
    /// Above this, inches; the first row from it on.
    pub over: f64,
    /// Up to this, inches.
    pub to: f64,
    /// Pounds on a square inch.
    pub strength: f64,
    /// Where it is from.
    pub cited: Cited,
}

/// Every bolt.
pub static BOLTS: LazyLock<Rows<Bolt>> = LazyLock::new(|| {
    Rows::read(include_str!("../../rulesets/tables/bolts.tsv"), |row| {
        Some(Bolt {
            diameter: row.number("diameter")?,
            root: row.number("root")?,
            flats: row.number("flats")?,
            head: row.number("head")?,
            nut: row.number("nut")?,
            strength: row.number("yield")?,
            cited: row.cited()?,
        })
    })
});

/// Every lag screw.
pub static LAG_SCREWS: LazyLock<Rows<LagScrew>> = LazyLock::new(|| {
    Rows::read(include_str!("../../rulesets/tables/lag-screws.tsv"), |row| {
        Some(LagScrew {
            diameter: row.number("diameter")?,
            root: row.gathered("root")?,
            threads: row.gathered("threads")?,
            flats: row.number("flats")?,
            tip: row.gathered("tip")?,
            strength: row.number("yield")?,
            cited: row.cited()?,
        })
    })
});

/// Every wood screw.
pub static WOOD_SCREWS: LazyLock<Rows<WoodScrew>> = LazyLock::new(|| {
    Rows::read(include_str!("../../rulesets/tables/wood-screws.tsv"), |row| {
        Some(WoodScrew {
            number: row.text("number")?.parse().ok()?,
            diameter: row.number("diameter")?,
            root: row.number("root")?,
            head: row.number("head")?,
            cited: row.cited()?,
        })
    })
});

/// Every nail.
pub static NAILS: LazyLock<Rows<Nail>> = LazyLock::new(|| {
    Rows::read(include_str!("../../rulesets/tables/nails.tsv"), |row| {
        Some(Nail {
            kind: row.text("kind")?,
            penny: row.text("penny")?.parse().ok()?,
            length: row.number("length")?,
            diameter: row.number("diameter")?,
            head: row.gathered("head")?,
            cited: row.cited()?,
        })
    })
});

/// Every washer.
pub static WASHERS: LazyLock<Rows<Washer>> = LazyLock::new(|| {
    Rows::read(include_str!("../../rulesets/tables/washers.tsv"), |row| {
        Some(Washer {
            shape: match row.text("shape")? {
                "round" => WasherShape::Round,
                "square" => WasherShape::Square,
                _ => return None,
            },
            diameter: row.number("diameter")?,
            hole: row.number("hole")?,
            outside: row.number("outside")?,
            thickness: row.number("thickness")?,
            cited: row.cited()?,
        })
    })
});

/// Every round head.
pub static CARRIAGE_HEADS: LazyLock<Rows<CarriageHead>> = LazyLock::new(|| {
    Rows::read(include_str!("../../rulesets/tables/carriage-heads.tsv"), |row| {
        Some(CarriageHead {
            diameter: row.number("diameter")?,
            head: row.number("head")?,
            neck: row.number("neck")?,
            depth: row.number("depth")?,
            cited: row.cited()?,
        })
    })
});

/// Every bending yield strength.
pub static YIELD_STRENGTHS: LazyLock<Rows<YieldStrength>> = LazyLock::new(|| {
    Rows::read(include_str!("../../rulesets/tables/yield-strengths.tsv"), |row| {
        Some(YieldStrength {
            over: row.number("over")?,
            to: row.number("to")?,
            strength: row.number("yield")?,
            cited: row.cited()?,
        })
    })
});

/// The row of a table whose diameter is this one, inches, to half a thousandth.
pub fn by_diameter<T>(table: &'static Rows<T>, diameter: f64, of: impl Fn(&T) -> f64) -> Option<&'static T> {
    table.rows.iter().find(|row| (of(row) - diameter).abs() < 5e-4)
}

/// The bending yield strength of a nail or wood screw by the diameter of its shank, inches.
pub fn yield_strength(diameter: f64) -> Option<&'static YieldStrength> {
    let first = YIELD_STRENGTHS.rows.first()?;
    if diameter + 1e-6 < first.over {
        return None;
    }
    YIELD_STRENGTHS.rows.iter().find(|row| diameter <= row.to + 1e-6)
}

//! Sizes that the trade knows by a name or a number: boards, screws, nails. Inches.

use crate::handbook::{BOLTS, LAG_SCREWS, LumberClass, NAILS, Surface, WOOD_SCREWS, Way, actual};

/// Dressed dry thickness of a nominal one, by the handbook's table. Inches.
pub fn dressed(nominal: f64, wide: f64) -> Option<f64> {
    let class = LumberClass::of(nominal, wide);
    actual(class, Surface::Dry, Way::Thickness, nominal).filter(|_| wide >= nominal)
}

/// Dressed dry width of a nominal one, by the handbook's table. Inches.
pub fn dressed_width(nominal: f64, thin: f64) -> Option<f64> {
    actual(LumberClass::of(thin, nominal), Surface::Dry, Way::Width, nominal)
}

/// Diameter of a wood screw by its number. Inches.
pub fn screw(number: u32) -> Option<f64> {
    WOOD_SCREWS.iter().find(|row| row.number == number).map(|row| row.diameter)
}

/// Root diameter of a cut-thread wood screw by its shank. Inches.
pub fn screw_root(shank: f64) -> Option<f64> {
    WOOD_SCREWS.iter().find(|row| (row.diameter - shank).abs() < 5e-4).map(|row| row.root)
}

/// Length and diameter of a nail by its pennyweight. Inches.
pub fn nail(penny: u32, kind: &str) -> Option<(f64, f64)> {
    let row = NAILS.iter().find(|row| row.penny == penny && row.kind == kind);
    row.map(|row| (row.length, row.diameter))
}

/// The diameters in which bolts and lags are sold, the least first; of screws and nails none, which go by numbers. Inches.
pub fn diameters_sold(kind: &str) -> Vec<f64> {
    match kind {
        "carriage bolt" | "hex bolt" => BOLTS.iter().map(|row| row.diameter).collect(),
        "lag" => LAG_SCREWS.iter().map(|row| row.diameter).collect(),
        _ => Vec::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// PS 20 rows as listed in the size tables of the trade.
    #[test]
    fn nominal_sizes_are_dressed() {
        for (nominal, wide, thickness, width) in [
            (2.0, 12.0, 1.5, 11.25),
            (1.0, 6.0, 0.75, 5.5),
            (4.0, 4.0, 3.5, 3.5),
            (6.0, 6.0, 5.5, 5.5),
            (2.0, 2.0, 1.5, 1.5),
            (1.25, 6.0, 1.0, 5.5),
            (2.0, 8.0, 1.5, 7.25),
            (2.0, 10.0, 1.5, 9.25),
            (8.0, 8.0, 7.5, 7.5),
        ] {
            assert_eq!(dressed(nominal, wide), Some(thickness));
            assert_eq!(dressed_width(wide, nominal), Some(width));
        }
        assert_eq!(dressed(7.0, 7.0), None);
    }
}

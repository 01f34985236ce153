//! Sizes that the trade knows by a name or a number: boards, screws, nails. Inches.

/// Dressed dry thickness of a nominal one: PS 20 (American Softwood Lumber Standard). Inches.
/// 5/4 and 6/4 boards are from memory. A timber 5 and thicker is 1/2 in less.
pub fn dressed(nominal: f64, wide: f64) -> Option<f64> {
    let table = [(1.0, 0.75), (1.25, 1.0), (1.5, 1.25), (2.0, 1.5), (3.0, 2.5), (4.0, 3.5), (6.0, 5.5)];
    let row = table.iter().find(|(named, _)| (named - nominal).abs() < 1e-9);
    row.map(|(_, dressed)| *dressed).filter(|_| wide >= nominal)
}

/// Dressed dry width of a nominal one: PS 20. Inches. Widths from 14 are from memory.
pub fn dressed_width(nominal: f64, thin: f64) -> Option<f64> {
    let whole = nominal.fract() == 0.0;
    match nominal {
        n if whole && (2.0..=6.0).contains(&n) => Some(n - 0.5),
        n if whole && [8.0, 10.0, 12.0, 14.0, 16.0].contains(&n) && thin < 5.0 => Some(n - 0.75),
        n if whole && thin >= 5.0 && (8.0..=16.0).contains(&n) => Some(n - 0.5),
        _ => None,
    }
}

/// Diameter of a wood screw by its number: ASME B18.6.1 as in NDS Table L3, from memory. Inches.
pub fn screw(number: u32) -> Option<f64> {
    let table = [
        (6, 0.138),
        (8, 0.164),
        (9, 0.177),
        (10, 0.190),
        (12, 0.216),
        (14, 0.242),
        (16, 0.268),
        (18, 0.294),
        (20, 0.320),
    ];
    table.iter().find(|(named, _)| *named == number).map(|(_, diameter)| *diameter)
}

/// Root diameter of a cut-thread wood screw by its shank: NDS Table L3, from memory. Inches.
pub fn screw_root(shank: f64) -> Option<f64> {
    let table = [
        (0.138, 0.113),
        (0.164, 0.131),
        (0.177, 0.142),
        (0.190, 0.152),
        (0.216, 0.171),
        (0.242, 0.196),
        (0.268, 0.209),
        (0.294, 0.232),
        (0.320, 0.255),
    ];
    table.iter().find(|(named, _)| (named - shank).abs() < 5e-4).map(|(_, root)| *root)
}

/// Length and diameter of a nail by its pennyweight: NDS Table L4, from memory but for 8d and 16d common. Inches.
pub fn nail(penny: u32, kind: &str) -> Option<(f64, f64)> {
    let common =
        [(6, 2.0, 0.113), (8, 2.5, 0.131), (10, 3.0, 0.148), (12, 3.25, 0.148), (16, 3.5, 0.162), (20, 4.0, 0.192)];
    let boxed = [(6, 2.0, 0.099), (8, 2.5, 0.113), (10, 3.0, 0.128), (16, 3.5, 0.135), (20, 4.0, 0.148)];
    let sinker = [(8, 2.375, 0.113), (10, 2.875, 0.120), (12, 3.125, 0.135), (16, 3.25, 0.148)];
    let table: &[(u32, f64, f64)] = match kind {
        "common" => &common,
        "box" => &boxed,
        "sinker" => &sinker,
        _ => return None,
    };
    table.iter().find(|(named, ..)| *named == penny).map(|(_, length, diameter)| (*length, *diameter))
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
        ] {
            assert_eq!(dressed(nominal, wide), Some(thickness));
            assert_eq!(dressed_width(wide, nominal), Some(width));
        }
        assert_eq!(dressed(7.0, 7.0), None);
    }
}

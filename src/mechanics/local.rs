//! Wood that tears beside a row of bolts pulled along the grain: net section, row tear-out, group tear-out. NDS Appendix E,
//! from memory.
#![allow(non_snake_case, reason = "symbols as the standard writes them")]

use super::amount::{Amount, least};
use super::outside::Outside;
use super::working::{Working, found, given, step};
use crate::handbook::Cited;

/// Rows of fasteners of 1/4 in and over in one member, pulled along its grain toward its end.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pulled {
    /// Thickness of the member along the fasteners.
    pub thickness: Amount,
    /// Its width across them.
    pub width: Amount,
    /// Diameter of the holes.
    pub hole: Amount,
    /// How many rows along the grain.
    pub rows: f64,
    /// How many stand in each.
    pub in_row: f64,
    /// From the last one to the end.
    pub end: Amount,
    /// From one to the next in a row; nothing where each stands alone.
    pub spacing: Option<Amount>,
    /// From the first row to the last.
    pub across: Amount,
}

const TEAR: Cited = Cited::memory("NDS Appendix E");

/// The least of what the member takes by its net section, by the tearing of rows, and by the tearing of the group.
///
/// # Errors
///
/// Where a size or a count is nothing, or the holes leave no section.
pub fn torn(w: &mut Working, pulled: &Pulled, tension: Amount, shear: Amount) -> Result<Amount, Outside> {
    let Pulled { thickness, width, hole, rows, in_row, end, spacing, across } = *pulled;
    let sizes = [thickness, width, hole, end, tension, shear];
    if !(sizes.iter().all(|size| size.is_positive()) && rows >= 1.0 && in_row >= 1.0) {
        return Err(Outside::NothingThere);
    }
    given!(w, F_t_adj = tension, "adjusted tension value", TEAR);
    given!(w, F_v_adj = shear, "adjusted shear value", TEAR);
    given!(w, t = thickness, "thickness of the member", Cited::STATED);
    given!(w, b = width, "its width", Cited::STATED);
    given!(w, D_h = hole, "diameter of the holes", Cited::STATED);
    given!(w, n_rows = rows, "rows", Cited::STATED);
    given!(w, n_i = in_row, "fasteners in a row", Cited::STATED);
    given!(w, e = end, "end distance", Cited::STATED);
    given!(w, s = spacing.unwrap_or(end), "spacing in a row", Cited::STATED);
    step!(w, s_least = least(e, s), "least of end distance and spacing", TEAR);
    step!(w, A_net = t * (b - n_rows * D_h), "net section", TEAR);
    if !A_net.is_positive() {
        return Err(Outside::NothingThere);
    }
    step!(w, Z_NT = F_t_adj * A_net, "net section in tension", TEAR);
    step!(w, Z_RT = n_rows * (n_i * F_v_adj * t * s_least), "tearing of the rows", TEAR);
    let mut modes = vec![("Z_NT", Z_NT), ("Z_RT", Z_RT)];
    if rows > 1.0 {
        given!(w, g_rows = across, "from the first row to the last", Cited::STATED);
        step!(w, A_group = t * (g_rows - (n_rows - 1.0) * D_h), "net section between the outer rows", TEAR);
        step!(w, Z_GT = n_i * F_v_adj * t * s_least + F_t_adj * A_group, "tearing of the group", TEAR);
        modes.push(("Z_GT", Z_GT));
    }
    found(w.least("Z_tear", "what the wood beside the rows takes", &modes, TEAR))
}

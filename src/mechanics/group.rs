//! Several fasteners in a row share a load unevenly: the group action factor, NDS 11.3.6.
#![allow(non_snake_case, reason = "symbols as the standard writes them")]

use super::amount::{Amount, INCHES, POUNDS, least, power, sqrt, squared};
use super::outside::Outside;
use super::working::{Working, found, given, step};
use crate::handbook::Cited;

/// A row of fasteners.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Row {
    /// How many stand in it.
    pub count: f64,
    /// Nominal diameter.
    pub diameter: Amount,
    /// Centre to centre.
    pub spacing: Amount,
    /// Modulus of elasticity and area of the main member.
    pub main: (Amount, Amount),
    /// The same of the side members together.
    pub side: (Amount, Amount),
    /// What the side members are.
    pub joins: Joins,
}

/// What a row joins.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Joins {
    /// Wood to wood.
    WoodToWood,
    /// Wood to a metal plate.
    WoodToSteel,
}

const GROUP: Cited = Cited::reproduced("NDS 11.3.6");

/// The group action factor, `C_g`: 1 of one fastener, and of fasteners under 1/4 in.
///
/// # Errors
///
/// Where a spacing, a modulus or an area is nothing.
pub fn group_action(w: &mut Working, row: &Row) -> Result<Amount, Outside> {
    if row.count <= 1.0 {
        return Ok(w.given("C_g", "group action: one fastener in the row", 1.0, GROUP));
    }
    if row.diameter.per(INCHES) < 0.25 - 1e-6 {
        return Ok(w.given("C_g", "group action: under 1/4 in", 1.0, GROUP));
    }
    let parts = [row.diameter, row.spacing, row.main.0, row.main.1, row.side.0, row.side.1];
    if !parts.iter().all(|part| part.is_positive()) {
        return Err(Outside::NothingThere);
    }
    given!(w, n = row.count, "fasteners in the row", Cited::STATED);
    given!(w, D = row.diameter, "diameter", Cited::STATED);
    given!(w, s = row.spacing, "spacing in the row", Cited::STATED);
    given!(w, E_m = row.main.0, "modulus of elasticity of the main member", Cited::STATED);
    given!(w, A_m = row.main.1, "its area", Cited::STATED);
    given!(w, E_s = row.side.0, "modulus of elasticity of the side members", Cited::STATED);
    given!(w, A_s = row.side.1, "their area", Cited::STATED);
    step!(w, EA_m = E_m * A_m, "stiffness of the main member", GROUP);
    step!(w, EA_s = E_s * A_s, "stiffness of the side members", GROUP);
    let gamma = match row.joins {
        Joins::WoodToWood => {
            step!(
                w,
                gamma = 180000.0 * POUNDS / INCHES * power(D / INCHES, 1.5),
                "load for each inch of slip, wood to wood",
                GROUP
            );
            gamma
        }
        Joins::WoodToSteel => {
            step!(
                w,
                gamma = 270000.0 * POUNDS / INCHES * power(D / INCHES, 1.5),
                "load for each inch of slip, wood to steel",
                GROUP
            );
            gamma
        }
    };
    step!(w, R_EA = least(EA_s / EA_m, EA_m / EA_s), "lesser stiffness over the greater", GROUP);
    step!(w, u = 1.0 + gamma * s / 2.0 * (1.0 / EA_m + 1.0 / EA_s), "", GROUP);
    step!(w, m = u - sqrt(squared(u) - 1.0), "", GROUP);
    step!(
        w,
        C_g = m * (1.0 - power(m, 2.0 * n)) / (n * ((1.0 + R_EA * power(m, n)) * (1.0 + m) - 1.0 + power(m, 2.0 * n)))
            * ((1.0 + R_EA) / (1.0 - m)),
        "group action",
        GROUP
    );
    found(least(C_g, 1.0))
}

/// Slip of one fastener under a load, by the load for each inch of slip that the group action factor takes.
pub fn slip(w: &mut Working, load: Amount, diameter: Amount) -> Result<Amount, Outside> {
    given!(w, P = load, "load on one fastener", Cited::STATED);
    given!(w, D = diameter, "diameter", Cited::STATED);
    step!(w, gamma = 180000.0 * POUNDS / INCHES * power(D / INCHES, 1.5), "load for each inch of slip", GROUP);
    step!(w, slip = P / gamma, "slip", GROUP);
    found(slip)
}

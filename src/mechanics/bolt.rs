//! A bolt in its stack: how long it has to be, where its thread lies, whether the bit reaches, and what bears under its head
//! and nut.
#![allow(non_snake_case, reason = "symbols as the standard writes them")]

use super::amount::{Amount, INCHES, least, nearest, squared};
use super::dowel::Thread;
use super::outside::{Lacking, Outside};
use super::working::{Working, found, given, step};
use crate::handbook::{self, CarriageHead, Cited, Washer, WasherShape};

const L1: Cited = Cited::memory("NDS Table L1");
const PRACTICE: Cited =
    Cited { source: "common practice, no source", edition: "", certainty: handbook::Certainty::Memory };

/// Thread length of a hex bolt of a length: 2 D + 1/4 in up to 6 in, 2 D + 1/2 in beyond, and no more than the bolt.
pub fn thread_length(w: &mut Working, diameter: Amount, length: Amount) -> Result<Amount, Outside> {
    if !(diameter.is_positive() && length.is_positive()) {
        return Err(Outside::NothingThere);
    }
    given!(w, D = diameter, "diameter", Cited::STATED);
    given!(w, L_bolt = length, "length under the head", Cited::STATED);
    if length.per(INCHES) <= 6.0 + 1e-9 {
        step!(w, T = least(2.0 * D + 0.25 * INCHES, L_bolt), "length of thread", L1);
        found(T)
    } else {
        step!(w, T = least(2.0 * D + 0.5 * INCHES, L_bolt), "length of thread", L1);
        found(T)
    }
}

/// The length that a bolt needs under its head: the stack with its washers, and the nut.
///
/// # Errors
///
/// Where the table has no bolt of the diameter.
pub fn length_needed(w: &mut Working, diameter: Amount, stack: Amount, washers: Amount) -> Result<Amount, Outside> {
    let row = handbook::by_diameter(&handbook::BOLTS, diameter.per(INCHES), |row| row.diameter);
    let row = row.ok_or(Outside::Lacking(Lacking::Diameter))?;
    given!(w, g = stack, "grip: the members and what lies between", Cited::STATED);
    given!(w, t_w = washers, "washers", Cited::STATED);
    given!(w, t_n = row.nut * INCHES, "thickness of the nut", row.cited);
    step!(w, L_least = g + t_w + t_n, "least length under the head: nut full of thread", PRACTICE);
    found(L_least)
}

/// Where the thread of a bolt lies: how much of what bears in the member under the nut is threaded. NDS 12.3.7.
///
/// # Errors
///
/// Where a length is nothing.
pub fn thread_in_wood(
    w: &mut Working,
    diameter: Amount,
    length: Amount,
    stack: Amount,
    washer_under_head: Amount,
    last_member: Amount,
) -> Result<Thread, Outside> {
    let T = thread_length(w, diameter, length)?;
    if !last_member.is_positive() {
        return Err(Outside::NothingThere);
    }
    let clause = Cited::memory("NDS 12.3.7.2");
    given!(w, g = stack, "grip: the members and what lies between", Cited::STATED);
    given!(w, t_h = washer_under_head, "washer under the head", Cited::STATED);
    given!(w, l_last = last_member, "bearing length in the member under the nut", Cited::STATED);
    let L_bolt = length;
    step!(w, threaded = (g + t_h - (L_bolt - T)) / l_last, "share of it that is threaded", clause);
    Ok(if threaded.plain() <= 0.25 + 1e-9 { Thread::ClearOfTheWood } else { Thread::InTheWood })
}

/// Whether a bit of a length reaches through a stack from one side, or meets a hole from the other, as a share of the stack.
pub fn bit_reach(w: &mut Working, bit: Amount, stack: Amount) -> Result<Amount, Outside> {
    if !(bit.is_positive() && stack.is_positive()) {
        return Err(Outside::NothingThere);
    }
    given!(w, l_bit = bit, "length that the bit bores", Cited::STATED);
    given!(w, g = stack, "stack to bore", Cited::STATED);
    step!(w, reach = l_bit / g, "share of the stack that it reaches", PRACTICE);
    found(reach)
}

/// What lies between a head or nut and the wood.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Under {
    /// A round cut washer of the table.
    CutWasher,
    /// A square plate of a side, with a hole 1/16 in over the bolt.
    Plate(Amount),
    /// The head of a carriage bolt on the wood itself.
    RoundHead,
    /// The head of a hex bolt on the wood itself: NDS 12.1.3.3 wants a washer.
    HexHead,
}

/// What the wood takes under the heads or nuts of so many bolts.
///
/// # Errors
///
/// Where the stress, the area or the count is nothing.
pub fn pressed(w: &mut Working, stress: Amount, area: Amount, count: f64) -> Result<Amount, Outside> {
    given!(w, F_c_perp_adj = stress, "compression across the grain", Cited::memory("NDS 3.10.2"));
    given!(w, A_w = area, "area under one", Cited::derived("plane geometry"));
    given!(w, n = count, "bolts in the upper row", Cited::STATED);
    step!(w, R = F_c_perp_adj * A_w * n, "what the wood takes", Cited::memory("NDS 3.10.2"));
    if R.is_positive() { Ok(R) } else { Err(Outside::NothingThere) }
}

/// The area that presses on the wood under a head or nut.
///
/// # Errors
///
/// Where the table has no washer or head of the diameter, or the plate is no larger than its hole.
pub fn pressed_area(w: &mut Working, diameter: Amount, under: Under) -> Result<Amount, Outside> {
    let inches = diameter.per(INCHES);
    let geometry = Cited::derived("plane geometry");
    let pi = std::f64::consts::PI;
    let area = match under {
        Under::CutWasher => {
            let row = washer(WasherShape::Round, inches).ok_or(Outside::Lacking(Lacking::Head))?;
            given!(w, D_w = row.outside * INCHES, "across the washer", row.cited);
            given!(w, D_h = diameter + INCHES / 16.0, "hole in the wood", Cited::seen("NDS 12.1.3.2"));
            step!(w, A_w = pi * (squared(D_w) - squared(D_h)) / 4.0, "area under the washer", geometry);
            A_w
        }
        Under::Plate(side) => {
            given!(w, a = side, "side of the plate", Cited::STATED);
            given!(w, D_h = diameter + INCHES / 16.0, "hole in the wood", Cited::seen("NDS 12.1.3.2"));
            step!(w, A_w = squared(a) - pi * squared(D_h) / 4.0, "area under the plate", geometry);
            A_w
        }
        Under::RoundHead => {
            let row = carriage_head(inches).ok_or(Outside::Lacking(Lacking::Head))?;
            given!(w, D_w = row.head * INCHES, "across the head", row.cited);
            given!(w, a = row.neck * INCHES, "side of the square neck", row.cited);
            step!(w, A_w = pi * squared(D_w) / 4.0 - squared(a), "area under the head", geometry);
            A_w
        }
        Under::HexHead => {
            let row = handbook::by_diameter(&handbook::BOLTS, inches, |row| row.diameter);
            let row = row.ok_or(Outside::Lacking(Lacking::Head))?;
            given!(w, D_w = row.flats * INCHES, "across the flats, as a circle", row.cited);
            given!(w, D_h = diameter + INCHES / 16.0, "hole in the wood", Cited::seen("NDS 12.1.3.2"));
            step!(w, A_w = pi * (squared(D_w) - squared(D_h)) / 4.0, "area under the head", geometry);
            A_w
        }
    };
    if area.is_positive() { Ok(area) } else { Err(Outside::NothingThere) }
}

/// The washer of a shape for a bolt of a diameter, inches.
pub fn washer(shape: WasherShape, diameter: f64) -> Option<&'static Washer> {
    handbook::WASHERS.iter().find(|row| row.shape == shape && (row.diameter - diameter).abs() < 5e-4)
}

/// The round head of a carriage bolt of a diameter, inches.
pub fn carriage_head(diameter: f64) -> Option<&'static CarriageHead> {
    handbook::by_diameter(&handbook::CARRIAGE_HEADS, diameter, |row| row.diameter)
}

/// Whether the square neck of a carriage bolt stays in the wood: its member is thicker than the neck is deep, and the hole is
/// no wider than the neck. Else its lateral value is outside the tables: AWC on carriage bolts.
///
/// # Errors
///
/// Where the table has no head of the diameter, and where the neck does not hold.
pub fn neck_holds(diameter: Amount, member: Amount, hole: Amount) -> Result<&'static CarriageHead, Outside> {
    let row = carriage_head(diameter.per(INCHES)).ok_or(Outside::Lacking(Lacking::Head))?;
    let in_wood = (row.depth * INCHES).is_below(member) && !(row.neck * INCHES).is_below(hole);
    if in_wood { Ok(row) } else { Err(Outside::NeckOfCarriageBolt) }
}

/// The next length that bolts are sold in: whole and half inches up to 8 in, whole ones beyond. Common practice, no source.
pub fn sold_length(length: Amount) -> Amount {
    let step = if length.per(INCHES) <= 8.0 { 0.5 * INCHES } else { 1.0 * INCHES };
    // Upward to the next: the nearest of a value that is a half step more, less the last bits.
    nearest(length + 0.499_999 * step, step)
}

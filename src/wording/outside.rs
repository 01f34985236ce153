//! Why the mechanics give no value, and what would serve.

use crate::mechanics::{Lacking, Outside, Placed};

/// What would have to be so, or whom to ask; `of` is the thing.
pub(super) fn beyond(of: &str, outside: Outside) -> String {
    match outside {
        Outside::Lacking(Lacking::DesignValues) => {
            format!(
                "published design values for the timber and section of {of} (none are known here: ask a licensed engineer)"
            )
        }
        Outside::Lacking(lacking) => {
            format!("{} of {of}, which no table here holds: ask a licensed engineer", lacked(lacking))
        }
        Outside::ThinBoard => format!(
            "values for the timber of {of} (no table gives the strength of a board under 2\" thick: state them in a \
             `timber` of your own, or ask a licensed engineer)"
        ),
        Outside::LateralOverOneInch => engineer("a fastener of 1\" at most", of),
        Outside::BoltUnderQuarterInch => engineer("a bolt of 1/4\" at least", of),
        Outside::NeckOfCarriageBolt => engineer("a square neck that stays in wood of its own width", of),
        Outside::TooShallow { least } => engineer(&format!("a penetration of {least} diameters at least"), of),
        Outside::TooNear(placed) => engineer(distance(placed), of),
        Outside::WithdrawalFromEndGrain => engineer("a fastener that is not pulled out of end grain", of),
        Outside::PulledBolt => engineer("a washer or plate that takes the pull", of),
        Outside::ToeNailed => engineer("nails that are not set askew and pulled", of),
        Outside::Notch => engineer("a notch of a quarter of the depth at most", of),
        Outside::NotHeld => engineer("something that holds it against rolling over", of),
        Outside::TooSlender => engineer("a stouter section", of),
        Outside::MetalWithoutValues => engineer("the maker's stated values of the metal part", of),
        Outside::FireRetardant => format!(
            "the design values of whoever treated the timber of {of} against fire, which takes strength from it (state them in \
             a `timber` of your own, or ask a licensed engineer)"
        ),
        Outside::Glued => engineer("a joint that is not glued", of),
        Outside::Gap => engineer("two members that lie on each other", of),
        Outside::NothingThere | Outside::Undefined => engineer("sizes that leave something to work with", of),
    }
}

fn engineer(wanted: &str, of: &str) -> String {
    format!("{wanted} in {of} (this is outside the method: ask a licensed engineer)")
}

fn distance(placed: Placed) -> &'static str {
    match placed {
        Placed::End => "fasteners farther from the end",
        Placed::LoadedEdge | Placed::UnloadedEdge => "fasteners farther from the edge",
        Placed::Spacing => "fasteners farther apart",
        Placed::Rows => "rows farther apart",
    }
}

fn lacked(lacking: Lacking) -> &'static str {
    match lacking {
        Lacking::Bending => "the bending value",
        Lacking::Tension => "the tension value",
        Lacking::Shear => "the shear value",
        Lacking::Across => "the value of compression across the grain",
        Lacking::Compression => "the value of compression along the grain",
        Lacking::Stiffness => "the modulus of elasticity",
        Lacking::LeastStiffness => "the modulus of elasticity for stability",
        Lacking::DesignValues => "design values",
        Lacking::Gravity => "the specific gravity",
        Lacking::Diameter => "the diameter",
        Lacking::Root => "the root diameter",
        Lacking::YieldStrength => "the yield strength",
        Lacking::Head => "the head",
        Lacking::Tip => "the tip",
        Lacking::Factor => "an adjustment factor for the size",
        Lacking::Distance => "a distance",
    }
}

//! How values that are more than a figure are written, each with a property that takes it.

/// One sort of value.
#[derive(Debug, Clone, Copy)]
pub struct Notation {
    /// What such a value is called.
    pub name: &'static str,
    /// A kind that has such a property; for the test that reads every example.
    #[cfg(feature = "internals")]
    pub kind: &'static str,
    /// The property.
    #[cfg(feature = "internals")]
    pub property: &'static str,
    /// How the value may be written.
    pub examples: &'static [&'static str],
    /// What is to be known of it.
    pub help: &'static str,
}

macro_rules! notations {
    ($($name:literal $kind:literal $property:literal [$($example:literal),+] $help:literal;)*) => {
        /// Every sort of value that is more than a figure.
        pub static NOTATIONS: &[Notation] = &[$(Notation {
            name: $name,
            #[cfg(feature = "internals")]
            kind: $kind,
            #[cfg(feature = "internals")]
            property: $property,
            examples: &[$($example),+], help: $help,
        }),*];
    };
}

notations! {
    "list" "flight" "risers" ["7\", 6-15/16\", 7\"", "4 of 7\"", "7-1/16\", 3 of 7\""] "one for each step, bottom first; `4 of` for four alike";
    "angles" "winders" "turn" ["90°", "20°, 40°, 30°", "3 of 30°"] "one for all of them together, or one for each, lowest first";
    "section" "stringer" "section" ["2x12", "5/4x6", "1-1/2\" x 11-1/4\"", "round 1-1/2\"", "square 1-1/2\""] "nominal, read as dressed lumber (`2x12` is 1-1/2\" by 11-1/4\"); or as it measures, with both units; or the name of one of your own, in quotes";
    "edge" "tread" "edge" ["square", "radius 3/8\"", "bevel 1/2\""] "how a front edge is worked";
    "timber" "stringer" "timber" ["southern pine No.2, treated", "treated southern pine", "oak"] "species, grade, treatment, in any order, each a word of the table below; or a timber of your own";
    "finish" "tread" "finish" ["grip strip 36\"", "sand in the paint", "oil, grooved"] "what gives grip, or protects, each part a word of the table below; the length of a strip behind it";
    "balusters" "guard" "balusters" ["2x2 every 5\"", "9 of 2x2"] "how far apart, centre to centre; or how many between two posts";
    "bolts" "joint" "bolts" ["2 of 3/8\" x 6\"", "2 of 3/8\" x 6\" carriage, galvanised", "2 of M10 x 120"] "how many, diameter, length, head; a hex head unless stated";
    "lags" "joint" "lags" ["2 of 3/8\" x 4\", galvanised"] "how many, diameter, length";
    "screws" "joint" "screws" ["3 of No.10 x 3\", stainless", "3 of #10 x 3\""] "how many, number, length";
    "nails" "joint" "nails" ["3 of 16d common", "3 of 0.148\" x 3\""] "how many, pennyweight; or diameter and length";
    "coating" "joint" "screws" ["3 of No.10 x 3\", galvanised", "3 of No.10 x 3\", stainless", "3 of No.10 x 3\", coated", "3 of No.10 x 3\", plain"] "last, after a comma";
    "members" "joint" "joins" ["newel to stringer"] "the fastener's head is in the first";
    "sets" "stair" "rules" ["residential, workshop", "\"our-county.rules\""] "a set that comes with the tool by its name, one of your own by its file, in quotes";
    "date" "measured" "on" ["2026-05-04"] "year, month, day";
}

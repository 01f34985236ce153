//! The vocabulary: every kind and property, what each takes, and one line of help. The reader, the messages,
//! the rules and the reference all read this table; adding a property is adding a row.

/// What a property takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Takes {
    /// One length.
    Length,
    /// One length for all, or one for each step.
    Lengths,
    /// An angle.
    Angle,
    /// An area.
    Area,
    /// A slope: `1 in 48`, `2%`, `1/4" per 12"`.
    Slope,
    /// A plain number.
    Number,
    /// A whole number.
    Count,
    /// One of these words.
    OneOf(&'static [&'static str]),
    /// Some of these words.
    SomeOf(&'static [&'static str]),
    /// Names of rulesets.
    Sets,
    /// Free words.
    Words,
    /// Free words, perhaps with a length.
    Finish,
    /// A date.
    Date,
    /// A section: `2x12`, `1-1/2" x 11-1/4"`, `round 1-1/2"`, or one of the user's own.
    Section,
    /// Species, grade and treatment, or one of the user's own.
    Timber,
    /// `square`, `radius 3/8"`, `bevel 1/2"`.
    Edge,
    /// `2x2 every 5"`, `9 of 2x2`.
    Balusters,
    /// `2 of 3/8" x 6" carriage, galvanised`.
    Fasteners,
    /// `newel to stringer`.
    Members,
    /// The name of something drawn.
    Name,
}

/// One property.
#[derive(Debug, PartialEq, Eq)]
pub struct Property {
    /// As it is written.
    pub name: &'static str,
    /// What it takes.
    pub takes: Takes,
    /// A fact of the place, measured and not chosen: no report suggests changing it.
    pub fact: bool,
    /// One line.
    pub help: &'static str,
}

/// One kind of thing.
#[derive(Debug, PartialEq, Eq)]
pub struct Kind {
    /// What it is called.
    pub name: &'static str,
    /// What several are called.
    pub plural: &'static str,
    /// How its block opens, where that differs from its name.
    pub opens: &'static str,
    /// Kinds it may stand in; empty for the top of a file.
    pub within: &'static [&'static str],
    /// How one is drawn, for a report that misses it.
    pub example: &'static str,
    /// One line.
    pub help: &'static str,
    /// Its properties.
    pub properties: &'static [Property],
}

impl Kind {
    /// The property of a name.
    pub fn property(&self, name: &str) -> Option<&'static Property> {
        let properties: &'static [Property] = self.properties;
        properties.iter().find(|property| property.name == name)
    }
}

/// The kind of a name, singular.
pub fn kind(name: &str) -> Option<&'static Kind> {
    KINDS.iter().find(|kind| kind.name == name)
}

macro_rules! kinds {
    ($($kind:literal $plural:literal $opens:literal in [$($within:literal),*] $example:literal, $help:literal {
        $($property:literal: $takes:expr $(, $fact:ident)? => $line:literal;)*
    })*) => {
        /// Every kind.
        pub static KINDS: &[Kind] = &[$(Kind {
            name: $kind, plural: $plural, opens: $opens, within: &[$($within),*], example: $example, help: $help,
            properties: &[$(Property { name: $property, takes: $takes, fact: kinds!(@fact $($fact)?), help: $line }),*],
        }),*];
    };
    (@fact fact) => { true };
    (@fact) => { false };
}

use Takes::{
    Angle, Area, Balusters, Count, Date, Edge, Fasteners, Finish, Length, Lengths, Members, Name, Number, OneOf,
    Section, Sets, Slope, SomeOf, Timber, Words,
};

const SIDES: &[&str] = &["none", "left", "right", "far"];
const TURNS: &[&str] = &["straight", "quarter left", "quarter right", "half left", "half right"];
const YES_NO: &[&str] = &["yes", "no"];

kinds! {
    "stair" "stairs" "stair" in [""] "stair \"name\" {", "One stair, from the floor at its foot to the floor at its head." {
        "rules": Sets => "the rulesets it is held to";
        "use": OneOf(&["dwelling", "shared", "public", "workplace"]), fact => "who climbs it";
        "access": OneOf(&["private", "utility", "general"]), fact => "whose way it is: one household's, nobody's from day to day, or everybody's; by its use, unless stated";
        "occupants": Count, fact => "how many people it has to serve";
        "accessible": OneOf(YES_NO), fact => "whether it is part of a way out that has to be accessible";
        "setting": OneOf(&["indoors", "outdoors"]), fact => "where it stands";
        "standing": OneOf(&["anchored", "freestanding"]) => "held by a building, or by itself";
        "total rise": Length, fact => "finished floor at the foot to finished floor at the head, plumb";
        "total run": Length => "front edge of the first tread to the edge of the floor above, level";
        "bottom finish": Length, fact => "floor finish still to come at the foot";
        "longest bit": Length, fact => "how deep the longest bit reaches";
        "cut ends": OneOf(&["sealed", "bare"]) => "how the end grain is left where a board is cut";
        "switches": SomeOf(&["none", "foot", "head"]) => "floors where its light can be switched";
    }
    "landing" "landings" "landing" in ["stair", "flight"] "landing top { depth: 36\"; width: 36\" }", "A floor at the foot, at the head, or between flights." {
        "depth": Length => "level, in the direction of travel";
        "width": Length => "level, square to travel";
        "slope": Slope => "fall of its surface";
        "thickness": Length => "of its deck";
        "nosing": Length => "level, front edge past the face of the riser below";
        "turn": OneOf(TURNS) => "where the next flight leaves it, seen coming up";
        "plan": OneOf(&["rectangular", "other"]) => "its outline; of any other than a rectangle the depth is taken on the walkline";
        "area": Area => "of its floor, where its plan is no rectangle";
        "open sides": SomeOf(SIDES) => "sides one can fall from, where walls do not say so";
    }
    "door" "doors" "door" in ["stair", "landing"] "door top { swing: slides }", "A door at a landing, or straight at the head or the foot of the steps." {
        "at": Name => "the landing it opens at; `top` and `bottom` need none to be drawn";
        "swing": OneOf(&["over the stair", "away from the stair", "slides"]), fact => "where its leaf goes";
        "width": Length, fact => "clear opening";
        "leaf": Length, fact => "width of its leaf";
        "threshold": Length, fact => "top of the threshold above the landing";
        "egress": OneOf(YES_NO), fact => "whether it is the required way out";
    }
    "wall" "walls" "wall" in ["stair", "flight", "landing"] "wall left { }", "A wall that closes a side of a flight or a landing." {
        "along": Name => "the flight or landing it closes";
    }
    "ceiling" "ceilings" "ceiling" in ["stair", "flight", "landing"] "ceiling { headroom: 80\" }", "What is overhead." {
        "headroom": Length, fact => "plumb, from the line of the nosings, or from a landing's floor, at its least";
        "height": Length, fact => "plumb, above the foot of its flight, or above its landing, at the first front edge";
        "slope": Slope, fact => "how it rises in the direction of travel";
        "from": Length => "where it begins: level, from the first front edge; before that, unless stated";
        "to": Length => "where it ends: level, from the first front edge; past the last, unless stated";
        "over": OneOf(&["the stair", "the ends of the treads"]), fact => "what it hangs over; the stair, unless stated";
        "overhang": Length, fact => "how far the edge of a floor stands in over the ends of the treads";
    }
    "ground" "grounds" "ground" in ["stair"] "ground left { below: 6\" }", "The ground beside the stair." {
        "below": Length, fact => "how far it lies below the floor at the foot";
        "slope": Slope, fact => "how it falls away from the stair";
    }
    "flight" "flights" "flight" in ["stair"] "flight { risers: 4 of 7\"; runs: 3 of 10-1/4\" }", "A run of steps between two landings." {
        "risers": Lengths => "finish to finish, plumb, bottom first";
        "runs": Lengths => "front edge to front edge, level; the last to the edge of the floor above";
        "width": Length => "clear, level, square to travel; rails ignored";
        "spiral": OneOf(YES_NO) => "round a pole; no, unless stated";
        "ship": OneOf(YES_NO) => "a ship stair, steep and with open risers; no, unless stated";
    }
    "winders" "winders" "winders" in ["flight"] "winders left { from tread: 5; to tread: 7; turn: 90°; narrow: 6\" }", "Treads that taper to turn the flight; their runs are taken on the line of travel." {
        "from tread": Count => "the lowest of them";
        "to tread": Count => "the highest of them";
        "turn": Angle => "of all of them together";
        "narrow": Lengths => "depth of each at its narrow side, front edge to front edge";
    }
    "riser" "risers" "riser" in ["-"] "", "One riser of a flight, made from its list." {
    }
    "tread" "treads" "tread" in ["stair", "flight"] "tread { section: 1-1/2\" x 11-1/4\"; nosing: 1\" }", "The treads of a flight; one is made for each run." {
        "section": Section => "of one board";
        "boards": Count => "how many boards side by side, where not one";
        "gap": Length => "between two boards";
        "length": Length => "of a board, across the stair";
        "timber": Timber => "species, grade, treatment";
        "nosing": Lengths => "level, front edge past the face of the riser below";
        "edge": Edge => "how the front edge is worked";
        "slope": Slope => "fall of its surface";
        "finish": Finish => "what gives grip, or protects; of a strip, how long it is";
    }
    "riser board" "riser boards" "riser board" in ["stair", "flight"] "riser board { section: 1x8 }", "Boards that close the risers; none drawn, the risers are open." {
        "section": Section => "as it measures";
        "timber": Timber => "species, grade, treatment";
        "stands": OneOf(&["on tread", "behind tread"]) => "on the tread below, or behind it";
        "lean": Angle => "of its face from plumb";
    }
    "stringer" "stringers" "stringer" in ["stair", "flight"] "stringer { count: 3; section: 2x12; cut: notched }", "The members that carry the treads." {
        "count": Count => "how many";
        "spacing": Length => "level, centre to centre";
        "section": Section => "before it is cut";
        "timber": Timber => "species, grade, treatment";
        "cut": OneOf(&["notched", "solid", "housed"]) => "how it takes the treads";
        "first cut": Length => "height of the lowest riser cut";
    }
    "post" "posts" "post" in ["stair", "flight", "landing"] "post \"newel\" { section: 4x4 }", "A newel or a post." {
        "count": Count => "how many";
        "section": Section => "across";
        "timber": Timber => "species, grade, treatment";
        "height": Length => "of the post";
        "notched": OneOf(YES_NO) => "cut into where it is fastened";
    }
    "handrail" "handrails" "handrail" in ["stair", "flight", "landing"] "handrail left { height: 36\" }", "What the hand holds." {
        "height": Lengths => "plumb, from the line of the nosings to its top";
        "section": Section => "across";
        "timber": Timber => "species, grade, treatment";
        "clearance": Length => "rail face to the nearest wall, post or guard";
        "ends": OneOf(&["returned", "at a post", "safety terminal", "open"]) => "how it ends";
        "edge": Edge => "how its edges are worked";
        "end cut": Angle => "saw setting of its ends, off square";
        "from riser": Count => "the lowest riser it stands over";
        "to riser": Count => "the highest riser it stands over";
        "top extension": Length => "level, how far it runs on past the front edge of the top riser";
        "bottom extension": Length => "level, how far it runs on past the front edge of the lowest riser";
        "continues": OneOf(&["nowhere", "up", "down", "both ways"]) => "where it runs on into the rail of another flight; nowhere, unless stated";
        "along": Name => "the flight or landing it serves";
    }
    "guard" "guards" "guard" in ["stair", "flight", "landing"] "guard left { height: 36\"; balusters: 2x2 every 5\" }", "What keeps one from falling off a side." {
        "height": Lengths => "plumb, from the line of the nosings, or from a landing's floor, to its top";
        "balusters": Balusters => "section and how far apart, or how many";
        "bottom gap": Length => "square off the line of the nosings to the underside of the bottom rail";
        "end gap": Length => "between the last baluster and its post";
        "between posts": Length => "clear distance that the balusters fill";
        "infill": OneOf(&["balusters", "solid", "open"]) => "what closes it";
        "infill to": Length => "how high the infill reaches, where it stops short of the top";
        "top gap": Length => "the widest opening above the infill";
        "handrail": OneOf(YES_NO) => "its top serves as the handrail; no, unless stated";
        "edge": Edge => "how the edges of its top rail are worked";
        "end cut": Angle => "saw setting of its rails' ends, off square";
        "baluster cut": Angle => "saw setting of its balusters' ends, off square";
        "section": Section => "of the top rail";
        "timber": Timber => "species, grade, treatment";
        "along": Name => "the flight or landing it guards";
    }
    "joint" "joints" "joint" in ["stair", "flight", "landing"] "joint \"newel to stringer\" { joins: newel to stringer }", "Where members are fastened." {
        "joins": Members => "what it joins, the fastener's head in the first";
        "bolts": Fasteners => "how many, size, head, coating";
        "lags": Fasteners => "how many, size, coating";
        "screws": Fasteners => "how many, size, coating";
        "nails": Fasteners => "how many, size, coating";
        "hole": Length => "bored for the bolt, or for the shank";
        "pilot": Length => "bored for the thread";
        "washers": OneOf(&["nut side", "both sides", "none"]) => "where they lie";
        "spacer": Length => "thickness of what stands between the members";
    }
    "member" "members" "in" in ["joint"] "in newel { end: 3-1/2\"; edge: 1-3/4\" }", "Where the fasteners stand in one of the members joined." {
        "end": Length => "along the grain, fastener centre to the end of the member";
        "edge": Length => "square to the grain, fastener centre to the edge";
        "spacing": Length => "along the grain, between fasteners";
        "row spacing": Length => "square to the grain, between rows";
        "through": Length => "thickness that the fastener passes";
    }
    "brace" "braces" "brace" in ["stair", "flight"] "brace { direction: along }", "A diagonal or a stiff panel." {
        "direction": OneOf(&["along", "across"]) => "along the stair or across it";
        "section": Section => "across";
        "timber": Timber => "species, grade, treatment";
        "count": Count => "how many";
        "joins": Members => "what it joins";
    }
    "measured" "measured" "measured" in ["", "stair"] "measured \"name\" { on: 2026-05-04 }", "What the finished work measured, held to the same rules beside the drawing." {
        "on": Date => "the day";
        "total rise": Length => "as measured";
        "risers": Lengths => "as measured, bottom first";
        "runs": Lengths => "as measured";
        "width": Length => "as measured";
    }
    "timber" "timbers" "timber" in ["", "stair"] "timber \"marsh oak\" { gravity: 0.73 }", "A timber of your own." {
        "species": Words => "what it is";
        "gravity": Number => "specific gravity, oven-dry weight and volume";
        "hardness": OneOf(&["softwood", "hardwood"]) => "which of the two";
        "durable": OneOf(YES_NO) => "stands the weather by nature or by treatment";
    }
    "part" "parts" "part" in ["-"] "", "Anything drawn that is made of timber: the kinds that take `timber`." {
    }
    "section" "sections" "section" in ["", "stair"] "section \"rail\" { shape: round; diameter: 40 mm }", "A section of your own." {
        "shape": OneOf(&["round", "rectangular", "profiled"]) => "what it looks like";
        "width": Length => "across";
        "depth": Length => "plumb, or the larger way";
        "diameter": Length => "of a round one";
        "perimeter": Length => "round the outside";
        "across": Length => "the farthest that two points of it lie apart";
        "edge radius": Length => "of its edges";
        "recess start": Length => "of a finger recess at each side: plumb, from the tallest point down to where it begins";
        "recess depth": Length => "how deep it goes in";
        "recess reached": Length => "plumb, from the widest point down to where it is that deep";
        "recess kept": Length => "plumb, how far down it stays that deep";
        "recess end": Length => "plumb, from the tallest point down to where it ends";
        "width above recess": Length => "across, at its widest above the recess";
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_kind_stands_somewhere_and_explains_itself() {
        for kind in KINDS {
            assert!(!kind.help.is_empty() && !kind.plural.is_empty(), "{}", kind.name);
            for within in kind.within {
                assert!(within.is_empty() || *within == "-" || super::kind(within).is_some(), "{within}");
            }
            for property in kind.properties {
                assert!(!property.help.is_empty());
                assert_eq!(kind.property(property.name), Some(property), "{} twice in {}", property.name, kind.name);
            }
        }
    }
}

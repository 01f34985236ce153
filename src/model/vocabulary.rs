//! The vocabulary: every kind and property, what each takes, and one line of help. The reader, the messages,
//! the rules and the reference all read this table; adding a property is adding a row. Code that speaks of one row
//! does so by a handle below the table, which the compiler looks up in it.

use std::fmt;

use super::kind::{FILE, KIND, Kind, PropertyName, Takes, Trait, measurement, numbered, property, site};
use crate::base::Level;
use Takes::{
    Angle, Angles, Area, Balusters, Count, Date, Edge, Fasteners, Finish, Force, Length, Lengths, Members, Name,
    Number, OneOf, Pressure, Section, Sets, Slope, SomeOf, Timber, Words,
};

const SIDES: &[&str] = &["none", "left", "right", "far"];
const WAYS_ON: &[&str] = &["far", "left", "right", NOWHERE];
const TURNS: &[&str] = &["straight", "quarter left", "quarter right", "half left", "half right"];
const YES_NO: &[&str] = &["yes", "no"];

/// Where a landing leads that has no other way off it than the steps.
pub const NOWHERE: &str = "nowhere";

/// Where the leaf of a gate goes that opens onto its landing.
pub const AWAY_FROM_THE_STEPS: &str = "away from the steps";

/// Where a post stands that is the pole of a spiral.
pub const IN_THE_CENTRE: &str = "in the centre";

/// Where a string stands that goes up along a wall.
pub const AT_THE_WALL: &str = "at the wall";

/// Where a post stands that a turn goes round.
pub const AT_A_TURN: &str = "at a turn";

/// Whose underside a ceiling is.
pub const CEILINGS: &[&str] = &["floor", "roof", "stair above", "bulkhead"];

/// What closes a guard.
pub const INFILLS: &[&str] = &["balusters", "solid", "wall", "panels", "glass", "rails", "cables", "open"];

/// Where the feet of balusters stand that are let into nothing.
pub const ON_THE_TREADS: &str = "on the treads";

/// What holds the feet of balusters.
const BALUSTER_FEET: &[&str] = &[ON_THE_TREADS, "dovetailed", "housed", "pinned", "face-fixed"];

/// What a handrail begins with over the lowest tread.
pub const BEGINNINGS: &[&str] = &["plain", "volute", "turnout", "easing", "newel"];

/// Where a newel stands in the way of a handrail.
pub const INTERRUPTIONS: &[&str] = &["nowhere", "at a turn", "at a landing", "between"];

/// Every kind of a design.
pub static KINDS: &[Kind] = &numbered(
    0,
    [
        Kind {
            name: "stair",
            plural: "stairs",
            opens: "stair",
            within: &[FILE],
            example: "stair \"name\" {",
            help: "One stair, from the floor at its foot to the floor at its head.",
            properties: &[
                property("rules", Sets, "the rulesets it is checked against"),
                site("use", OneOf(&["dwelling", "shared", "public", "workplace"]), "who climbs it"),
                site(
                    "access",
                    OneOf(&["private", "utility", "general"]),
                    "whose way it is: one household's, nobody's from day to day, or everybody's; by its use, \
                 unless stated",
                ),
                site("class", Words, "what a code that has classes of its own calls it: `service`, `main private`"),
                site("occupants", Count, "how many people it has to serve").between(1.0, 5000.0),
                site("accessible", OneOf(YES_NO), "whether it is part of a way out that has to be accessible"),
                site("setting", OneOf(&["indoors", "outdoors"]), "where it stands"),
                site(
                    "snow",
                    Pressure,
                    "on its steps, outdoors: as the code that holds there gives it for the ground; 0 psf under a roof",
                )
                .psi(0.0, 2.5),
                property("standing", OneOf(&["anchored", "freestanding"]), "held by a building, or by itself"),
                site("total rise", Length, "finished floor at the foot to finished floor at the head, plumb")
                    .inches(4.0, 600.0),
                property("total run", Length, "front edge of the first tread to the edge of the floor above, level")
                    .inches(3.0, 1200.0),
                site("bottom finish", Length, "floor finish still to come at the foot").inches(0.0, 6.0),
                site("top finish", Length, "floor finish still to come at the head").inches(0.0, 6.0),
                site("longest bit", Length, "how deep the longest bit reaches").inches(1.0, 60.0),
                property(
                    "front foot",
                    Length,
                    "of a freestanding one: level, front edge of the lowest tread back to its foot",
                )
                .inches(0.0, 120.0)
                .strengthens(),
                property("cut ends", OneOf(&["sealed", "bare"]), "how the end grain is left where a board is cut"),
                property("switches", SomeOf(&["none", "foot", "head"]), "floors where its light can be switched"),
            ],
            ..KIND
        },
        Kind {
            name: "landing",
            plural: "landings",
            opens: "landing",
            within: &["stair", "flight"],
            traits: &[Trait::Place, Trait::Joinable],
            example: "landing top { depth: 36\"; width: 36\" }",
            help: "A floor at the foot, at the head, or between flights.",
            properties: &[
                property("depth", Length, "level, in the direction of travel").inches(12.0, 600.0),
                property("width", Length, "level, square to travel").inches(12.0, 600.0),
                property("slope", Slope, "fall of its surface").between(0.0, 0.25),
                property("thickness", Length, "of its deck").inches(0.25, 24.0),
                property("nosing", Length, "level, front edge past the face of the riser below").inches(0.0, 4.0),
                property("turn", OneOf(TURNS), "where the next flight leaves it, seen coming up"),
                property(
                    "plan",
                    OneOf(&["rectangular", "other"]),
                    "its outline; of any other than a rectangle the depth is taken on the walkline",
                ),
                property("between flights", Length, "level, of a half turn, from the one flight to the other")
                    .inches(0.0, 120.0),
                property("area", Area, "of its floor, where its plan is no rectangle").square_feet(1.0, 2000.0),
                site("open sides", SomeOf(SIDES), "sides one can fall from, where walls do not say so"),
                site("leads on", OneOf(WAYS_ON), "the side by which one goes on at the head or the foot of the stair"),
            ],
            ..KIND
        },
        Kind {
            name: "door",
            plural: "doors",
            opens: "door",
            within: &["stair", "landing"],
            traits: &[Trait::ServesLandingOfName],
            example: "door top { swing: slides }",
            help: "A door at a landing, or straight at the head or the foot of the steps.",
            properties: &[
                property("at", Name, "the landing it opens at; `top` and `bottom` need none to be drawn"),
                site("swing", OneOf(&["over the stair", "away from the stair", "slides"]), "where its leaf goes"),
                site("width", Length, "clear opening").inches(12.0, 144.0),
                site("leaf", Length, "width of its leaf").inches(12.0, 144.0),
                site("threshold", Length, "top of the threshold above the landing").inches(0.0, 24.0),
                site("egress", OneOf(YES_NO), "whether it is the required way out"),
            ],
            ..KIND
        },
        Kind {
            name: "well",
            plural: "wells",
            opens: "well",
            within: &["stair"],
            traits: &[Trait::Place],
            example: "well { length: 96\"; width: 36\" }",
            help: "The hole in the floor at the head that the steps come up through; its far end lies over their foot.",
            properties: &[
                property("length", Length, "level, in the direction of travel, from the edge at the head")
                    .inches(12.0, 600.0),
                property("width", Length, "level, square to travel").inches(12.0, 240.0),
            ],
            ..KIND
        },
        Kind {
            name: "wall",
            plural: "walls",
            opens: "wall",
            within: &["stair", "flight", "landing", "well"],
            traits: &[Trait::Sided, Trait::SidesOnly, Trait::FarSide, Trait::ServesEveryPlace],
            example: "wall left { }",
            help: "A wall that closes a side of a flight, a landing or a well; one that is low is a guard with `infill: wall`.",
            properties: &[
                site("from tread", Count, "the lowest tread it stands beside; the first, unless stated")
                    .between(1.0, 200.0),
                site("to tread", Count, "the highest tread it stands beside; the last, unless stated")
                    .between(1.0, 200.0),
                site("length", Length, "of a side of a landing or a well, level, where it closes less than all of it")
                    .inches(1.0, 600.0),
                property("along", Name, "the flight or landing it closes"),
            ],
            ..KIND
        },
        Kind {
            name: "ceiling",
            plural: "ceilings",
            opens: "ceiling",
            within: &["stair", "flight", "landing"],
            example: "ceiling { headroom: 80\" }",
            help: "What is overhead.",
            properties: &[
                site(
                    "headroom",
                    Length,
                    "plumb, from the line of the nosings, or from a landing's floor, at its least",
                )
                .inches(36.0, 480.0),
                site(
                    "height",
                    Length,
                    "plumb, above the foot of its flight, or above its landing, at the first front edge",
                )
                .inches(36.0, 600.0),
                site("slope", Slope, "how it rises in the direction of travel").between(0.0, 3.0),
                site("fall", Slope, "how it falls in the direction of travel").between(0.0, 3.0),
                site("fall across", Slope, "how it falls from the side at which its height is taken to the other")
                    .between(0.0, 3.0),
                site("from", Length, "where it begins: level, from the first front edge; before that, unless stated")
                    .inches(0.0, 1200.0),
                site("to", Length, "where it ends: level, from the first front edge; past the last, unless stated")
                    .inches(0.0, 1200.0),
                site("part of", OneOf(CEILINGS), "whose underside it is"),
                site(
                    "over",
                    OneOf(&["the stair", "the ends of the treads"]),
                    "what it hangs over; the stair, unless stated",
                ),
                site("overhang", Length, "how far the edge of a floor stands in over the ends of the treads")
                    .inches(0.0, 48.0),
            ],
            ..KIND
        },
        Kind {
            name: "beam",
            plural: "beams",
            opens: "beam",
            within: &["stair", "flight", "landing"],
            traits: &[Trait::Overhead],
            example: "beam { height: 100\"; from: 30\"; width: 5-1/2\" }",
            help: "A beam, a tie or a duct across the stair; rules on ceilings ask of it as they do of those.",
            properties: &[
                site(
                    "headroom",
                    Length,
                    "plumb, from the line of the nosings, or from a landing's floor, at its least",
                )
                .inches(36.0, 480.0),
                site("height", Length, "plumb, above the foot of its flight, or above its landing, to its underside")
                    .inches(36.0, 600.0),
                site("from", Length, "its nearer face: level, from the first front edge, or from that of its landing")
                    .inches(0.0, 1200.0),
                site("width", Length, "level, in the direction of travel").inches(0.25, 48.0),
            ],
            ..KIND
        },
        Kind {
            name: "space below",
            plural: "spaces below",
            opens: "space below",
            within: &["stair", "flight", "landing"],
            example: "space below { enclosed: yes; access: door; lining: gypsum board; thickness: 1/2\"; lined: all of it }",
            help: "What is below the stair: a cupboard, or a room that runs on under its soffit.",
            properties: &[
                property("enclosed", OneOf(YES_NO), "whether walls close it off"),
                property("access", OneOf(&["door", "panel", "none"]), "how one gets into it, where it is enclosed"),
                property("reached from", OneOf(&["the stair", "elsewhere"]), "where its door or its panel opens"),
                property(
                    "lining",
                    OneOf(&["gypsum board", "plaster", "boards", "panels", "none"]),
                    "what lines it, on its own side",
                ),
                property("thickness", Length, "of its lining").inches(0.0, 4.0),
                property(
                    "lined",
                    OneOf(&["all of it", "soffit", "walls"]),
                    "what of it is lined: the walls, the soffit under the stair, or both",
                ),
                property("rating", Number, "hours for which its walls and its soffit hold back a fire, as tested")
                    .between(0.0, 6.0),
                site("headroom", Length, "plumb, from its floor to the soffit, where it is least and one can walk")
                    .inches(0.0, 480.0),
                property("barrier", OneOf(YES_NO), "whether something keeps one from walking under where it is low"),
                property("barrier edge", Length, "plumb, from the floor to the edge that a cane meets")
                    .inches(0.0, 60.0),
            ],
            ..KIND
        },
        Kind {
            name: "ground",
            plural: "grounds",
            opens: "ground",
            within: &["stair"],
            traits: &[Trait::Sided, Trait::SidesOnly, Trait::FarSide],
            example: "ground left { below: 6\" }",
            help: "The ground beside the stair.",
            properties: &[
                site("below", Length, "how far it lies below the floor at the foot").inches(0.0, 600.0),
                site("slope", Slope, "how it falls away from the stair").between(0.0, 1.0),
            ],
            ..KIND
        },
        Kind {
            name: "flight",
            plural: "flights",
            opens: "flight",
            within: &["stair"],
            traits: &[Trait::Place],
            example: "flight { risers: 4 of 7\"; runs: 3 of 10-1/4\" }",
            help: "A run of steps between two landings.",
            properties: &[
                property("risers", Lengths, "finish to finish, plumb, bottom first").inches(2.5, 14.0),
                property("runs", Lengths, "front edge to front edge, level; the last to the edge of the floor above")
                    .inches(3.0, 36.0),
                property("width", Length, "clear, level, square to travel; rails ignored").inches(12.0, 240.0),
                property("spiral", OneOf(YES_NO), "round a pole; no, unless stated"),
                property("ship", OneOf(YES_NO), "a ship stair, steep and with open risers; no, unless stated"),
            ],
            ..KIND
        },
        Kind {
            name: "winders",
            plural: "winders",
            opens: "winders",
            within: &["flight"],
            traits: &[Trait::Sided],
            example: "winders left { from tread: 5; to tread: 7; turn: 90°; narrow: 6\" }",
            help: "Treads that taper to turn the flight; their runs are taken on the line of travel.",
            properties: &[
                property("from tread", Count, "the lowest of them").between(1.0, 200.0),
                property("to tread", Count, "the highest of them").between(1.0, 200.0),
                site("turn", Angles, "of all of them together, or of each, lowest first").between(5.0, 1080.0),
                property("narrow", Lengths, "depth of each at its narrow side, front edge to front edge")
                    .inches(0.0, 24.0),
            ],
            ..KIND
        },
        Kind {
            name: "riser",
            plural: "risers",
            opens: "riser",
            within: &[],
            made_from: Some("risers"),
            example: "",
            help: "One riser of a flight, made from its list.",
            ..KIND
        },
        Kind {
            name: "tread",
            plural: "treads",
            opens: "tread",
            within: &["stair", "flight"],
            traits: &[Trait::LaidLevel, Trait::Joinable],
            made_from: Some("runs"),
            example: "tread { section: 1-1/2\" x 11-1/4\"; nosing: 1\" }",
            help: "The treads of a flight; one is made for each run.",
            properties: &[
                property("section", Section, "of one board").ways((0.125, 12.0), (1.0, 48.0)).strengthens(),
                property("boards", Count, "how many boards side by side, where not one").between(1.0, 12.0),
                property("gap", Length, "between two boards").inches(0.0, 3.0),
                property("length", Length, "of a board, across the stair").inches(12.0, 240.0),
                property("timber", Timber, "species, grade, treatment"),
                property("nosing", Lengths, "level, front edge past the face of the riser below").inches(0.0, 4.0),
                property("edge", Edge, "how the front edge is worked"),
                property(
                    "held by",
                    OneOf(&["fasteners", "wedges", "cleats", "brackets"]),
                    "what holds its ends in or on its stringers, beside the cut of those",
                ),
                site("span", Length, "clear, from face to face of what carries it, where its stringers do not say so")
                    .inches(4.0, 120.0),
                property("slope", Slope, "fall of its surface").between(0.0, 0.25),
                property("finish", Finish, "what gives grip, or protects; of a strip, how long it is"),
                property(
                    "contrast",
                    Length,
                    "how deep a strip of another lightness lies at its front edge; 0 for none",
                )
                .inches(0.0, 12.0),
                property("contrast below", Length, "how far down the riser from its front edge such a strip reaches")
                    .inches(0.0, 12.0),
            ],
            ..KIND
        },
        Kind {
            name: "riser board",
            plural: "riser boards",
            opens: "riser board",
            within: &["stair", "flight"],
            traits: &[Trait::OneForEachFlight, Trait::LaidLevel, Trait::Joinable],
            example: "riser board { section: 1x8; stands: on tread }",
            help: "Boards that close the risers; none drawn, the risers are open.",
            properties: &[
                property("section", Section, "as it measures").ways((0.125, 2.5), (0.5, 20.0)).strengthens(),
                property("timber", Timber, "species, grade, treatment"),
                property("stands", OneOf(&["on tread", "behind tread"]), "on the tread below, or behind it"),
                property("lean", Angle, "of its face from plumb").between(0.0, 60.0),
            ],
            ..KIND
        },
        Kind {
            name: "riser bar",
            plural: "riser bars",
            opens: "riser bar",
            within: &["stair", "flight"],
            traits: &[Trait::OneForEachFlight, Trait::LaidLevel, Trait::Joinable],
            example: "riser bar { section: 1x2; below: 3\" }",
            help: "Bars across open risers, which they narrow and do not close.",
            properties: &[
                property("section", Section, "its wider way plumb").ways((0.125, 4.0), (0.25, 12.0)).strengthens(),
                property("timber", Timber, "species, grade, treatment"),
                property("below", Length, "plumb, from the tread below it to its underside").inches(0.0, 12.0),
            ],
            ..KIND
        },
        Kind {
            name: "stringer",
            plural: "stringers",
            opens: "stringer",
            within: &["stair", "flight"],
            traits: &[Trait::OneForEachFlight, Trait::Joinable],
            example: "stringer { count: 3; section: 2x12; cut: notched }",
            help: "The members that carry the treads.",
            properties: &[
                property("count", Count, "how many").between(1.0, 12.0),
                property("spacing", Length, "level, centre to centre").inches(4.0, 84.0),
                property("section", Section, "before it is cut").ways((0.125, 12.0), (1.0, 30.0)).strengthens(),
                property("timber", Timber, "species, grade, treatment"),
                property("cut", OneOf(&["notched", "solid", "housed"]), "how it takes the treads"),
                property("housing", Length, "how deep the treads are let into it, where it is housed").inches(0.0, 2.0),
                property("first cut", Length, "height of the lowest riser cut, where it is notched").inches(0.0, 16.0),
                property(
                    "last cut",
                    Length,
                    "plumb, from its highest tread cut to the rough floor at the head, where it is notched",
                )
                .inches(0.0, 16.0),
                property(
                    "stands",
                    OneOf(&[AT_THE_WALL, "outer", "inner", "between"]),
                    "which string it is; the inner one of a turn stands where the treads are narrow",
                ),
                site("span", Length, "level, from support to support, where something holds it up on the way")
                    .inches(6.0, 360.0),
                property(
                    "head",
                    OneOf(&["hanger", "ledger", "bolts", "screws", "framing angle", "nails", "toenails", "nothing"]),
                    "what holds it at its head; nails are driven into its end, toenails slanting through it",
                ),
                property(
                    "dropped header",
                    Length,
                    "plumb, how far a board that its head is held to reaches down below the joists of the floor there",
                )
                .inches(0.0, 24.0),
                property("head bearing", Length, "level, how far its head lies on the ledger that carries it")
                    .inches(0.0, 24.0)
                    .strengthens(),
                property(
                    "head notch",
                    Length,
                    "square to its slope, how deep it is cut into below where its head rests; 0 for not at all",
                )
                .inches(0.0, 12.0)
                .strengthens(),
                property(
                    "foot",
                    OneOf(&["pad", "footing", "floor", "landing", "kicker", "ground"]),
                    "what it stands on; a kicker is a board at the floor that its heel is cut over",
                ),
                property("foot bearing", Length, "level, how far its foot lies on what it stands on")
                    .inches(0.0, 36.0)
                    .strengthens(),
                property(
                    "foot notch",
                    Length,
                    "square to its slope, how deep its heel is cut into, as over a kicker; 0 for not at all",
                )
                .inches(0.0, 12.0)
                .strengthens(),
            ],
            ..KIND
        },
        Kind {
            name: "joist",
            plural: "joists",
            opens: "joist",
            within: &["landing"],
            traits: &[Trait::Joinable],
            example: "joist { count: 4; spacing: 16\"; section: 2x8; rests on: hangers; bearing: 1-1/2\"; notch: 0\" }",
            help: "The joists that carry the deck of a landing.",
            properties: &[
                property("count", Count, "how many, those at its outer edges with them").between(1.0, 100.0),
                property("spacing", Length, "level, centre to centre").inches(4.0, 48.0),
                property("section", Section, "on edge, before it is cut").ways((0.5, 12.0), (1.0, 30.0)).strengthens(),
                property("timber", Timber, "species, grade, treatment"),
                site("span", Length, "level, from support to support").inches(6.0, 360.0),
                property(
                    "rests on",
                    OneOf(&["hangers", "ledger", "beam", "masonry", "nails"]),
                    "what carries its ends; nails are driven into them",
                ),
                property("bearing", Length, "level, how far each end lies on what carries it")
                    .inches(0.0, 24.0)
                    .strengthens(),
                property("notch", Length, "plumb, how deep it is cut into below at an end; 0 for not at all")
                    .inches(0.0, 12.0)
                    .strengthens(),
            ],
            ..KIND
        },
        Kind {
            name: "header",
            plural: "headers",
            opens: "header",
            within: &["stair", "landing"],
            traits: &[Trait::Joinable],
            example: "header { count: 2; section: 2x10; span: 60\"; strip of floor: 24\" }",
            help: "The header or the rim on which the strings of the flight that ends there hang.",
            properties: &[
                property("count", Count, "how many boards side by side, fastened to one another").between(1.0, 6.0),
                property("section", Section, "of one board, on edge").ways((0.5, 12.0), (1.0, 30.0)).strengthens(),
                property("timber", Timber, "species, grade, treatment"),
                site("span", Length, "level, from one of the posts or joists that carry it to the next")
                    .inches(6.0, 360.0),
                site(
                    "strip of floor",
                    Length,
                    "level, how deep a strip of the floor lies on it beside the flight: half the span of the joists that it \
                     carries; 0 for none",
                )
                .inches(0.0, 240.0),
            ],
            ..KIND
        },
        Kind {
            name: "post",
            plural: "posts",
            opens: "post",
            within: &["stair", "flight", "landing"],
            traits: &[Trait::Joinable],
            example: "post \"newel\" { section: 4x4 }",
            help: "A newel or a post.",
            properties: &[
                property("count", Count, "how many").between(1.0, 100.0),
                property("section", Section, "across").ways((0.75, 24.0), (0.75, 24.0)).strengthens(),
                property("timber", Timber, "species, grade, treatment"),
                property("height", Length, "of the post").inches(6.0, 240.0),
                property("notched", OneOf(YES_NO), "cut into where it is fastened"),
                property(
                    "stands",
                    OneOf(&[IN_THE_CENTRE, AT_A_TURN, "at an end", "between ends"]),
                    "where: one in the centre is the pole of a spiral",
                ),
            ],
            ..KIND
        },
        Kind {
            name: "handrail",
            plural: "handrails",
            opens: "handrail",
            within: &["stair", "flight", "landing"],
            traits: &[Trait::Sided, Trait::FarSide, Trait::Middle, Trait::ServesLoneFlight, Trait::Joinable],
            example: "handrail left { height: 36\" }",
            help: "What the hand holds.",
            properties: &[
                property("height", Lengths, "plumb, from the line of the nosings to its top").inches(12.0, 96.0),
                property("section", Section, "across").ways((0.5, 8.0), (0.5, 14.0)).strengthens(),
                property("timber", Timber, "species, grade, treatment"),
                property("clearance", Length, "rail face to the nearest wall, post or guard").inches(0.0, 12.0),
                property("off the steps", Length, "level, how far before the front edges of the steps it stands")
                    .inches(0.0, 36.0),
                property("ends", OneOf(&["returned", "at a post", "safety terminal", "open"]), "how it ends"),
                property("between posts", Length, "clear distance of the posts of its own that it stands on")
                    .inches(1.0, 240.0)
                    .strengthens(),
                property("edge", Edge, "how its edges are worked"),
                property("end cut", Angle, "saw setting of its ends, off square").between(0.0, 90.0),
                property("from riser", Count, "the lowest riser it stands over").between(1.0, 200.0),
                property("to riser", Count, "the highest riser it stands over").between(1.0, 200.0),
                property(
                    "begins",
                    OneOf(BEGINNINGS),
                    "what it begins with over the lowest tread; plain, unless stated",
                ),
                property(
                    "interrupted",
                    OneOf(INTERRUPTIONS),
                    "where a newel stands in its way; nowhere, unless stated",
                ),
                property("top extension", Length, "level, how far it runs on past the front edge of the top riser")
                    .inches(0.0, 72.0),
                property(
                    "bottom extension",
                    Length,
                    "level, how far it runs on past the front edge of the lowest riser",
                )
                .inches(0.0, 72.0),
                property(
                    "continues",
                    OneOf(&["nowhere", "up", "down", "both ways"]),
                    "where it runs on into the rail of another flight; nowhere, unless stated",
                ),
                property("along", Name, "the flight or landing it serves"),
            ],
            ..KIND
        },
        Kind {
            name: "bracket",
            plural: "brackets",
            opens: "bracket",
            within: &["handrail"],
            example: "bracket { every: 36\" }",
            help: "What holds a handrail to its wall.",
            properties: &[
                property("every", Length, "centre to centre, along the rail").inches(4.0, 240.0),
                property("end", Length, "from the end of the rail to the nearest of them").inches(0.0, 120.0),
                property("below", Length, "plumb, underside of the rail to where an arm runs out level")
                    .inches(0.0, 12.0),
            ],
            ..KIND
        },
        Kind {
            name: "guard",
            plural: "guards",
            opens: "guard",
            within: &["stair", "flight", "landing", "well"],
            traits: &[Trait::Sided, Trait::FarSide, Trait::ServesLoneFlight, Trait::Joinable],
            example: "guard left { height: 36\"; balusters: 2x2 every 5\" }",
            help: "What keeps one from falling off a side.",
            properties: &[
                property(
                    "height",
                    Lengths,
                    "plumb, from the line of the nosings, or from a landing's floor, to its top",
                )
                .inches(12.0, 96.0),
                property("balusters", Balusters, "section and how far apart, or how many").strengthens(),
                property(
                    "bottom gap",
                    Length,
                    "square off the line of the nosings to the underside of the bottom rail",
                )
                .inches(0.0, 48.0),
                property("end gap", Length, "between the last baluster and its post").inches(0.0, 48.0),
                property("between posts", Length, "clear distance that the balusters fill")
                    .inches(1.0, 240.0)
                    .strengthens(),
                property("infill", OneOf(INFILLS), "what closes it; `wall` for one that is low"),
                property(
                    "midrail",
                    Length,
                    "plumb, from where its height is measured to the top of a rail half way up",
                )
                .inches(3.0, 72.0),
                property("midrail thickness", Length, "plumb, of that rail").inches(0.25, 12.0),
                property("toe board", Length, "plumb, from the floor to the top of its toe board").inches(1.0, 24.0),
                property("toe board gap", Length, "between the toe board and the floor").inches(0.0, 6.0),
                property("rails", Balusters, "level ones below the top: section and how far apart, plumb, or how many"),
                property(
                    "rails lie",
                    OneOf(&["flat", "on edge"]),
                    "which way of its rails is plumb, where they have two",
                ),
                property("cables", Balusters, "level ones: section and how far apart, plumb, or how many"),
                property("give", Length, "how far one cable gives way under the ball").inches(0.0, 6.0),
                property("panel gap", Length, "between a panel or a pane and what holds it, or the next")
                    .inches(0.0, 48.0),
                property(
                    "glass",
                    OneOf(&["laminated", "tempered", "laminated tempered", "annealed"]),
                    "what its panes are of",
                ),
                property("from tread", Count, "the lowest tread it stands beside; the first, unless stated")
                    .between(1.0, 200.0),
                property("to tread", Count, "the highest tread it stands beside; the last, unless stated")
                    .between(1.0, 200.0),
                property(
                    "length",
                    Length,
                    "of a side of a landing or a well, level, where it closes less than all of it",
                )
                .inches(1.0, 600.0),
                property("infill to", Length, "how high the infill reaches, where it stops short of the top")
                    .inches(1.0, 96.0),
                property("top gap", Length, "the widest opening above the infill").inches(0.0, 72.0),
                measurement("widest gap", Length, "the widest opening in its infill, as a gauge finds it")
                    .inches(0.0, 96.0),
                property("handrail", OneOf(YES_NO), "its top serves as the handrail; no, unless stated"),
                property("edge", Edge, "how the edges of its top rail are worked"),
                property("end cut", Angle, "saw setting of its rails' ends, off square").between(0.0, 90.0),
                property("baluster cut", Angle, "saw setting of its balusters' ends, off square").between(0.0, 90.0),
                property(
                    "baluster feet",
                    OneOf(BALUSTER_FEET),
                    "what holds the feet of its balusters: dovetailed, housed or pinned they are let into the treads",
                ),
                property("let in", Length, "how deep those feet, or the pins in them, are let into the treads")
                    .inches(0.0, 6.0),
                property("section", Section, "of the top rail").ways((0.375, 8.0), (0.5, 14.0)).strengthens(),
                property("top rail lies", OneOf(&["flat", "on edge"]), "which way of its top rail is plumb"),
                property("timber", Timber, "species, grade, treatment"),
                property("along", Name, "the flight or landing it guards"),
            ],
            ..KIND
        },
        Kind {
            name: "gate",
            plural: "gates",
            opens: "gate",
            within: &["guard", "landing"],
            example: "gate { width: 36\"; swing: away from the steps }",
            help: "A gate in a guard, or in a landing across the head of the steps.",
            properties: &[
                property("width", Length, "clear opening").inches(12.0, 144.0),
                property("leaf", Length, "width of its leaf").inches(12.0, 144.0),
                property("height", Length, "plumb, from the floor to its top").inches(12.0, 96.0),
                property("gap", Length, "the widest opening in it, beside it or below it").inches(0.0, 48.0),
                property("swing", OneOf(&["over the steps", AWAY_FROM_THE_STEPS, "slides"]), "where its leaf goes"),
                property("latch", OneOf(&["by itself", "by hand", "none"]), "how it is held shut"),
            ],
            ..KIND
        },
        Kind {
            name: "joint",
            plural: "joints",
            opens: "joint",
            within: &["stair", "flight", "landing"],
            example: "joint \"newel to stringer\" { joins: newel to stringer }",
            help: "Where members are fastened.",
            properties: &[
                property("joins", Members, "what it joins, the fastener's head in the first"),
                property("bolts", Fasteners, "how many, size, head, coating").strengthens(),
                property("lags", Fasteners, "how many, size, coating").strengthens(),
                property("screws", Fasteners, "how many, size, coating").strengthens(),
                property("nails", Fasteners, "how many, size, coating").strengthens(),
                property("toe-nailed", OneOf(YES_NO), "whether its nails are driven aslant, near the end of the first"),
                property("hole", Length, "bored for the bolt, or for the shank").inches(0.0625, 2.5).strengthens(),
                property("pilot", Length, "bored for the thread").inches(0.0, 1.5),
                property("washers", OneOf(&["nut side", "both sides", "none"]), "where they lie"),
                property("plate", Length, "side of the square plates under head and nut, in place of round washers")
                    .inches(0.5, 8.0)
                    .strengthens(),
                measurement("hold-down", Force, "allowable load of the hold-down at its upper row")
                    .pounds(50.0, 20000.0),
                property("hold-down by", Words, "where that load is printed; without it it does not count"),
                property(
                    "behind",
                    OneOf(&["joist", "blocking", "nothing"]),
                    "what meets the rim or string behind a guard post, so that it cannot roll",
                ),
                property(
                    "tied by",
                    OneOf(&["straps", "angles", "end grain"]),
                    "how that is held to it: by metal, or by nails or screws into its end alone",
                ),
                property("spacer", Length, "thickness of what stands between the members").inches(0.0, 12.0),
            ],
            ..KIND
        },
        Kind {
            name: "member",
            plural: "members",
            opens: "in",
            within: &["joint"],
            example: "in newel { end: 3-1/2\"; edge: 1-3/4\" }",
            help: "Where the fasteners stand in one of the members joined.",
            properties: &[
                property("end", Length, "along the grain, fastener centre to the end of the member")
                    .inches(0.03125, 72.0)
                    .strengthens(),
                property("edge", Length, "square to the grain, fastener centre to the edge")
                    .inches(0.03125, 24.0)
                    .strengthens(),
                property("spacing", Length, "along the grain, between fasteners; 0 where they stand side by side")
                    .inches(0.0, 48.0)
                    .strengthens(),
                property("row spacing", Length, "square to the grain, between rows; 0 where there is one row")
                    .inches(0.0, 36.0)
                    .strengthens(),
                property("through", Length, "thickness that the fastener passes").inches(0.25, 24.0),
            ],
            ..KIND
        },
        Kind {
            name: "brace",
            plural: "braces",
            opens: "brace",
            within: &["stair", "flight"],
            traits: &[Trait::Joinable],
            example: "brace { direction: along }",
            help: "A diagonal or a stiff panel.",
            properties: &[
                property("direction", OneOf(&["along", "across"]), "along the stair or across it"),
                property("section", Section, "across").strengthens(),
                property("timber", Timber, "species, grade, treatment"),
                property("count", Count, "how many").between(1.0, 50.0),
                property("joins", Members, "what it joins"),
            ],
            ..KIND
        },
        Kind {
            name: "measured",
            plural: "measured",
            opens: "measured",
            within: &[FILE, "stair"],
            example: "measured \"name\" { on: 2026-05-04 }",
            help: "What the finished work measured, checked against the same rules beside the drawing.",
            properties: &[
                measurement("on", Date, "the day"),
                measurement("by", Words, "who measured"),
                measurement("read to", Length, "the finest mark to which the figures were read").inches(0.001, 1.0),
                measurement("total rise", Length, "as measured").inches(4.0, 600.0),
                measurement("risers", Lengths, "as measured, bottom first").inches(2.5, 14.0),
                measurement("runs", Lengths, "as measured").inches(3.0, 36.0),
                measurement("width", Length, "as measured").inches(12.0, 240.0),
            ],
            ..KIND
        },
        Kind {
            name: "waiver",
            plural: "waivers",
            opens: "waive",
            within: &[
                "stair",
                "landing",
                "door",
                "well",
                "wall",
                "ceiling",
                "beam",
                "space below",
                "ground",
                "flight",
                "winders",
                "tread",
                "riser board",
                "riser bar",
                "stringer",
                "joist",
                "header",
                "post",
                "handrail",
                "bracket",
                "guard",
                "gate",
                "joint",
                "member",
                "brace",
            ],
            example: "waive \"riser height\" { why: \"the old stair stays\"; by: \"J. Reed\"; until: 2027-03-01 }",
            help: "Leave to depart from a rule, for the thing it stands in and all that belongs to that.",
            properties: &[
                property("why", Words, "the reason; without one it does not hold"),
                property("by", Words, "who answers for it; without one it does not hold"),
                property("until", Date, "the last day on which it holds; until it is taken out, unless stated"),
                property("only", Words, "which of these things is meant, as a report calls them; all, unless stated"),
                property("set", Words, "title of the only set whose rule is meant; that of every set, unless stated"),
            ],
            ..KIND
        },
        Kind {
            name: "timber",
            plural: "timbers",
            opens: "timber",
            within: &[FILE, "stair"],
            traits: &[Trait::Stocked],
            example: "timber \"marsh oak\" { gravity: 0.73 }",
            help: "A timber of your own.",
            properties: &[
                measurement("species", Words, "what it is"),
                measurement("gravity", Number, "specific gravity, oven-dry weight and volume").between(0.1, 1.4),
                measurement("hardness", OneOf(&["softwood", "hardwood"]), "which of the two"),
                measurement("durable", OneOf(YES_NO), "stands the weather by nature or by treatment"),
                measurement(
                    "tannin",
                    OneOf(&["rich", "poor"]),
                    "how much is in it: much eats iron, and stains round it",
                ),
                measurement("bending", Pressure, "reference design value F_b, for its size and use").psi(50.0, 10000.0),
                measurement("shear", Pressure, "reference design value F_v").psi(10.0, 2000.0),
                measurement("crushing", Pressure, "reference design value F_c-perp, across the grain")
                    .psi(50.0, 5000.0),
                measurement("compression", Pressure, "reference design value F_c, along the grain").psi(50.0, 10000.0),
                measurement("elasticity", Pressure, "reference modulus of elasticity E").psi(100_000.0, 5_000_000.0),
                measurement("least elasticity", Pressure, "reference modulus for stability, E_min")
                    .psi(50_000.0, 2_500_000.0),
            ],
            ..KIND
        },
        Kind {
            name: "part",
            plural: "parts",
            opens: "part",
            within: &[],
            example: "",
            help: "Anything drawn that is made of timber: the kinds that take `timber`.",
            ..KIND
        },
        Kind {
            name: "section",
            plural: "sections",
            opens: "section",
            within: &[FILE, "stair"],
            traits: &[Trait::Stocked],
            example: "section \"rail\" { shape: round; diameter: 40 mm }",
            help: "A section of your own.",
            properties: &[
                property(
                    "shape",
                    OneOf(&["round", "rectangular", "profiled"]),
                    "what it looks like; rectangular, unless stated",
                ),
                property("width", Length, "across").inches(0.25, 48.0),
                property("depth", Length, "plumb, or the larger way").inches(0.25, 48.0),
                property("diameter", Length, "of a round one").inches(0.25, 24.0),
                property("perimeter", Length, "round the outside").inches(1.0, 144.0),
                property("across", Length, "the farthest that two points of it lie apart").inches(0.25, 72.0),
                property("edge radius", Length, "of its edges").inches(0.0, 6.0),
                property(
                    "recess start",
                    Length,
                    "of a finger recess at each side: plumb, from the tallest point down to where it begins",
                )
                .inches(0.0, 6.0),
                property("recess depth", Length, "how deep it goes in").inches(0.0, 3.0),
                property("recess reached", Length, "plumb, from the widest point down to where it is that deep")
                    .inches(0.0, 6.0),
                property("recess kept", Length, "plumb, how far down it stays that deep").inches(0.0, 6.0),
                property("recess end", Length, "plumb, from the tallest point down to where it ends").inches(0.0, 12.0),
                property("width above recess", Length, "across, at its widest above the recess").inches(0.25, 12.0),
            ],
            ..KIND
        },
    ],
);

/// The kinds of a shop's file, beside those that it may list in stock.
pub static SHOP_KINDS: &[Kind] = &numbered(
    KINDS.len(),
    [
        Kind {
            name: "shop",
            plural: "shops",
            opens: "shop",
            within: &[FILE],
            example: "shop \"name\" { rules: residential }",
            help: "A shop: what it states for every design below its file.",
            properties: &[
                property("rules", Sets, "the rulesets that its designs are checked against"),
                site("longest bit", Length, "how deep the longest bit reaches").inches(1.0, 60.0),
                property(
                    "fail on",
                    SomeOf(Level::WORDS),
                    "what fails a run: broken and not understood, unless stated; a file further up may ask for more",
                ),
            ],
            ..KIND
        },
        Kind {
            name: "folder",
            plural: "folders",
            opens: "folder",
            within: &[FILE],
            example: "folder \"cabins\" { rules: residential }",
            help: "A folder below the shop's file with rulesets of its own, or of which something else fails a run.",
            properties: &[
                property("rules", Sets, "the rulesets that the designs in it are checked against"),
                property("fail on", SomeOf(Level::WORDS), "what of the designs in it fails a run"),
            ],
            ..KIND
        },
    ],
);

impl Kind {
    /// Whether what is drawn as one of this kind is one of another, too: of the parts, whatever is made of timber; of the
    /// ceilings, whatever is overhead.
    pub fn counts_as(&self, other: &Kind) -> bool {
        self == other
            || other == kinds::PART && self.has(properties::TIMBER).is_some()
            || other == kinds::CEILING && self.is(Trait::Overhead)
    }
}

/// The kind of a name, singular.
#[cfg(feature = "internals")]
pub fn kind(name: &str) -> Option<&'static Kind> {
    KINDS.iter().find(|kind| kind.name == name)
}

impl PropertyName {
    /// As it is written.
    pub fn text(self) -> &'static str {
        let mut properties = KINDS.iter().chain(SHOP_KINDS).flat_map(|kind| kind.properties);
        properties.find(|property| property.handle() == self).map_or("", |property| property.name)
    }
}

impl fmt::Display for PropertyName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.text())
    }
}

impl fmt::Debug for PropertyName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "`{self}`")
    }
}

/// Whether two texts are the same, for the compiler.
pub(crate) const fn same(a: &str, b: &str) -> bool {
    let (mut a, mut b) = (a.as_bytes(), b.as_bytes());
    loop {
        match (a.split_first(), b.split_first()) {
            (Some((x, after_a)), Some((y, after_b))) if *x == *y => (a, b) = (after_a, after_b),
            (None, None) => return true,
            _ => return false,
        }
    }
}

/// Kinds by their handles. One that the table lacks does not compile.
#[allow(missing_docs, reason = "a row says what it is")]
pub mod kinds {
    use super::{KINDS, Kind, SHOP_KINDS, same};

    #[allow(clippy::panic, reason = "only the compiler runs this")]
    const fn row(table: &'static [Kind], name: &str) -> &'static Kind {
        let mut rest = table;
        while let Some((kind, after)) = rest.split_first() {
            if same(kind.name, name) {
                return kind;
            }
            rest = after;
        }
        panic!("no such kind")
    }

    pub const STAIR: &Kind = row(KINDS, "stair");
    pub const LANDING: &Kind = row(KINDS, "landing");
    pub const DOOR: &Kind = row(KINDS, "door");
    pub const WALL: &Kind = row(KINDS, "wall");
    pub const WELL: &Kind = row(KINDS, "well");
    pub const CEILING: &Kind = row(KINDS, "ceiling");
    pub const BEAM: &Kind = row(KINDS, "beam");
    pub const SPACE_BELOW: &Kind = row(KINDS, "space below");
    pub const GROUND: &Kind = row(KINDS, "ground");
    pub const FLIGHT: &Kind = row(KINDS, "flight");
    pub const WINDERS: &Kind = row(KINDS, "winders");
    pub const RISER: &Kind = row(KINDS, "riser");
    pub const TREAD: &Kind = row(KINDS, "tread");
    pub const RISER_BOARD: &Kind = row(KINDS, "riser board");
    pub const RISER_BAR: &Kind = row(KINDS, "riser bar");
    pub const STRINGER: &Kind = row(KINDS, "stringer");
    pub const JOIST: &Kind = row(KINDS, "joist");
    pub const HEADER: &Kind = row(KINDS, "header");
    pub const POST: &Kind = row(KINDS, "post");
    pub const HANDRAIL: &Kind = row(KINDS, "handrail");
    pub const GUARD: &Kind = row(KINDS, "guard");
    pub const GATE: &Kind = row(KINDS, "gate");
    pub const BRACE: &Kind = row(KINDS, "brace");
    pub const BRACKET: &Kind = row(KINDS, "bracket");
    pub const JOINT: &Kind = row(KINDS, "joint");
    pub const MEMBER: &Kind = row(KINDS, "member");
    pub const MEASURED: &Kind = row(KINDS, "measured");
    pub const WAIVER: &Kind = row(KINDS, "waiver");
    pub const TIMBER: &Kind = row(KINDS, "timber");
    pub const PART: &Kind = row(KINDS, "part");
    pub const SECTION: &Kind = row(KINDS, "section");
    pub const SHOP: &Kind = row(SHOP_KINDS, "shop");
    pub const FOLDER: &Kind = row(SHOP_KINDS, "folder");
}

/// Properties by their handles. One that no kind has does not compile.
#[allow(missing_docs, reason = "a row says what it is")]
pub mod properties {
    use super::{KINDS, Kind, PropertyName, SHOP_KINDS, same};

    const fn row(name: &str) -> PropertyName {
        row_in(KINDS, name)
    }

    #[allow(clippy::panic, reason = "only the compiler runs this")]
    const fn row_in(mut kinds: &'static [Kind], name: &str) -> PropertyName {
        while let Some((kind, others)) = kinds.split_first() {
            let mut rest = kind.properties;
            while let Some((property, after)) = rest.split_first() {
                if same(property.name, name) {
                    return property.handle();
                }
                rest = after;
            }
            kinds = others;
        }
        panic!("no such property")
    }

    pub const RULES: PropertyName = row("rules");
    pub const USE: PropertyName = row("use");
    pub const ACCESS: PropertyName = row("access");
    pub const CLASS: PropertyName = row("class");
    pub const OCCUPANTS: PropertyName = row("occupants");
    pub const ACCESSIBLE: PropertyName = row("accessible");
    pub const SNOW: PropertyName = row("snow");
    pub const TOTAL_RISE: PropertyName = row("total rise");
    pub const TOTAL_RUN: PropertyName = row("total run");
    pub const BOTTOM_FINISH: PropertyName = row("bottom finish");
    pub const LONGEST_BIT: PropertyName = row("longest bit");
    pub const SWITCHES: PropertyName = row("switches");
    pub const DEPTH: PropertyName = row("depth");
    pub const WIDTH: PropertyName = row("width");
    pub const SLOPE: PropertyName = row("slope");
    pub const SETTING: PropertyName = row("setting");
    pub const OVERHANG: PropertyName = row("overhang");
    pub const THICKNESS: PropertyName = row("thickness");
    pub const NOSING: PropertyName = row("nosing");
    pub const TURN: PropertyName = row("turn");
    pub const PLAN: PropertyName = row("plan");
    pub const OPEN_SIDES: PropertyName = row("open sides");
    pub const LEADS_ON: PropertyName = row("leads on");
    pub const AT: PropertyName = row("at");
    pub const SWING: PropertyName = row("swing");
    pub const LEAF: PropertyName = row("leaf");
    pub const ALONG: PropertyName = row("along");
    pub const HEADROOM: PropertyName = row("headroom");
    pub const HEIGHT: PropertyName = row("height");
    pub const FROM: PropertyName = row("from");
    pub const TO: PropertyName = row("to");
    pub const OVER: PropertyName = row("over");
    pub const FALL: PropertyName = row("fall");
    pub const FALL_ACROSS: PropertyName = row("fall across");
    pub const PART_OF: PropertyName = row("part of");
    pub const BELOW: PropertyName = row("below");
    pub const RISERS: PropertyName = row("risers");
    pub const RUNS: PropertyName = row("runs");
    pub const SPIRAL: PropertyName = row("spiral");
    pub const SHIP: PropertyName = row("ship");
    pub const FROM_TREAD: PropertyName = row("from tread");
    pub const TO_TREAD: PropertyName = row("to tread");
    pub const NARROW: PropertyName = row("narrow");
    pub const SECTION: PropertyName = row("section");
    pub const BOARDS: PropertyName = row("boards");
    pub const GAP: PropertyName = row("gap");
    pub const LENGTH: PropertyName = row("length");
    pub const TIMBER: PropertyName = row("timber");
    pub const EDGE: PropertyName = row("edge");
    pub const FINISH: PropertyName = row("finish");
    pub const STANDS: PropertyName = row("stands");
    pub const LEAN: PropertyName = row("lean");
    pub const SPACING: PropertyName = row("spacing");
    pub const ROW_SPACING: PropertyName = row("row spacing");
    pub const COUNT: PropertyName = row("count");
    pub const SPAN: PropertyName = row("span");
    pub const CUT: PropertyName = row("cut");
    pub const HOUSING: PropertyName = row("housing");
    pub const FIRST_CUT: PropertyName = row("first cut");
    pub const RESTS_ON: PropertyName = row("rests on");
    pub const LAST_CUT: PropertyName = row("last cut");
    pub const DROPPED_HEADER: PropertyName = row("dropped header");
    pub const HEAD_BEARING: PropertyName = row("head bearing");
    pub const HEAD_NOTCH: PropertyName = row("head notch");
    pub const FOOT_BEARING: PropertyName = row("foot bearing");
    pub const FOOT_NOTCH: PropertyName = row("foot notch");
    pub const BEARING: PropertyName = row("bearing");
    pub const STRIP_OF_FLOOR: PropertyName = row("strip of floor");
    pub const NOTCH: PropertyName = row("notch");
    pub const CLEARANCE: PropertyName = row("clearance");
    pub const FROM_RISER: PropertyName = row("from riser");
    pub const TO_RISER: PropertyName = row("to riser");
    pub const ENDS: PropertyName = row("ends");
    pub const BEGINS: PropertyName = row("begins");
    pub const INTERRUPTED: PropertyName = row("interrupted");
    pub const CONTINUES: PropertyName = row("continues");
    pub const BALUSTERS: PropertyName = row("balusters");
    pub const BALUSTER_CUT: PropertyName = row("baluster cut");
    pub const BALUSTER_FEET: PropertyName = row("baluster feet");
    pub const LET_IN: PropertyName = row("let in");
    pub const RAILS: PropertyName = row("rails");
    pub const RAILS_LIE: PropertyName = row("rails lie");
    pub const TOP_RAIL_LIES: PropertyName = row("top rail lies");
    pub const CABLES: PropertyName = row("cables");
    pub const GIVE: PropertyName = row("give");
    pub const PANEL_GAP: PropertyName = row("panel gap");
    pub const BOTTOM_GAP: PropertyName = row("bottom gap");
    pub const END_GAP: PropertyName = row("end gap");
    pub const BETWEEN_POSTS: PropertyName = row("between posts");
    pub const INFILL: PropertyName = row("infill");
    pub const INFILL_TO: PropertyName = row("infill to");
    pub const MIDRAIL: PropertyName = row("midrail");
    pub const MIDRAIL_THICKNESS: PropertyName = row("midrail thickness");
    pub const TOE_BOARD: PropertyName = row("toe board");
    pub const TOE_BOARD_GAP: PropertyName = row("toe board gap");
    pub const TOP_GAP: PropertyName = row("top gap");
    pub const WIDEST_GAP: PropertyName = row("widest gap");
    pub const READ_TO: PropertyName = row("read to");
    pub const HANDRAIL: PropertyName = row("handrail");
    pub const JOINS: PropertyName = row("joins");
    pub const BOLTS: PropertyName = row("bolts");
    pub const LAGS: PropertyName = row("lags");
    pub const SCREWS: PropertyName = row("screws");
    pub const NAILS: PropertyName = row("nails");
    pub const HOLE: PropertyName = row("hole");
    pub const TOE_NAILED: PropertyName = row("toe-nailed");
    pub const PILOT: PropertyName = row("pilot");
    pub const WASHERS: PropertyName = row("washers");
    pub const PLATE: PropertyName = row("plate");
    pub const HOLD_DOWN: PropertyName = row("hold-down");
    pub const HOLD_DOWN_BY: PropertyName = row("hold-down by");
    pub const BEHIND: PropertyName = row("behind");
    pub const TIED_BY: PropertyName = row("tied by");
    pub const HELD_BY: PropertyName = row("held by");
    pub const TOP_FINISH: PropertyName = row("top finish");
    pub const BETWEEN_FLIGHTS: PropertyName = row("between flights");
    pub const FRONT_FOOT: PropertyName = row("front foot");
    pub const NOTCHED: PropertyName = row("notched");
    pub const SPACER: PropertyName = row("spacer");
    pub const END: PropertyName = row("end");
    pub const THROUGH: PropertyName = row("through");
    pub const ON: PropertyName = row("on");
    pub const WHY: PropertyName = row("why");
    pub const BY: PropertyName = row("by");
    pub const UNTIL: PropertyName = row("until");
    pub const ONLY: PropertyName = row("only");
    pub const SET: PropertyName = row("set");
    pub const SPECIES: PropertyName = row("species");
    pub const GRAVITY: PropertyName = row("gravity");
    pub const BENDING: PropertyName = row("bending");
    pub const SHEAR: PropertyName = row("shear");
    pub const CRUSHING: PropertyName = row("crushing");
    pub const COMPRESSION: PropertyName = row("compression");
    pub const ELASTICITY: PropertyName = row("elasticity");
    pub const LEAST_ELASTICITY: PropertyName = row("least elasticity");
    pub const SHAPE: PropertyName = row("shape");
    pub const STANDING: PropertyName = row("standing");
    pub const EGRESS: PropertyName = row("egress");
    pub const HARDNESS: PropertyName = row("hardness");
    pub const DURABLE: PropertyName = row("durable");
    pub const TANNIN: PropertyName = row("tannin");
    pub const DIAMETER: PropertyName = row("diameter");
    pub const PERIMETER: PropertyName = row("perimeter");
    pub const ACROSS: PropertyName = row("across");
    pub const EDGE_RADIUS: PropertyName = row("edge radius");
    pub const RECESS_START: PropertyName = row("recess start");
    pub const RECESS_DEPTH: PropertyName = row("recess depth");
    pub const RECESS_REACHED: PropertyName = row("recess reached");
    pub const RECESS_KEPT: PropertyName = row("recess kept");
    pub const RECESS_END: PropertyName = row("recess end");
    pub const WIDTH_ABOVE_RECESS: PropertyName = row("width above recess");
    pub const REACHED_FROM: PropertyName = row("reached from");
    pub const HEAD: PropertyName = row("head");
    pub const FOOT: PropertyName = row("foot");
    pub const GLASS: PropertyName = row("glass");
    pub const FAIL_ON: PropertyName = row_in(SHOP_KINDS, "fail on");
}

#[cfg(test)]
mod tests {

    use super::*;

    #[test]
    fn every_kind_stands_somewhere_and_explains_itself() {
        for (at, kind) in KINDS.iter().chain(SHOP_KINDS).enumerate() {
            assert_eq!(kind.index(), at, "{}", kind.name);
            assert!(!kind.help.is_empty() && !kind.plural.is_empty(), "{}", kind.name);
            for within in kind.within {
                assert!(*within == FILE || super::kind(within).is_some(), "{within}");
            }
            for property in kind.properties {
                assert!(!property.help.is_empty());
                assert_eq!(kind.property(property.name), Some(property), "{} twice in {}", property.name, kind.name);
            }
        }
    }

    #[test]
    fn the_traits_of_a_kind_agree_with_its_row() {
        for kind in KINDS {
            let has_section = kind.has(properties::SECTION).is_some();
            assert_eq!(kind.is(Trait::Joinable), has_section || kind == kinds::LANDING, "{}", kind.name);
            assert!(kind.is(Trait::Sided) || !kind.is(Trait::SidesOnly) && !kind.is(Trait::FarSide), "{}", kind.name);
            let list = kind.list();
            assert!(list.is_none_or(|list| kinds::FLIGHT.has(list).is_some()), "{}", kind.name);
        }
    }

    #[test]
    fn no_two_names_of_properties_share_a_hash() {
        let mut names = std::collections::BTreeSet::new();
        for property in KINDS.iter().chain(SHOP_KINDS).flat_map(|kind| kind.properties) {
            assert_eq!(property.handle().text(), property.name);
            names.insert(property.name);
        }
        assert!(names.len() > 90, "only {} names", names.len());
    }
}

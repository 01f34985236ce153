//! The guide, a page a topic. `pitchboard guide TOPIC` prints the same pages, and as Markdown they stand beside this
//! file. A test runs every command of every page and holds it to the output that the page shows.

/// One page of the guide.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Topic {
    /// What it is asked for by: one word, and the name of its file.
    pub name: &'static str,
    /// What the page tells, in one line.
    pub about: &'static str,
    /// The page, as Markdown.
    pub text: &'static str,
}

/// Every page, in the order in which a newcomer would read them.
pub static TOPICS: &[Topic] = &[
    Topic {
        name: "design",
        about: "the design language: how a stair is written, and how its parts are measured",
        text: include_str!("design.md"),
    },
    Topic {
        name: "reports",
        about: "what a report says, from a finding to its last line, and what it leaves to you",
        text: include_str!("reports.md"),
    },
    Topic {
        name: "mend",
        about: "having findings mended: what is written into a design, as a patch too, and what never is",
        text: include_str!("mend.md"),
    },
    Topic {
        name: "workings",
        about: "how a number comes about, and why a rule comes out as it does",
        text: include_str!("workings.md"),
    },
    Topic {
        name: "strength",
        about: "whether a stair is stiff and strong enough: a stringer and a guard post worked end to end",
        text: include_str!("strength.md"),
    },
    Topic {
        name: "shop",
        about: "the shop's file: rulesets by folder and the shop's stock, stated once for every drawing",
        text: include_str!("shop.md"),
    },
    Topic {
        name: "tidy",
        about: "one layout for drawings and rules: what it changes, and what it leaves alone",
        text: include_str!("tidy.md"),
    },
    Topic {
        name: "editor",
        about: "an editor that shows findings, mends and workings while a design is written",
        text: include_str!("editor.md"),
    },
    Topic {
        name: "ci",
        about: "checking a library of drawings in CI: the job, the exit codes, the log",
        text: include_str!("ci.md"),
    },
    Topic {
        name: "faces",
        about: "a check as a line for each finding, as counts, and as files for programs",
        text: include_str!("faces.md"),
    },
    Topic {
        name: "install",
        about: "installing the tool, and handing it on: completions, manual pages, licences, hooks",
        text: include_str!("install.md"),
    },
    Topic {
        name: "waivers",
        about: "leave to depart from a rule, beside what departs: why, by whom, until when",
        text: include_str!("waivers.md"),
    },
    Topic {
        name: "baseline",
        about: "a library adopted late: what is known fails nothing, what is new does",
        text: include_str!("baseline.md"),
    },
    Topic {
        name: "sets",
        about: "the rulesets that come with the tool; to list, prove and compare any set",
        text: include_str!("sets.md"),
    },
    Topic {
        name: "adapt",
        about: "adapting the rules to a place or a shop, a sentence of its ordinance at a time",
        text: include_str!("adapt.md"),
    },
    Topic {
        name: "rules",
        about: "the rule language: a ruleset of one's own, clause by clause",
        text: include_str!("rules.md"),
    },
    Topic {
        name: "changes",
        about: "what changed since 0.1.0: the old way and the new one",
        text: include_str!("changes.md"),
    },
];

/// Where the pages' links to one another lead in these docs. What is defined first wins over the definitions at the
/// foot of each page, which lead from file to file.
macro_rules! links {
    () => {
        "[design]: self::design\n[reports]: self::reports\n[mend]: self::mend\n[workings]: self::workings\n\
         [strength]: self::strength\n[shop]: self::shop\n[tidy]: self::tidy\n[editor]: self::editor\n[ci]: self::ci\n[faces]: self::faces\n\
         [waivers]: self::waivers\n[baseline]: self::baseline\n[install]: self::install\n\
         [sets]: self::sets\n[adapt]: self::adapt\n[rules]: self::rules\n\
         [changes]: self::changes\n"
    };
}

#[doc = links!()]
#[doc = include_str!("design.md")]
pub mod design {}

#[doc = links!()]
#[doc = include_str!("reports.md")]
pub mod reports {}

#[doc = links!()]
#[doc = include_str!("mend.md")]
pub mod mend {}

#[doc = links!()]
#[doc = include_str!("workings.md")]
pub mod workings {}

#[doc = links!()]
#[doc = include_str!("strength.md")]
pub mod strength {}

#[doc = links!()]
#[doc = include_str!("shop.md")]
pub mod shop {}

#[doc = links!()]
#[doc = include_str!("tidy.md")]
pub mod tidy {}

#[doc = links!()]
#[doc = include_str!("editor.md")]
pub mod editor {}

#[doc = links!()]
#[doc = include_str!("ci.md")]
pub mod ci {}

#[doc = links!()]
#[doc = include_str!("faces.md")]
pub mod faces {}

#[doc = links!()]
#[doc = include_str!("install.md")]
pub mod install {}

#[doc = links!()]
#[doc = include_str!("waivers.md")]
pub mod waivers {}

#[doc = links!()]
#[doc = include_str!("baseline.md")]
pub mod baseline {}

#[doc = links!()]
#[doc = include_str!("sets.md")]
pub mod sets {}

#[doc = links!()]
#[doc = include_str!("adapt.md")]
pub mod adapt {}

#[doc = links!()]
#[doc = include_str!("rules.md")]
pub mod rules {}

#[doc = links!()]
#[doc = include_str!("changes.md")]
pub mod changes {}

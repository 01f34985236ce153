//! What is wrong with a shop's file.

use super::message::{Describe, Description, Place};
use super::phrase::offered;
use crate::model::problem::ShopProblem;
use crate::model::{Kind, kinds};

const MADE_OF: &str =
    "A shop's file is made of `shop \"name\" { }`, `folder \"path\" { rules: ... }`, `section` and `timber`.";

impl Describe for ShopProblem {
    fn describe(&self, _: &Place<'_>) -> Description {
        match self {
            ShopProblem::SecondShop { first } => {
                Description::new("a shop's file speaks of one shop; this is a second").beside(*first, "the first")
            }
            ShopProblem::UnknownBlock { word, near } => {
                Description::new(format!("`{word}` is no part of a shop's file"))
                    .help(offered(*near, || MADE_OF.to_owned()))
            }
            ShopProblem::OutsideBlock { name } => Description::new(format!("`{name}` stands outside of any block"))
                .help("Put it into `shop \"name\" { }`."),
            ShopProblem::NotAStatement => Description::new("this line is no statement").help(MADE_OF),
            ShopProblem::UnknownProperty { kind, name, near } => {
                let takes = || kind.properties.iter().map(|property| property.name).collect::<Vec<_>>().join(", ");
                Description::new(format!("a {} has no property `{name}`", kind.name))
                    .help(offered(*near, || format!("A {} takes {}.", kind.name, takes())))
            }
            ShopProblem::BlockIn(kind) => Description::new(format!("nothing stands in a {}", kind.name))
                .help("Put it beside this block, not into it."),
            ShopProblem::Unnamed(kind) => {
                Description::new(format!("this {} goes by no name", kind.name)).help(named(kind))
            }
            ShopProblem::FolderWithoutRules => Description::new("this folder states nothing")
                .help("Write `rules: residential` into it, or `fail on: ...`."),
            ShopProblem::NotBelow { path } => Description::new(format!("`{path}` is no folder below this file"))
                .help("Write its path from here: `cabins`, or `\"cabins/north\"`."),
            ShopProblem::NoSuchFolder { path } => {
                Description::new(format!("no folder `{path}` lies here, so what this states holds of no design"))
                    .help("Write its path from this file, as the disk spells it; a link to a folder does not count.")
            }
            ShopProblem::FolderTwice { path, first } => {
                Description::new(format!("the folder `{path}` has a block already; what both state holds"))
                    .beside(*first, "stated here first")
            }
            ShopProblem::StockedTwice { kind, name, first } => {
                Description::new(format!("{} `{name}` is stocked already", kind.name))
                    .beside(*first, "named here first")
            }
            ShopProblem::NominalWithFigures { name } => {
                Description::new(format!("`{name}` says by its name how it measures"))
                    .help("Leave its block empty, or give it another name.")
            }
            ShopProblem::WithoutFigures { name } => {
                Description::new(format!("section `{name}` does not say how it measures"))
                    .help("State `width` and `depth`, or `shape: round` and `diameter`.")
            }
        }
    }
}

/// How a block is opened with a name.
fn named(kind: &Kind) -> String {
    let opened = match kind {
        kind if kind == kinds::SECTION => "section 2x12 { }`, or `section \"rail\" { shape: round; diameter: 40 mm }",
        kind if kind == kinds::TIMBER => "timber \"marsh oak\" { gravity: 0.73 }",
        other => other.example,
    };
    format!("Write `{opened}`.")
}

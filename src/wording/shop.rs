//! What is wrong with a shop's file.

use super::message::{Describe, Description, Place};
use super::phrase::offered;
use crate::model::problem::{ShopBlock, ShopProblem};

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
            ShopProblem::UnknownProperty { block, name, near, takes } => {
                let block = block.word();
                Description::new(format!("a {block} has no property `{name}`"))
                    .help(offered(*near, || format!("A {block} takes {}.", takes.join(", "))))
            }
            ShopProblem::BlockIn(block) => Description::new(format!("nothing stands in a {}", block.word()))
                .help("Put it beside this block, not into it."),
            ShopProblem::Unnamed(block) => {
                Description::new(format!("this {} goes by no name", block.word())).help(named(*block))
            }
            ShopProblem::FolderWithoutRules => {
                Description::new("this folder states no `rules`").help("Write `rules: residential` into it.")
            }
            ShopProblem::NotBelow { path } => Description::new(format!("`{path}` is no folder below this file"))
                .help("Write its path from here: `cabins`, or `\"cabins/north\"`."),
            ShopProblem::FolderTwice { path, first } => {
                Description::new(format!("the folder `{path}` has its rules already"))
                    .beside(*first, "stated here first")
            }
            ShopProblem::StockedTwice { block, name, first } => {
                Description::new(format!("{} `{name}` is stocked already", block.word()))
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
fn named(block: ShopBlock) -> &'static str {
    match block {
        ShopBlock::Shop => "Write `shop \"name\" { }`.",
        ShopBlock::Folder => "Write `folder \"cabins\" { rules: residential }`.",
        ShopBlock::Section => "Write `section 2x12 { }`, or `section \"rail\" { shape: round; diameter: 40 mm }`.",
        ShopBlock::Timber => "Write `timber \"marsh oak\" { gravity: 0.73 }`.",
    }
}

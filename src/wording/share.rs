//! What a design has from its shop's file.

use crate::check::FromShop;

/// What a shop's file states of a design, on one line.
pub fn shares(shares: &[FromShop]) -> String {
    shares.iter().map(share).collect::<Vec<_>>().join(", ")
}

fn share(share: &FromShop) -> String {
    match share {
        FromShop::Rules => "rules".to_owned(),
        FromShop::Section(name) => format!("section {name}"),
        FromShop::Timber(name) => format!("timber \"{name}\""),
        FromShop::Property(name) => name.to_string(),
    }
}

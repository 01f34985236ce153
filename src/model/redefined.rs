//! Timbers and sections of one's own under a name that the trade knows, with other figures.

use super::design::Stated;
use super::kind::{Kind, PropertyName};
use super::shop::nominal;
use super::sizes::{dressed, dressed_width};
use super::timbers::named;
use super::value::{Section, Shape, Value};
use super::vocabulary::{kinds, properties};
use crate::measure::{Measure, equal};

/// One property in which a definition departs from the trade's table.
#[derive(Debug, Clone, PartialEq)]
pub struct Departure {
    /// The property.
    pub property: PropertyName,
    /// As it is stated.
    pub own: Figure,
    /// As the trade has it.
    pub trade: Figure,
}

/// A figure, or a word.
#[derive(Debug, Clone, PartialEq)]
pub enum Figure {
    /// A number with its unit.
    Measure(Measure),
    /// A word.
    Word(String),
}

/// In what the definition of a timber or a section departs from what the trade knows by its name; nothing where the
/// trade does not know it, or knows it so.
pub fn departures(kind: &Kind, name: &str, stated: &[Stated]) -> Vec<Departure> {
    let of = |property: PropertyName| stated.iter().find(|stated| stated.property.handle() == property)?.value.as_ref();
    let trade = if kind == kinds::TIMBER { of_timber(name) } else { of_section(name) };
    let departure = |(property, trade): (PropertyName, Figure)| {
        let own = match (of(property)?, &trade) {
            (Value::Measure(own), Figure::Measure(trade)) => {
                if own.dimension == trade.dimension && equal(own.value, trade.value, own.dimension) {
                    return None;
                }
                Figure::Measure(*own)
            }
            (Value::Word(own), Figure::Word(trade)) if own != trade => Figure::Word(own.to_string()),
            _ => return None,
        };
        Some(Departure { property, own, trade })
    };
    trade.into_iter().filter_map(departure).collect()
}

/// In what a section of a drawing's own departs from one of its name that the shop stocks.
pub fn from_the_shop(shops: &Section, stated: &[Stated]) -> Vec<Departure> {
    let of = |property: PropertyName| stated.iter().find(|stated| stated.property.handle() == property)?.value.as_ref();
    let departure = |(property, trade): (PropertyName, f64)| {
        let Some(Value::Measure(own)) = of(property) else { return None };
        let differs = !equal(own.value, trade, own.dimension);
        let trade = Figure::Measure(Measure { value: trade, ..*own });
        differs.then_some(Departure { property, own: Figure::Measure(*own), trade })
    };
    let round = matches!(shops.shape, Shape::Round);
    let ways = [(properties::WIDTH, shops.thickness), (properties::DEPTH, shops.depth)];
    let diameter = [(properties::DIAMETER, shops.depth)];
    let figures: &[(PropertyName, f64)] = if round { &diameter } else { &ways };
    figures.iter().copied().filter_map(departure).collect()
}

fn of_timber(name: &str) -> Vec<(PropertyName, Figure)> {
    let Some((known, preserved)) = named(name) else { return Vec::new() };
    let word = |word: &str| Figure::Word(word.to_owned());
    let gravity = known.gravity().map(|gravity| (properties::GRAVITY, Figure::Measure(Measure::number(gravity))));
    let hardness = word(if known.hardwood { "hardwood" } else { "softwood" });
    let durable = word(if known.durable || preserved { "yes" } else { "no" });
    gravity.into_iter().chain([(properties::HARDNESS, hardness), (properties::DURABLE, durable)]).collect()
}

fn of_section(name: &str) -> Vec<(PropertyName, Figure)> {
    let size = nominal(name);
    let Some((thin, wide)) = size.as_deref().and_then(|size| size.split_once('x')) else { return Vec::new() };
    let inches = |size: &str| match size.split_once('/') {
        Some((top, bottom)) => Some(top.parse::<f64>().ok()? / bottom.parse::<f64>().ok()?),
        None => size.parse().ok(),
    };
    let (Some(thin), Some(wide)) = (inches(thin), inches(wide)) else { return Vec::new() };
    let way = |property, size: Option<f64>| Some((property, Figure::Measure(Measure::inches(size?))));
    let ways = [way(properties::WIDTH, dressed(thin, wide)), way(properties::DEPTH, dressed_width(wide, thin))];
    let sold = ways.iter().all(Option::is_some);
    let shape = sold.then(|| (properties::SHAPE, Figure::Word("rectangular".to_owned())));
    ways.into_iter().flatten().chain(shape).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn stated(kind: &'static Kind, property: &str, value: Value) -> Stated {
        let property = kind.property(property).expect("a property");
        Stated { property, value: Some(value), span: Default::default(), measured: false, shop: None, section: None }
    }

    #[test]
    fn only_what_differs_from_the_trade_is_a_departure() {
        let gravity = |gravity| [stated(kinds::TIMBER, "gravity", Value::Measure(Measure::number(gravity)))];
        assert_eq!(departures(kinds::TIMBER, "White Oak", &gravity(0.73)), Vec::new());
        assert_eq!(departures(kinds::TIMBER, "white oak", &gravity(0.5)).len(), 1);
        assert_eq!(departures(kinds::TIMBER, "bog oak", &gravity(0.5)), Vec::new());
        let width = |inches| [stated(kinds::SECTION, "width", Value::Measure(Measure::inches(inches)))];
        assert_eq!(departures(kinds::SECTION, "2x4", &width(1.5)), Vec::new());
        assert_eq!(departures(kinds::SECTION, "2 x 4", &width(2.0)).len(), 1);
        assert_eq!(departures(kinds::TIMBER, "White-oaks, No.2", &gravity(0.5)).len(), 1);
        let durable = |word: &'static str| [stated(kinds::TIMBER, "durable", Value::Word(word.into()))];
        assert_eq!(departures(kinds::TIMBER, "spruce, treated", &durable("yes")), Vec::new());
        assert_eq!(departures(kinds::TIMBER, "spruce No.2", &durable("yes")).len(), 1);
        let shape = [stated(kinds::SECTION, "shape", Value::Word("profiled".into()))];
        assert_eq!(departures(kinds::SECTION, "2x6", &shape).len(), 1);
    }
}

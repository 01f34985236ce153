//! Timbers that the trade knows by name: how dense, how hard, how lasting.

/// What is known of a timber by its name.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Species {
    /// The words that name it, lower case.
    pub name: &'static str,
    /// Specific gravity by oven-dry weight and volume, where it is one timber of the table.
    pub gravity: Option<f64>,
    /// Of a broad-leaved tree.
    pub hardwood: bool,
    /// Its heartwood stands the weather untreated.
    pub durable: bool,
}

const fn soft(name: &'static str, gravity: f64) -> Species {
    Species { name, gravity: Some(gravity), hardwood: false, durable: false }
}

const fn hard(name: &'static str, gravity: f64) -> Species {
    Species { name, gravity: Some(gravity), hardwood: true, durable: false }
}

impl Species {
    const fn durable(self) -> Self {
        Self { durable: true, ..self }
    }

    const fn of_any_gravity(self) -> Self {
        Self { gravity: None, ..self }
    }
}

/// Gravities: NDS 2018, Table 12.3.3A; those of southern pine and Douglas fir-larch were seen on a page, the others
/// are from memory. Which heartwoods last outdoors: common practice, no source. The first row whose words stand in
/// what is stated counts, so a longer name stands before the shorter one that it holds.
static SPECIES: &[Species] = &[
    soft("mixed southern pine", 0.51),
    soft("southern pine", 0.55),
    soft("douglas fir-larch north", 0.49),
    soft("douglas fir south", 0.46),
    soft("douglas fir", 0.50),
    soft("douglas-fir", 0.50),
    soft("hem-fir north", 0.46),
    soft("hem-fir", 0.43),
    soft("spruce-pine-fir south", 0.36),
    soft("spruce-pine-fir", 0.42),
    soft("spf south", 0.36),
    soft("spf", 0.42),
    soft("redwood open grain", 0.37).durable(),
    soft("redwood", 0.44).durable(),
    soft("northern white cedar", 0.31).durable(),
    soft("alaska yellow cedar", 0.46).durable(),
    soft("cedar", 0.36).durable(),
    soft("eastern white pine", 0.36),
    soft("ponderosa pine", 0.43),
    soft("pine", 0.0).of_any_gravity(),
    soft("hemlock", 0.0).of_any_gravity(),
    soft("cypress", 0.0).of_any_gravity().durable(),
    soft("spruce", 0.0).of_any_gravity(),
    soft("larch", 0.0).of_any_gravity().durable(),
    soft("fir", 0.0).of_any_gravity(),
    hard("red oak", 0.67),
    hard("white oak", 0.73).durable(),
    hard("oak", 0.68),
    hard("red maple", 0.58),
    hard("maple", 0.55),
    hard("beech", 0.71),
    hard("birch", 0.71),
    hard("hickory", 0.71),
    hard("poplar", 0.43),
    hard("black locust", 0.0).of_any_gravity().durable(),
    hard("black walnut", 0.0).of_any_gravity().durable(),
    hard("chestnut", 0.0).of_any_gravity().durable(),
    hard("iroko", 0.0).of_any_gravity().durable(),
    hard("ipe", 0.0).of_any_gravity().durable(),
    hard("teak", 0.0).of_any_gravity().durable(),
    hard("walnut", 0.0).of_any_gravity(),
    hard("ash", 0.0).of_any_gravity(),
];

/// The timber that words name, if it is a known one.
pub fn species(said: &str) -> Option<&'static Species> {
    let named = |name: &str| {
        said.match_indices(name).any(|(at, _)| {
            let bare = |c: Option<char>| c.is_none_or(|c| !c.is_alphanumeric());
            bare(said.get(..at).and_then(|before| before.chars().next_back()))
                && bare(said.get(at + name.len()..).and_then(|after| after.chars().next()))
        })
    };
    SPECIES.iter().find(|species| named(species.name))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_longer_name_counts_and_parts_of_words_do_not() {
        let of = |said| species(said).map(|species| (species.name, species.gravity));
        assert_eq!(of("southern pine"), Some(("southern pine", Some(0.55))));
        assert_eq!(of("mixed southern pine"), Some(("mixed southern pine", Some(0.51))));
        assert_eq!(of("european larch"), Some(("larch", None)));
        assert_eq!(of("white oak"), Some(("white oak", Some(0.73))));
        assert_eq!(of("washed wood"), None);
        for (at, shorter) in SPECIES.iter().enumerate() {
            let hidden = SPECIES.iter().skip(at + 1).find(|later| later.name.contains(shorter.name));
            assert!(hidden.is_none(), "{} hides {hidden:?}", shorter.name);
        }
    }
}

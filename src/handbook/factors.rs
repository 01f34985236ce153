//! Adjustment factors that stand in tables.

use std::collections::HashMap;
use std::sync::LazyLock;

use super::cited::Cited;
use super::table::Rows;
use super::values::Table;

/// One adjustment factor.
#[derive(Debug)]
pub struct Factor {
    /// As the standard writes it: `C_F`.
    pub name: &'static str,
    /// The value that it multiplies.
    pub value_of: &'static str,
    /// The table of design values it belongs to, by its word; `-` is any.
    pub table: &'static str,
    /// Nominal thickness from and to, inches.
    pub thick: (f64, f64),
    /// Nominal width from and to, inches.
    pub wide: (f64, f64),
    /// On what condition.
    pub when: &'static str,
    /// A plain number.
    pub factor: f64,
    /// Where it is from.
    pub cited: Cited,
}

/// Every one.
pub static FACTORS: LazyLock<Rows<Factor>> = LazyLock::new(|| {
    Rows::read(include_str!("../../rulesets/tables/adjustment-factors.tsv"), |row| {
        Some(Factor {
            name: row.text("factor")?,
            value_of: row.text("value of")?,
            table: row.text("table")?,
            thick: row.range("thick")?,
            wide: row.range("wide")?,
            when: row.text("when")?,
            factor: row.number("factor is")?,
            cited: row.cited()?,
        })
    })
});

/// Them by name, by the value that they multiply and by their condition: many are asked for in one check.
static BY_WORDS: LazyLock<HashMap<[&str; 3], Vec<&Factor>>> = LazyLock::new(|| {
    let mut by_words: HashMap<_, Vec<&Factor>> = HashMap::new();
    for row in FACTORS.iter() {
        by_words.entry([row.name, row.value_of, row.when]).or_default().push(row);
    }
    by_words
});

/// A factor on a design value of a table for a piece of nominal thickness and width, inches, on a condition (`-` where
/// there is none).
pub fn factor(
    name: &str,
    value_of: &str,
    table: Option<Table>,
    (thickness, width): (f64, f64),
    when: &str,
) -> Option<&'static Factor> {
    let within = |(low, high): (f64, f64), size: f64| low <= size && size <= high;
    let table = table.map_or("-", Table::word);
    let rows = BY_WORDS.get(&[name, value_of, when])?;
    let of_table = |row: &Factor| row.table == table || row.table == "-";
    rows.iter().copied().find(|row| of_table(row) && within(row.thick, thickness) && within(row.wide, width))
}

//! The schemas that ship with the tool, each by the name that the table of faces gives it.

/// Every schema: its name, and its text.
pub static SCHEMAS: &[(&str, &str)] = &[
    ("json", include_str!("schema/json.schema.json")),
    ("lines", include_str!("schema/lines.schema.json")),
    ("code-quality", include_str!("schema/code-quality.schema.json")),
    ("junit", include_str!("schema/junit.xsd")),
    ("checkstyle", include_str!("schema/checkstyle.xsd")),
];

//! JSON on one line. Nothing in it commands a log that it is printed into.

use serde::Serialize;

/// A value as JSON.
pub(super) fn line(value: &impl Serialize) -> String {
    // Texts, numbers and lists: nothing that JSON cannot hold.
    let text = serde_json::to_string(value).unwrap_or_default();
    if text.contains("##") { text.replace("##", "#\\u0023") } else { text }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_a_log_would_obey_reads_back_as_it_was() {
        for said in ["##[error]x", "###vso[x]", "\n::error::x", "\u{1b}[1m"] {
            let text = line(&said);
            assert!(!text.contains("##") && !text.contains('\n') && text.starts_with('"'), "{text}");
            assert_eq!(serde_json::from_str::<String>(&text).unwrap(), said);
        }
    }
}

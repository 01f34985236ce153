//! The one place where a URI becomes the path of a text, and a text's name a URI.

use std::path::{Path, PathBuf};

use crate::base::Source;
use crate::check::shipped;
use crate::report::reference_to;

/// The scheme of the sets that come with the tool: they lie in no file, and the server gives their texts.
pub(super) const BUILT_IN: &str = "pitchboard";

/// The path of a document. What is no file is taken to lie in the folder of the run, under its whole URI.
pub(super) fn path(uri: &str) -> PathBuf {
    let Some(rest) = strip(uri, "file:") else { return PathBuf::from(uri) };
    // `file://host/path`, `file:///path` and `file:/path`.
    let rest =
        rest.strip_prefix("//").map_or(rest, |after| after.find('/').and_then(|at| after.get(at..)).unwrap_or("/"));
    let path = decoded(rest);
    if cfg!(windows) { PathBuf::from(without_slash_before_drive(&path)) } else { PathBuf::from(path) }
}

/// The text of a set that comes with the tool, by its URI.
pub(super) fn built_in(uri: &str) -> Option<Source> {
    shipped(&built_in_name(uri)?)
}

/// The name that such a URI has for a set, whether there is one or not.
pub(super) fn built_in_name(uri: &str) -> Option<String> {
    let rest = decoded(strip(uri, BUILT_IN)?.strip_prefix(':')?);
    rest.trim_start_matches('/').strip_suffix(".rules").map(str::to_owned)
}

/// The URI of a text: of a set that comes with the tool, or of a file by its whole path; nothing for one whose name
/// says no place that holds for both sides.
pub(super) fn of(source: &Source) -> Option<String> {
    if let Some(name) = source.name.strip_prefix("built-in ") {
        return Some(format!("{BUILT_IN}:/{}.rules", reference_to(name)));
    }
    source.path().is_absolute().then(|| of_file(source.path()))
}

/// The URI of a file.
pub(super) fn of_file(path: &Path) -> String {
    let path = path.to_string_lossy();
    let path = if cfg!(windows) { format!("/{}", path.replace('\\', "/")) } else { path.into_owned() };
    format!("file://{}", reference_to(&path))
}

fn strip<'u>(uri: &'u str, scheme: &str) -> Option<&'u str> {
    let (head, rest) = uri.split_at_checked(scheme.len())?;
    head.eq_ignore_ascii_case(scheme).then_some(rest)
}

/// `/c:/shop` is `c:/shop`.
fn without_slash_before_drive(path: &str) -> &str {
    let mut signs = path.chars();
    let drive =
        signs.next() == Some('/') && signs.next().is_some_and(|c| c.is_ascii_alphabetic()) && signs.next() == Some(':');
    if drive { path.get(1..).unwrap_or(path) } else { path }
}

/// `%20` and the like as the signs that they stand for; one that stands for nothing stays.
fn decoded(text: &str) -> String {
    let mut bytes = Vec::with_capacity(text.len());
    let mut rest = text.as_bytes();
    while let Some((first, after)) = rest.split_first() {
        let pair = after.get(..2).filter(|_| *first == b'%').and_then(|pair| std::str::from_utf8(pair).ok());
        let pair = pair.filter(|pair| pair.bytes().all(|byte| byte.is_ascii_hexdigit()));
        match pair.and_then(|pair| u8::from_str_radix(pair, 16).ok()) {
            Some(byte) => {
                bytes.push(byte);
                rest = after.get(2..).unwrap_or_default();
            }
            None => {
                bytes.push(*first);
                rest = after;
            }
        }
    }
    String::from_utf8_lossy(&bytes).into_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_uri_leads_to_its_file_and_back() {
        for (uri, file) in [
            ("file:///marsh/reed%20bed.stair", "/marsh/reed bed.stair"),
            ("FILE:///a%3Ab%C3%A9.stair", "/a:bé.stair"),
            ("file:/marsh/a.stair", "/marsh/a.stair"),
            ("file://host/marsh/a.stair", "/marsh/a.stair"),
            ("file:///100%/a%zz.stair", "/100%/a%zz.stair"),
            ("file://", "/"),
            ("untitled:Untitled-1", "untitled:Untitled-1"),
        ] {
            assert_eq!(path(uri), Path::new(file), "{uri}");
        }
        let there = Source::new("/marsh/reed bed é.stair", "");
        assert_eq!(path(&of(&there).unwrap()), there.path());
        assert_eq!(of(&Source::new("beside.stair", "")), None);
        assert_eq!(without_slash_before_drive("/c:/shop"), "c:/shop");
        assert_eq!(without_slash_before_drive("/shop"), "/shop");
    }

    #[test]
    fn a_set_that_comes_with_the_tool_has_a_text() {
        let set = shipped("residential").unwrap();
        assert_eq!(built_in(&of(&set).unwrap()).unwrap().text, set.text);
        assert_eq!(built_in("pitchboard:/no-such.rules"), None);
        assert_eq!(built_in("file:///residential.rules"), None);
    }
}

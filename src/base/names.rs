//! Nearness of words, for the offer of another.

use std::borrow::Cow;

use super::work;

/// The candidate nearest to `wanted`, if one is near enough to be a slip of the pen:
/// one edit for short words, up to a third of the letters for long ones.
/// A swap of two neighbours counts as one edit.
pub fn nearest<'a>(wanted: &str, candidates: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    near(wanted, candidates).into_iter().min_by_key(|(distance, _)| *distance).map(|(_, candidate)| candidate)
}

/// Every candidate that is near enough to `wanted` to have been meant, with how many edits lie between.
pub fn near<'a>(wanted: &str, candidates: impl IntoIterator<Item = &'a str>) -> Vec<(usize, &'a str)> {
    let wanted: Vec<char> = wanted.to_lowercase().chars().take(64).collect();
    // By a constant, and between two.
    #[allow(clippy::integer_division, clippy::disallowed_methods)]
    let allowed = (wanted.len() / 3).clamp(1, 4);
    candidates
        .into_iter()
        .map(|candidate| (edits(&wanted, &candidate.to_lowercase().chars().collect::<Vec<_>>()), candidate))
        .filter(|(distance, candidate)| *distance <= allowed && *distance < candidate.chars().count())
        .collect()
}

/// More edits than two words can take, with room to count on.
const FAR: usize = usize::MAX >> 1;

fn edits(a: &[char], b: &[char]) -> usize {
    let mut before: Vec<usize> = Vec::new();
    let mut last: Vec<usize> = (0..=b.len()).collect();
    for (i, from) in a.iter().enumerate() {
        let mut row = vec![i + 1];
        for (j, to) in b.iter().enumerate() {
            let at = |row: &[usize], k: usize| row.get(k).copied().unwrap_or(FAR);
            let mut best = at(&last, j) + usize::from(from != to);
            best = best.min(at(&last, j + 1) + 1).min(at(&row, j) + 1);
            let swapped = i > 0 && j > 0 && a.get(i - 1) == Some(to) && b.get(j - 1) == Some(from);
            if swapped {
                best = best.min(at(&before, j - 1) + 1);
            }
            row.push(best);
        }
        before = std::mem::replace(&mut last, row);
    }
    work::done((a.len() + 1) * (b.len() + 1));
    last.last().copied().unwrap_or(0)
}

/// Words with single blanks between them, as a name is looked up.
pub fn single_blanks(words: &str) -> Cow<'_, str> {
    let single = words.split(' ').all(|word| !word.is_empty() && !word.contains(char::is_whitespace));
    if single { Cow::Borrowed(words) } else { Cow::Owned(words.split_whitespace().collect::<Vec<_>>().join(" ")) }
}

/// Whether a free text says anything: a blank, a dash, a pair of quotes says nothing.
pub fn says_something(text: &str) -> bool {
    text.chars().any(char::is_alphanumeric)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn slips_are_near_and_other_words_are_not() {
        let words = ["risers", "runs", "width", "riser board"];
        assert_eq!(nearest("riesrs", words), Some("risers"));
        assert_eq!(nearest("rizers", words), Some("risers"));
        assert_eq!(nearest("raiser board", words), Some("riser board"));
        assert_eq!(nearest("colour", words), None);
        assert_eq!(nearest("x", words), None);
    }
}

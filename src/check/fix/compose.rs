//! Edits of a text and edits of what comes of it, made into edits of the first text.

use super::offer::Edit;
use crate::base::Span;

/// The edits that make at once what these make one after the other; nothing where the later ones begin or end within
/// words that the earlier ones wrote and do not lie within them.
pub(super) fn compose(first: &[Edit], second: &[Edit]) -> Option<Vec<Edit>> {
    let mut done: Vec<Option<Edit>> = first.iter().cloned().map(Some).collect();
    done.sort_by_key(|edit| edit.as_ref().map(|edit| edit.span));
    let placed = places(&done);
    let mut second: Vec<&Edit> = second.iter().collect();
    second.sort_by_key(|edit| std::cmp::Reverse(edit.span));
    let mut more = Vec::new();
    for edit in second {
        let (from, to) = (edit.span.start as usize, edit.span.end as usize);
        let within = placed.iter().position(|(start, end, _)| *start <= from && to <= *end);
        // What is added straight behind other words is an edit of its own, unless they were added there too.
        let within = within.filter(|at| {
            let replaces = done.get(*at).and_then(Option::as_ref).is_some_and(|edit| edit.span.start < edit.span.end);
            let behind = placed.get(*at).is_some_and(|(start, end, _)| from == *end && start < end);
            !(replaces && behind)
        });
        if let Some(at) = within {
            let (start, ..) = *placed.get(at)?;
            // From the back, so that the places of those before it stay.
            let text = &mut done.get_mut(at)?.as_mut()?.text;
            *text = format!("{}{}{}", text.get(..from - start)?, edit.text, text.get(to - start..)?);
            continue;
        }
        for (at, (start, end, _)) in placed.iter().enumerate() {
            if *end <= from || to <= *start {
                continue;
            }
            if *start < from || to < *end {
                return None;
            }
            // It takes out all that was written there.
            *done.get_mut(at)? = None;
        }
        more.push(Edit {
            span: Span::new(back(&placed, from, false)?, back(&placed, to, true)?),
            text: edit.text.clone(),
        });
    }
    let mut edits: Vec<Edit> = done.into_iter().flatten().chain(more).collect();
    edits.sort_by_key(|edit| edit.span);
    Some(edits)
}

/// Where the words of each edit stand once all are made, and how much longer the text is behind them.
fn places(edits: &[Option<Edit>]) -> Vec<(usize, usize, isize)> {
    let mut longer = 0_isize;
    let place = |edit: &Edit| {
        let start = (edit.span.start as usize).checked_add_signed(longer)?;
        let end = start + edit.text.len();
        longer += isize::try_from(edit.text.len()).ok()? - isize::try_from(edit.span.end - edit.span.start).ok()?;
        Some((start, end, longer))
    };
    edits.iter().flatten().filter_map(place).collect()
}

/// A place of the changed text that no edit wrote, in the text before. Where words were only taken out, what ends there
/// ends before them and what begins there begins behind them.
fn back(placed: &[(usize, usize, isize)], at: usize, ends: bool) -> Option<usize> {
    let before = |(start, end, _): &&(usize, usize, isize)| *end <= at && !(ends && *start == at);
    let longer = placed.iter().rev().find(before).map_or(0, |(.., longer)| *longer);
    at.checked_add_signed(-longer)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn edit(start: usize, end: usize, text: &str) -> Edit {
        Edit { span: Span::new(start, end), text: text.to_owned() }
    }

    fn made(text: &str, edits: &[Edit]) -> String {
        let mut edits = edits.to_vec();
        edits.sort_by_key(|edit| std::cmp::Reverse(edit.span));
        edits.iter().fold(text.to_owned(), |mut text, edit| {
            text.replace_range(edit.span.start as usize..edit.span.end as usize, &edit.text);
            text
        })
    }

    #[test]
    fn what_is_made_at_once_is_what_is_made_one_after_the_other() {
        let text = "risers: 3 of 8; runs: 2 of 12; width: 36";
        let firsts = [
            vec![edit(8, 14, "4 of 6")],
            vec![edit(8, 14, "14 of 6-1/2"), edit(22, 29, "13 of 10")],
            vec![edit(29, 29, "; nosing: 1"), edit(8, 14, "")],
        ];
        let mut composed = 0;
        for first in &firsts {
            let between = made(text, first);
            for from in 0..=between.len() {
                for to in from..=between.len() {
                    for second in [vec![edit(from, to, "xyz")], vec![edit(from, to, ""), edit(0, 2, "R")]] {
                        if second.len() > 1 && from < 2 {
                            continue;
                        }
                        if let Some(both) = compose(first, &second) {
                            assert_eq!(made(text, &both), made(&between, &second), "{first:?} {second:?} {both:?}");
                            composed += 1;
                        }
                    }
                }
            }
        }
        assert!(composed > 3_000, "{composed}");
    }
}

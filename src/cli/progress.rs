//! How far a long run is: a line on a terminal's standard error, rewritten in place, and nothing anywhere else.

use std::io::{self, IsTerminal, Write};
use std::time::{Duration, Instant};

/// How long a run goes on before it says how far it is.
const PATIENCE: Duration = Duration::from_millis(500);
/// How often it says so.
const AGAIN: Duration = Duration::from_millis(100);
/// Columns of the bar.
const WIDE: usize = 30;

/// A run of so many designs.
pub(super) struct Progress {
    all: usize,
    done: usize,
    /// When the line is drawn next; never where nobody looks.
    next: Option<Instant>,
    is_drawn: bool,
}

impl Progress {
    /// Begins, where standard error is a terminal.
    pub fn of(all: usize) -> Self {
        let next = io::stderr().is_terminal().then(|| Instant::now() + PATIENCE);
        Self { all, done: 0, next, is_drawn: false }
    }

    /// Takes the line away before something else is written.
    pub fn clear(&mut self) {
        if std::mem::take(&mut self.is_drawn) {
            write("\r\x1b[K");
        }
    }

    /// One more is done.
    pub fn step(&mut self) {
        self.done += 1;
        let now = Instant::now();
        if self.next.is_some_and(|next| next <= now) && self.done < self.all {
            self.next = Some(now + AGAIN);
            self.is_drawn = true;
            write(&format!("\r{}\x1b[K", bar(self.done, self.all)));
        }
    }
}

/// `[######----] 12 of 40 designs`.
fn bar(done: usize, all: usize) -> String {
    let full = (done * WIDE).checked_div(all).unwrap_or(WIDE).min(WIDE);
    format!("[{}{}] {done} of {all} designs", "#".repeat(full), "-".repeat(WIDE - full))
}

/// Nobody waits for it: what cannot be written is not.
fn write(text: &str) {
    let mut terminal = io::stderr().lock();
    let _ = terminal.write_all(text.as_bytes()).and_then(|()| terminal.flush());
}

#[cfg(test)]
mod tests {
    use super::bar;

    #[test]
    fn the_bar_is_as_wide_whatever_is_done() {
        assert_eq!(bar(0, 4), format!("[{}] 0 of 4 designs", "-".repeat(30)));
        assert_eq!(bar(2, 4), format!("[{}{}] 2 of 4 designs", "#".repeat(15), "-".repeat(15)));
        assert_eq!(bar(9, 4), format!("[{}] 9 of 4 designs", "#".repeat(30)));
        assert_eq!(bar(0, 0), format!("[{}] 0 of 0 designs", "#".repeat(30)));
    }
}

//! The one way out: everything that is printed passes through here.

use std::borrow::Cow;
use std::io::{self, BufWriter, ErrorKind, IsTerminal, Write};

use super::Outcome;
use super::commands::{harmless, plain};
use crate::report::visible;
use crate::wording;

/// Where a run writes. A reader that closes its end early (a pager, `head`) is no fault, and ends the writing quietly.
pub struct Output<'a> {
    sink: Box<dyn Write + 'a>,
    trouble: Option<io::Error>,
}

impl std::fmt::Debug for Output<'_> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Output").field("trouble", &self.trouble).finish_non_exhaustive()
    }
}

impl<'a> Output<'a> {
    /// Standard output.
    pub fn standard() -> Output<'static> {
        Output::to(BufWriter::new(io::stdout().lock()))
    }

    /// Any writer.
    pub fn to(sink: impl Write + 'a) -> Self {
        Self { sink: Box::new(sink), trouble: None }
    }

    /// Writes a text at once, so that a long run shows its findings as they come.
    pub fn put(&mut self, text: &str) {
        self.written(&harmless(text));
    }

    /// Writes a text as it is, whatever a log would take its lines for: commands to a log on purpose, or what goes back into
    /// a file.
    pub(super) fn as_it_is(&mut self, text: &str) {
        // On a terminal control characters are shown.
        let shown = if io::stdout().is_terminal() {
            let lines: Vec<String> = text.split('\n').map(|line| visible(line, false).into_owned()).collect();
            Cow::Owned(lines.join("\n"))
        } else {
            Cow::Borrowed(text)
        };
        self.written(&shown);
    }

    fn written(&mut self, text: &str) {
        if self.trouble.is_none() {
            self.trouble = self.sink.write_all(text.as_bytes()).and_then(|()| self.sink.flush()).err();
        }
    }

    /// Whether nobody reads any more, so that further work is wasted.
    pub fn is_closed(&self) -> bool {
        self.trouble.is_some()
    }

    /// Help to standard output, a refusal of the command line to standard error.
    pub(super) fn clap(&mut self, said: &clap::Error) {
        let error = said.use_stderr();
        let terminal = if error { io::stderr().is_terminal() } else { io::stdout().is_terminal() };
        let colourless = !terminal || std::env::var_os("NO_COLOR").is_some_and(|value| !value.is_empty());
        let bare = said.render().to_string();
        // It repeats what was typed, which a script may have from elsewhere.
        let shown = plain(&bare);
        let text = if colourless || shown != bare { shown.into_owned() } else { said.render().ansi().to_string() };
        if error { complain(&text) } else { self.put(&text) }
    }

    /// Ends the writing; a full disk and the like leave the result unknown to its reader.
    pub fn finish(mut self) -> Outcome {
        let trouble = self.trouble.take().or_else(|| self.sink.flush().err());
        match trouble {
            None => Outcome::Sound,
            Some(error) if error.kind() == ErrorKind::BrokenPipe => Outcome::Sound,
            Some(error) => {
                complain(&format!("the report could not be written: {}\n", wording::why(&super::files::why(&error))));
                Outcome::Unchecked
            }
        }
    }
}

/// Standard error, for what has no place in a report. If that is closed too, the exit code still speaks.
pub(super) fn complain(text: &str) {
    let _ = io::stderr().lock().write_all(harmless(text).as_bytes());
}

#[cfg(test)]
mod tests {
    use super::*;

    struct Shut(ErrorKind);

    impl Write for Shut {
        fn write(&mut self, _: &[u8]) -> io::Result<usize> {
            Err(self.0.into())
        }
        fn flush(&mut self) -> io::Result<()> {
            Ok(())
        }
    }

    #[test]
    fn a_closed_pipe_is_quiet_and_a_full_disk_is_not() {
        for (kind, outcome) in [(ErrorKind::BrokenPipe, Outcome::Sound), (ErrorKind::StorageFull, Outcome::Unchecked)] {
            let mut output = Output::to(Shut(kind));
            output.put("a report");
            assert!(output.is_closed());
            assert_eq!(output.finish(), outcome);
        }
    }
}

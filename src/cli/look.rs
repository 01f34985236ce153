//! What the surroundings say about colours, characters and width.

use std::env;
use std::io::IsTerminal;

use clap::ValueEnum;

use crate::report::Look;

/// When to use colours.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, ValueEnum)]
pub enum Colour {
    /// On a terminal, unless NO_COLOR is set
    #[default]
    Auto,
    /// Also into a pipe or a file
    Always,
    /// Plain text
    Never,
}

/// The look for standard output.
pub fn look(colour: Colour) -> Look {
    let set = |name: &str| env::var(name).ok().filter(|value| !value.is_empty());
    let terminal = std::io::stdout().is_terminal();
    let wide = terminal.then(terminal_size::terminal_size).flatten().map(|(width, _)| usize::from(width.0));
    let locale = set("LC_ALL").or_else(|| set("LC_CTYPE")).or_else(|| set("LANG"));
    choose(
        colour,
        terminal,
        set("TERM").as_deref(),
        set("NO_COLOR").is_some(),
        locale.as_deref(),
        set("COLUMNS").and_then(|value| value.parse().ok()).or(wide),
    )
}

fn choose(
    colour: Colour,
    terminal: bool,
    term: Option<&str>,
    no_colour: bool,
    locale: Option<&str>,
    width: Option<usize>,
) -> Look {
    let dumb = term == Some("dumb");
    let utf8 = |locale: &str| {
        let locale = locale.to_ascii_lowercase();
        locale.contains("utf-8") || locale.contains("utf8")
    };
    #[allow(clippy::disallowed_methods)] // The bounds do not cross.
    let width = width.unwrap_or(100).clamp(80, 120);
    Look {
        colour: match colour {
            Colour::Always => true,
            Colour::Never => false,
            Colour::Auto => terminal && !no_colour && !dumb,
        },
        // No locale at all means plain ASCII, except on Windows, which has none.
        unicode: !dumb && locale.map_or(cfg!(windows), utf8),
        width,
        list_not_checked: false,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn colours_follow_the_switch_then_the_surroundings() {
        let auto = |terminal, term, no_colour| {
            choose(Colour::Auto, terminal, term, no_colour, Some("en_GB.UTF-8"), None).colour
        };
        assert!(auto(true, Some("xterm"), false));
        assert!(!auto(false, Some("xterm"), false));
        assert!(!auto(true, Some("xterm"), true));
        assert!(!auto(true, Some("dumb"), false));
        assert!(choose(Colour::Always, false, None, true, None, None).colour);
        assert!(!choose(Colour::Never, true, None, false, None, None).colour);
    }

    #[test]
    fn frames_are_plain_unless_the_locale_is_utf8() {
        let frames = |term, locale| choose(Colour::Auto, true, term, false, locale, None).unicode;
        assert!(frames(None, Some("C.utf8")));
        assert!(!frames(None, Some("POSIX")));
        assert!(!frames(Some("dumb"), Some("en_GB.UTF-8")));
    }

    #[test]
    fn the_width_is_kept_readable() {
        let width = |width| choose(Colour::Auto, true, None, false, None, width).width;
        assert_eq!((width(Some(20)), width(Some(95)), width(Some(4000)), width(None)), (80, 95, 120, 100));
    }
}

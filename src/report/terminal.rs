//! Findings drawn for a terminal. The only file that knows miette.

use std::fmt;

use miette::{
    Diagnostic, GraphicalReportHandler, GraphicalTheme, LabeledSpan, MietteError, MietteSpanContents, Severity,
    SourceCode, SourceSpan, SpanContents, ThemeCharacters, ThemeStyles,
};

use super::Look;
use super::look::Paint;
use super::window::{Mark, Window};
use super::words::{columns, sentence, wrap};
use crate::base::Severity as Gravity;
use crate::wording::{self, Amended, Beside, Clause, Label, Message};

/// Columns that the frame of a second text takes.
const NESTED: usize = 6;

/// Draws one finding: the rule, what is asked and found, the places in the design, its source, help, and what else
/// has the same cause.
pub(super) fn draw(message: &Message, look: &Look) -> String {
    let mut out = rendered(&Shown::message(message, look), look);
    let cites = message.clause.as_ref().map_or("", |clause| clause.cites.as_str());
    let mut line = |mark: &str, text: &str| {
        let text = format!("{mark} {text}");
        let lines = wrap(&sentence(&text, look.unicode), look.width.saturating_sub(4).max(32), &[cites]);
        let text = lines.join("\n    ");
        let painted = text.strip_prefix(mark).map(|rest| format!("{}{rest}", look.paint(Paint::Mark, mark)));
        out.push_str(&format!("  {}\n", painted.unwrap_or(text)));
    };
    if let Some(clause) = &message.clause {
        line(if look.unicode { "§" } else { "-" }, &wording::source_line(clause));
    }
    if let Some(help) = &message.help {
        line("help:", help);
    }
    for other in &message.also {
        line("also", other);
    }
    out
}

/// Draws the clause behind findings of one rule: its source, the text of the rule, who amended it.
pub(super) fn draw_clause(rule: &str, clause: &Clause, look: &Look) -> String {
    let amended = clause.amended.iter().map(|amended| Shown::amended(amended, look)).collect();
    let head = Some(format!("rule: {}", sentence(rule, look.unicode)));
    rendered(&Shown { head, related: amended, ..Shown::clause(clause, look) }, look)
}

fn rendered(shown: &Shown, look: &Look) -> String {
    let mut theme = GraphicalTheme::none();
    theme.characters = if look.unicode { ThemeCharacters::unicode() } else { ThemeCharacters::ascii() };
    theme.characters.advice = if look.unicode { "§".into() } else { "-".into() };
    if look.colour {
        theme.styles = ThemeStyles::ansi();
    }
    // Text comes wrapped by our own hand: a fraction or a citation must not be broken.
    let handler = GraphicalReportHandler::new_themed(theme)
        .with_width(look.width)
        .with_wrap_lines(false)
        .with_links(false)
        .with_urls(false)
        .with_show_related_as_nested(true)
        .without_syntax_highlighting();
    let mut out = String::new();
    if handler.render_report(&mut out, shown).is_err() {
        // The frame could not be drawn; the words still count.
        let window = shown.window.as_ref();
        let place =
            window.and_then(|window| window.marks.iter().find(|mark| mark.main).map(|mark| (&window.name, mark.line)));
        out = place.map_or_else(String::new, |(name, line)| format!("{name}:{line}: "));
        out.push_str(&shown.message);
    }
    let lines: Vec<&str> = out.lines().map(str::trim_end).collect();
    let mut out = lines.join("\n").trim_matches('\n').to_owned();
    out.push('\n');
    out
}

/// A finding, or the clause behind one, in the shape that miette reads. All its text is safe to print.
#[derive(Debug)]
struct Shown {
    head: Option<String>,
    message: String,
    severity: Severity,
    help: Option<String>,
    window: Option<Window>,
    marks: Vec<LabeledSpan>,
    related: Vec<Shown>,
}

impl Shown {
    fn message(message: &Message, look: &Look) -> Self {
        let cites = message.clause.as_ref().map_or("", |clause| clause.cites.as_str());
        let window = Window::new(&message.source, &message.labels, look);
        let mut said = message.message.clone();
        if window.is_none() && !said.contains(&*message.source.name) {
            said = format!("{}: {said}", message.source.name);
        }
        let left_out = window.as_ref().map(|window| window.left_out).filter(|more| *more > 0);
        Self {
            head: Some(format!("{}: {}", message.severity.word(), sentence(&message.name, look.unicode))),
            message: paragraph(&said, look, 6, &[cites]),
            severity: match message.severity {
                Gravity::Advised => Severity::Warning,
                Gravity::Broken | Gravity::NotUnderstood | Gravity::Unchecked => Severity::Error,
            },
            help: left_out.map(|more| format!("{more} more places like these are not drawn.")),
            marks: window.as_ref().map_or_else(Vec::new, |window| marks(window, look, 0)),
            window,
            related: message.beside.iter().map(|beside| Self::beside(beside, look)).collect(),
        }
    }

    /// Words of another text that the design's stand on.
    fn beside(beside: &Beside, look: &Look) -> Self {
        let window = Window::new(&beside.source, &beside.labels, look);
        Self {
            head: None,
            message: paragraph("from the shop's file", look, 6 + NESTED, &[]),
            severity: Severity::Advice,
            help: None,
            marks: window.as_ref().map_or_else(Vec::new, |window| marks(window, look, NESTED)),
            window,
            related: Vec::new(),
        }
    }

    /// The places where another set changes the rule.
    fn amended(amended: &Amended, look: &Look) -> Self {
        let window = Window::new(&amended.source, &amended.changes, look);
        Self {
            head: None,
            message: paragraph(&format!("amended by {}", amended.set), look, 6 + NESTED, &[]),
            severity: Severity::Advice,
            help: None,
            marks: window.as_ref().map_or_else(Vec::new, |window| marks(window, look, NESTED)),
            window,
            related: Vec::new(),
        }
    }

    fn clause(clause: &Clause, look: &Look) -> Self {
        let mut labels = vec![Label { span: clause.clause, text: "the clause".to_owned() }];
        labels.extend(clause.limits.iter().cloned());
        let window = Window::new(&clause.source, &labels, look);
        let cites = clause.cites.as_str();
        let mut message = paragraph(&wording::source_line(clause), look, 6, &[cites]);
        let sure = wording::sure::of_a_figure(&clause.sure);
        for more in [clause.because.as_str(), &sure] {
            if !more.is_empty() {
                message.push('\n');
                message.push_str(&paragraph(more, look, 6, &[cites]));
            }
        }
        Self {
            head: None,
            message,
            severity: Severity::Advice,
            help: None,
            marks: window.as_ref().map_or_else(Vec::new, |window| marks(window, look, 0)),
            window,
            related: Vec::new(),
        }
    }
}

fn paragraph(text: &str, look: &Look, indent: usize, whole: &[&str]) -> String {
    wrap(&sentence(text, look.unicode), look.width.saturating_sub(indent).max(32), whole).join("\n")
}

/// The labels, their words wrapped to the room that is left beside the place they hang from.
fn marks(window: &Window, look: &Look, indent: usize) -> Vec<LabeledSpan> {
    let gutter = indent + 9 + window.lines.last().map_or(1, |line| line.number.to_string().len());
    let hangs_at = |mark: &Mark| {
        let line = window.lines.iter().rev().find(|line| line.start <= mark.start).map_or(0, |line| line.start);
        let before = columns(window.text.get(line..mark.start).unwrap_or(""));
        let words = window.text.get(mark.start..mark.end).unwrap_or("").split('\n').next().unwrap_or("");
        #[allow(clippy::integer_division)] // By a constant.
        let half = columns(words) / 2;
        before + half
    };
    let label = |mark: &Mark| {
        let room = look.width.saturating_sub(gutter + hangs_at(mark)).max(28);
        let text = (!mark.text.is_empty()).then(|| wrap(&mark.text, room, &[]).join("\n"));
        let span = SourceSpan::new(mark.start.into(), mark.end - mark.start);
        if mark.main { LabeledSpan::new_primary_with_span(text, span) } else { LabeledSpan::new_with_span(text, span) }
    };
    window.marks.iter().map(label).collect()
}

impl fmt::Display for Shown {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.message)
    }
}

impl std::error::Error for Shown {}

impl Diagnostic for Shown {
    fn code<'a>(&'a self) -> Option<Box<dyn fmt::Display + 'a>> {
        self.head.as_ref().map(|head| Box::new(head) as Box<dyn fmt::Display>)
    }

    fn severity(&self) -> Option<Severity> {
        Some(self.severity)
    }

    fn help<'a>(&'a self) -> Option<Box<dyn fmt::Display + 'a>> {
        self.help.as_ref().map(|help| Box::new(help) as Box<dyn fmt::Display>)
    }

    fn source_code(&self) -> Option<&dyn SourceCode> {
        self.window.as_ref().map(|window| window as &dyn SourceCode)
    }

    fn labels(&self) -> Option<Box<dyn Iterator<Item = LabeledSpan> + '_>> {
        (!self.marks.is_empty()).then(|| Box::new(self.marks.iter().cloned()) as Box<dyn Iterator<Item = LabeledSpan>>)
    }

    fn related<'a>(&'a self) -> Option<Box<dyn Iterator<Item = &'a dyn Diagnostic> + 'a>> {
        if self.related.is_empty() {
            return None;
        }
        Some(Box::new(self.related.iter().map(|related| related as &dyn Diagnostic)))
    }
}

impl SourceCode for Window {
    /// The lines of a span and its neighbours. A span over lines that the window left out is refused,
    /// so that miette draws two snippets in place of one.
    fn read_span<'a>(
        &'a self,
        span: &SourceSpan,
        before: usize,
        after: usize,
    ) -> Result<Box<dyn SpanContents<'a> + 'a>, MietteError> {
        let end = span.offset() + span.len().max(1) - 1;
        let line_at = |offset: usize| self.lines.iter().position(|line| line.start <= offset && offset < line.end);
        let follows = |i: usize, j: usize| match (self.lines.get(i), self.lines.get(j)) {
            (Some(one), Some(next)) => one.number + 1 == next.number,
            _ => false,
        };
        let (mut first, mut last) = line_at(span.offset()).zip(line_at(end)).ok_or(MietteError::OutOfBounds)?;
        if !(first..last).all(|i| follows(i, i + 1)) {
            return Err(MietteError::OutOfBounds);
        }
        for _ in 0..before {
            if first > 0 && follows(first - 1, first) {
                first -= 1;
            }
        }
        for _ in 0..after {
            if follows(last, last + 1) {
                last += 1;
            }
        }
        let (from, to) = self.lines.get(first).zip(self.lines.get(last)).ok_or(MietteError::OutOfBounds)?;
        let data = self.text.as_bytes().get(from.start..to.end).ok_or(MietteError::OutOfBounds)?;
        // The column is only read where a snippet's head names the place of a label.
        let column = self.marks.iter().find(|mark| mark.start == span.offset()).map_or(0, |mark| mark.column - 1);
        let span = SourceSpan::new(from.start.into(), to.end - from.start);
        let column = if before == 0 { column } else { 0 };
        let contents =
            MietteSpanContents::new_named(self.name.clone(), data, span, from.number - 1, column, last - first + 1);
        Ok(Box::new(contents))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::{Source, Span};

    const LOOK: Look = Look { colour: false, unicode: true, width: 80, list_not_checked: false };

    fn finding(text: &str, labels: &[(&str, &str)]) -> Message {
        let label = |(words, says): &(&str, &str)| {
            let at = text.find(words).unwrap();
            Label { span: Span::new(at, at + words.len()), text: (*says).to_owned() }
        };
        Message {
            severity: Gravity::Broken,
            name: "riser height".into(),
            message: "each riser shall have a height of 7-3/4\" or less".into(),
            source: Source::new("hide.stair", text),
            labels: labels.iter().map(label).collect(),
            help: Some("make it 7-3/4\" or less".into()),
            also: Vec::new(),
            beside: None,
            clause: None,
            waived: None,
        }
    }

    /// Column at which a string starts in the drawn line that holds it.
    fn column(drawn: &str, words: &str) -> usize {
        let line = drawn.lines().find(|line| line.contains(words)).unwrap();
        columns(line.split(words).next().unwrap())
    }

    #[test]
    fn a_label_at_the_end_of_the_file_is_drawn() {
        for text in ["stair {\n  flight {", "stair {\n  flight {\n"] {
            let mut finding = finding(text, &[("flight", "opened here")]);
            finding.labels.push(Label { span: Span::new(text.len(), text.len()), text: "never closed".into() });
            let drawn = draw(&finding, &LOOK);
            assert!(drawn.contains("never closed") && drawn.contains("opened here"), "{drawn}");
        }
        // A zero-length label in the middle, and one that starts beyond the text.
        let mut finding = finding("width: 36\"\n", &[("36", "a number")]);
        finding.labels.push(Label { span: Span::new(5, 5), text: "between".into() });
        finding.labels.push(Label { span: Span::new(900, 950), text: "beyond".into() });
        let drawn = draw(&finding, &LOOK);
        assert!(["a number", "between", "beyond"].iter().all(|says| drawn.contains(says)), "{drawn}");
    }

    #[test]
    fn underlines_stand_below_tabs_and_wide_characters() {
        for lead in ["\t", "\té\t", "pièce ", "板材 ", "🪵 ", "板é🪵\t"] {
            let drawn = draw(&finding(&format!("{lead}risers: 8\"\n"), &[("risers", "tall")]), &LOOK);
            let words = column(&drawn, "risers: 8");
            assert_eq!(column(&drawn, "───┬──"), words, "{drawn}");
        }
    }

    #[test]
    fn the_head_names_line_and_column_of_the_main_label() {
        let text: String = (1..=900).map(|n| format!("note {n}: é 8\"\n")).collect();
        let mut finding = finding(&text, &[("note 700: é 8\"", "main"), ("note 90:", "other")]);
        finding.labels[0].span.start = finding.labels[0].span.end - 2;
        let drawn = draw(&finding, &LOOK);
        assert!(drawn.contains("[hide.stair:700:13]") && drawn.contains("[hide.stair:90:1]"), "{drawn}");
        assert!(drawn.contains(" 700 │ note 700: é 8\"") && drawn.contains(" 699 │ note 699"), "{drawn}");
        assert!(!drawn.contains("note 400"), "{drawn}");
    }

    #[test]
    fn no_control_character_reaches_the_terminal() {
        let evil = "\x1b[2J\x1b]8;;http://x\x07\u{9b}31m\u{202e}\x08\r\u{200f}";
        let text = format!("# {evil}\nrisers: 8\"{evil}\n");
        let mut finding = finding(&text, &[("8\"", evil)]);
        finding.source = Source::new(format!("{evil}.stair"), &text);
        finding.message = format!("says {evil}");
        finding.name = evil.into();
        finding.help = Some(evil.into());
        finding.clause = Some(Clause {
            set: evil.into(),
            from: evil.into(),
            edition: evil.into(),
            source: Source::new(evil, &text),
            clause: Span::new(0, 9),
            limits: vec![Label { span: Span::new(30, 34), text: evil.into() }],
            amended: vec![Amended {
                set: evil.into(),
                source: Source::new(evil, &text),
                changes: vec![Label { span: Span::new(30, 34), text: evil.into() }],
            }],
            cites: evil.into(),
            figures: Vec::new(),
            because: evil.into(),
            sure: evil.into(),
        });
        for unicode in [true, false] {
            let drawn = draw(&finding, &Look { unicode, ..LOOK });
            let raw = |c: char| (c.is_control() && c != '\n') || matches!(c, '\u{202e}' | '\u{200f}');
            assert!(!drawn.chars().any(raw), "{drawn:?}");
            assert!(drawn.contains(if unicode { "␛[2J" } else { "\\x1b[2J" }), "{drawn}");
        }
    }

    #[test]
    fn fractions_and_the_citation_stay_whole_in_every_part() {
        let cites = "IRC 2021, R311.7.5.1";
        let words =
            "a height of 7-3/4\" or less, and this stair has 7 13/16\" for its third, which is 1/16\" more than";
        let mut finding = finding("risers: 8\"\n", &[("8\"", words)]);
        finding.message = format!("each riser shall have {words} {cites} asks");
        finding.help = Some(format!("make it {words} {cites}"));
        finding.clause = Some(Clause {
            set: "Residential stairs of one- and two-family dwellings in a marsh".into(),
            edition: "2021".into(),
            from: "Stairs of every kind".into(),
            source: Source::new("built-in residential", "each riser shall have height <= 7-3/4\"\n"),
            clause: Span::new(0, 38),
            limits: Vec::new(),
            amended: Vec::new(),
            cites: cites.into(),
            figures: Vec::new(),
            because: format!("{words} a foot can find"),
            sure: "memory".into(),
        });
        for width in 56..100 {
            let drawn = draw(&finding, &Look { width, ..LOOK });
            assert_eq!(drawn.matches(cites).count(), 3, "{width}\n{drawn}");
            // The sentence, the label and the help.
            assert_eq!(drawn.matches("7-3/4\"").count(), 3, "{width}\n{drawn}");
            assert_eq!(drawn.matches("7 13/16\"").count(), 3, "{width}\n{drawn}");
            assert!(drawn.lines().all(|line| columns(line) <= width), "{width}\n{drawn}");
        }
    }

    #[test]
    fn colour_only_when_asked_for() {
        let finding = finding("risers: 8\"\n", &[("8\"", "tall")]);
        let plain = draw(&finding, &LOOK);
        let coloured = draw(&finding, &Look { colour: true, ..LOOK });
        assert!(!plain.contains('\x1b') && coloured.contains("\x1b["));
        let mut bare = String::new();
        let mut escaped = false;
        for c in coloured.chars() {
            escaped = escaped || c == '\x1b';
            if !escaped {
                bare.push(c);
            }
            escaped = escaped && c != 'm';
        }
        assert_eq!(bare, plain);
        assert!(draw(&finding, &Look { unicode: false, ..LOOK }).is_ascii());
    }

    #[test]
    fn a_finding_without_text_names_its_file() {
        let mut finding = finding("x", &[]);
        finding.source = Source::new("boats/none.stair", "");
        finding.message = "there is no such file".into();
        assert!(draw(&finding, &LOOK).contains("boats/none.stair: there is no such file"));
    }

    #[test]
    fn no_pair_of_labels_upsets_the_frame() {
        let text = "é {\t板\r\n\n  a\x1b: 🪵;\n}\n\n\nb\n";
        let mut finding = finding(text, &[]);
        let spans: Vec<Span> =
            (0..=text.len()).flat_map(|a| (a..=text.len() + 1).map(move |b| Span::new(a, b))).collect();
        for (i, span) in spans.iter().enumerate() {
            for other in spans.iter().skip(i % 7).step_by(7) {
                let label = |span: &Span, says: &str| Label { span: *span, text: says.into() };
                finding.labels = vec![label(span, "first"), label(other, "second")];
                let drawn = draw(&finding, &LOOK);
                assert!(drawn.contains("first") && drawn.contains("second"), "{span:?} {other:?}\n{drawn}");
            }
        }
    }
}

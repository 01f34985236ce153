//! XML, an element at a time. What cannot stand in XML is made visible, and nothing in it commands a log that it is
//! printed into.

use quick_xml::Writer;
use quick_xml::events::{BytesEnd, BytesStart, BytesText, Event};

use super::words::visible;

/// What stands at the head of a file.
pub(super) const HEAD: &str = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n";

/// Elements that are being written, each on a line.
pub(super) struct Xml {
    writer: Writer<Vec<u8>>,
    open: Vec<&'static str>,
}

/// A name and its value.
pub(super) type Attribute<'a> = (&'static str, &'a str);

impl Xml {
    /// Elements that stand so many levels deep.
    pub fn within(levels: usize) -> Self {
        Self { writer: Writer::new(Vec::new()), open: vec![""; levels] }
    }

    /// Opens an element.
    pub fn open(&mut self, name: &'static str, attributes: &[Attribute<'_>]) {
        self.indent();
        self.event(Event::Start(start(name, attributes)));
        self.end_line();
        self.open.push(name);
    }

    /// Closes the last one that is open.
    pub fn close(&mut self) {
        let name = self.open.pop().unwrap_or_default();
        self.indent();
        self.event(Event::End(BytesEnd::new(name)));
        self.end_line();
    }

    /// An element that holds nothing.
    pub fn empty(&mut self, name: &'static str, attributes: &[Attribute<'_>]) {
        self.indent();
        self.event(Event::Empty(start(name, attributes)));
        self.end_line();
    }

    /// An element that holds lines of text.
    pub fn lines(&mut self, name: &'static str, attributes: &[Attribute<'_>], lines: &[String]) {
        self.indent();
        self.event(Event::Start(start(name, attributes)));
        for (at, line) in lines.iter().enumerate() {
            if at > 0 {
                self.event(Event::Text(BytesText::from_escaped("&#10;")));
            }
            self.event(Event::Text(BytesText::new(&visible(line, true))));
        }
        self.event(Event::End(BytesEnd::new(name)));
        self.end_line();
    }

    /// The text so far.
    pub fn text(self) -> String {
        let text = String::from_utf8_lossy(&self.writer.into_inner()).into_owned();
        if text.contains("##") { text.replace("##", "#&#35;") } else { text }
    }

    fn indent(&mut self) {
        let indent = "  ".repeat(self.open.len());
        self.event(Event::Text(BytesText::from_escaped(indent)));
    }

    fn end_line(&mut self) {
        self.event(Event::Text(BytesText::from_escaped("\n")));
    }

    fn event(&mut self, event: Event<'_>) {
        // Memory takes whatever is written.
        let _ = self.writer.write_event(event);
    }
}

fn start<'a>(name: &'static str, attributes: &[Attribute<'_>]) -> BytesStart<'a> {
    let mut start = BytesStart::new(name);
    for (name, value) in attributes {
        start.push_attribute((*name, &*visible(value, true)));
    }
    start
}

#[cfg(test)]
mod tests {
    use super::*;
    use quick_xml::Reader;

    #[test]
    fn what_is_written_reads_back_with_control_characters_made_visible() {
        let said = "a <b> & \"c\" 'd' ]]> \u{1b}[1m ##[error] \u{ffff}";
        let mut xml = Xml::within(0);
        xml.open("file", &[("name", said)]);
        xml.lines("said", &[], &[said.to_owned(), "::error::x".to_owned()]);
        xml.close();
        let text = xml.text();
        assert!(!text.contains('\u{1b}') && !text.contains("##["), "{text}");
        let mut reader = Reader::from_str(&text);
        let mut read = Vec::new();
        loop {
            match reader.read_event().unwrap() {
                Event::Start(start) => read.push(String::from_utf8(start.name().as_ref().to_vec()).unwrap()),
                Event::Eof => break,
                _ => {}
            }
        }
        assert_eq!(read, ["file", "said"]);
        assert!(text.lines().all(|line| line.trim_start().starts_with('<')), "{text}");
    }
}

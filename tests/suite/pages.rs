//! Runs the pages, README.md and every page of the guide (`src/guide/*.md`): each command of a `console` block is run
//! by `sh` as typed, in a folder that holds `examples/` and the files that this page has its reader write, and must
//! print what the page shows.
//!
//! `UPDATE=1 cargo test --test suite pages` pastes into every page what its commands print now; read the difference
//! before you keep it. Without it, and with `UPDATE=0`, nothing is written.
//!
//! How a page says so, in ways that a reader of the rendered page does not see:
//! - `<!-- file NAME -->`: the block below is the file NAME from here on;
//! - `<!-- append NAME -->`: the block below is added to the end of it;
//! - `<!-- edit NAME | old | new -->`: a change that the text beside it asks for (`\n` is a line end);
//! - `<!-- output ARGUMENTS -->`: the block below is what the tool prints for these arguments;
//! - `<!-- typed EDITOR -->`, `<!-- screen EDITOR -->`: the block below is run, or looked for, by `.ci/outside-editors`.
//!
//! `[...]` as the first or the last line of an output marks that more was cut there; without it, all is shown.
#![cfg(unix)]

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use pitchboard::guide::TOPICS;

use crate::switches::update;

const CUT: &str = "[...]";
/// What a block may open with. A block of no language would be taken for Rust by rustdoc.
const LANGUAGES: &[&str] = &["text", "console", "sh", "toml", "rust"];
/// Columns of the prose of a page, which `pitchboard guide` prints as it stands.
const WIDEST: usize = 100;

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// README.md and the pages of the guide, from the root of the repository.
fn pages() -> Vec<String> {
    let guide = fs::read_dir(root().join("src/guide")).expect("the guide");
    let names = guide.map(|entry| entry.expect("an entry").file_name().to_string_lossy().into_owned());
    let mut pages: Vec<String> =
        names.filter(|name| name.ends_with(".md")).map(|name| format!("src/guide/{name}")).collect();
    pages.push("README.md".to_owned());
    pages.sort();
    pages
}

/// A page as it stands in the repository.
fn text(page: &str) -> String {
    fs::read_to_string(root().join(page)).unwrap_or_else(|why| panic!("{page}: {why}"))
}

/// One piece of a page.
enum Piece<'p> {
    Line(&'p str),
    Block { info: &'p str, body: Vec<&'p str> },
}

fn pieces(page: &str) -> Vec<Piece<'_>> {
    let (mut pieces, mut lines) = (Vec::new(), page.lines());
    while let Some(line) = lines.next() {
        pieces.push(match line.strip_prefix("```") {
            Some(info) => Piece::Block { info, body: lines.by_ref().take_while(|line| *line != "```").collect() },
            None => Piece::Line(line),
        });
    }
    pieces
}

/// The words of a note to this test, where a line is one.
fn note(line: &str) -> Option<&str> {
    line.strip_prefix("<!-- ")?.strip_suffix(" -->")
}

/// What a note says of the block below it.
enum Block {
    /// The file of this name.
    File(String),
    /// More of the file of this name.
    Append(String),
    /// What the tool prints for these arguments.
    Output(String),
    /// What stands there is tried by a script.
    Elsewhere,
}

/// A reader at work: a folder of their own, with the examples in it.
struct Reader {
    folder: PathBuf,
    /// What the block that follows is.
    block: Option<Block>,
    /// Commands that were run.
    ran: usize,
    /// Where a command does not print what is shown.
    differences: String,
}

impl Reader {
    fn new(page: &str) -> Self {
        let name = page.replace(['/', '.'], "-");
        let folder = std::env::temp_dir().join(format!("pitchboard-{name}-{}", std::process::id()));
        let _ = fs::remove_dir_all(&folder);
        copy(&root().join("examples"), &folder.join("examples"));
        Self { folder, block: None, ran: 0, differences: String::new() }
    }

    fn path(&self, name: &str) -> PathBuf {
        let path = self.folder.join(name);
        fs::create_dir_all(path.parent().expect("a folder")).expect("a folder of the page");
        path
    }

    fn read(&self, name: &str) -> String {
        fs::read_to_string(self.path(name)).unwrap_or_else(|why| panic!("{name}: {why}"))
    }

    fn write(&self, name: &str, text: &str) {
        fs::write(self.path(name), text).unwrap_or_else(|why| panic!("{name}: {why}"));
    }

    /// Does what one piece of the page asks; gives the piece as it should stand.
    fn follow(&mut self, piece: &Piece<'_>) -> String {
        match piece {
            Piece::Line(line) => {
                assert!(self.block.is_none(), "no block follows the note above `{line}`");
                if let Some(note) = note(line) {
                    self.heed(note);
                }
                format!("{line}\n")
            }
            Piece::Block { info, body } => format!("```{info}\n{}```\n", self.block(info, body)),
        }
    }

    /// Does what a note asks, or remembers what it says of the block below.
    fn heed(&mut self, note: &str) {
        let (word, rest) = note.split_once(' ').unwrap_or_else(|| panic!("{note}"));
        match word {
            "file" => self.block = Some(Block::File(rest.to_owned())),
            "append" => self.block = Some(Block::Append(rest.to_owned())),
            "output" => self.block = Some(Block::Output(rest.to_owned())),
            "typed" | "screen" => {
                let script = text(".ci/outside-editors");
                assert!(script.contains(&format!("{word} {rest}")), "no script tries `{note}`");
                self.block = Some(Block::Elsewhere);
            }
            "edit" => {
                let [name, old, new] = rest.split(" | ").collect::<Vec<_>>()[..] else { panic!("{note}") };
                let (old, new) = (old.replace("\\n", "\n"), new.replace("\\n", "\n"));
                let text = self.read(name);
                let (before, after) = text.rsplit_once(&old).unwrap_or_else(|| panic!("{name} holds no `{old}`"));
                self.write(name, &format!("{before}{new}{after}"));
            }
            _ => panic!("`{word}` asks for nothing that is known"),
        }
    }

    /// Does what a block asks; gives what should stand in it.
    fn block(&mut self, info: &str, body: &[&str]) -> String {
        let text: String = body.iter().map(|line| format!("{line}\n")).collect();
        match self.block.take() {
            Some(Block::File(name)) => self.write(&name, &text),
            Some(Block::Append(name)) => self.write(&name, &format!("{}\n{text}", self.read(&name))),
            Some(Block::Output(arguments)) => return self.run(&format!("pitchboard {arguments}"), body),
            None if info == "console" => {
                let commands = body.chunk_by(|_, next| !next.starts_with("$ "));
                return commands.map(|said| self.command(said)).collect();
            }
            Some(Block::Elsewhere) | None => {}
        }
        text
    }

    /// Runs what the first line asks for; gives it and its output as they should stand.
    fn command(&mut self, said: &[&str]) -> String {
        let typed = said[0].strip_prefix("$ ").unwrap_or_else(|| panic!("{} is no command", said[0]));
        format!("{}\n{}", said[0], self.run(typed, &said[1..]))
    }

    /// Runs a command; gives its output as the page should show it.
    fn run(&mut self, typed: &str, shown: &[&str]) -> String {
        let binary = Path::new(env!("CARGO_BIN_EXE_pitchboard"));
        let path = std::env::var("PATH").unwrap_or_default();
        let output = Command::new("sh")
            .args(["-c", &format!("exec 2>&1\n{typed}")])
            .current_dir(&self.folder)
            .env("PATH", format!("{}:{path}", binary.parent().expect("its folder").display()))
            .env("LC_ALL", "C.UTF-8")
            .env_remove("COLUMNS")
            .env_remove("NO_COLOR")
            .output()
            .unwrap_or_else(|why| panic!("{typed}: {why}"));
        let text = String::from_utf8(output.stdout).unwrap_or_else(|why| panic!("{typed}: {why}"));
        let printed: Vec<String> = text.trim_end().lines().map(str::to_owned).collect();
        self.ran += 1;
        if Shown::new(shown).is(&printed) {
            return shown.iter().map(|line| format!("{line}\n")).collect();
        }
        self.differences += &format!("$ {typed}\nshown:\n{}\nprinted:\n{}\n\n", shown.join("\n"), printed.join("\n"));
        Shown::new(shown).cut_alike(&printed).iter().map(|line| format!("{line}\n")).collect()
    }
}

impl Drop for Reader {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.folder);
    }
}

fn copy(from: &Path, to: &Path) {
    fs::create_dir_all(to).expect("a folder for the examples");
    for entry in fs::read_dir(from).expect("examples") {
        let entry = entry.expect("an example");
        let to = to.join(entry.file_name());
        if entry.path().is_dir() {
            copy(&entry.path(), &to);
        } else {
            fs::copy(entry.path(), to).expect("a copy of an example");
        }
    }
}

/// An output as a page shows it: its lines, and whether more was cut before and after them.
struct Shown<'p> {
    cut_before: bool,
    lines: &'p [&'p str],
    cut_after: bool,
}

impl<'p> Shown<'p> {
    fn new(lines: &'p [&'p str]) -> Self {
        let (cut_before, lines) = match lines {
            [first, rest @ ..] if *first == CUT => (true, rest),
            all => (false, all),
        };
        match lines {
            [rest @ .., last] if *last == CUT => Self { cut_before, lines: rest, cut_after: true },
            all => Self { cut_before, lines: all, cut_after: false },
        }
    }

    /// Whether that is what was printed.
    fn is(&self, printed: &[String]) -> bool {
        let starts = if self.cut_before { 0..printed.len() } else { 0..1 };
        starts.into_iter().any(|start| {
            let Some(here) = printed.get(start..start + self.lines.len()) else { return false };
            let to_the_end = start + self.lines.len() == printed.len();
            here.iter().eq(self.lines) && (self.cut_after || to_the_end)
        })
    }

    /// What was printed, cut as this was: from the line that begins alike to the line that begins alike.
    fn cut_alike(&self, printed: &[String]) -> Vec<String> {
        let first = self.lines.first().filter(|_| self.cut_before);
        let start = first.and_then(|first| alike(printed, first)).unwrap_or(0);
        let rest = printed.get(start..).unwrap_or_default();
        let length = match self.lines.last().filter(|_| self.cut_after) {
            Some(last) => alike(rest, last).map_or(self.lines.len().min(rest.len()), |at| at + 1),
            None => rest.len(),
        };
        let before = (start > 0).then(|| CUT.to_owned());
        let after = (length < rest.len()).then(|| CUT.to_owned());
        before.into_iter().chain(rest.iter().take(length).cloned()).chain(after).collect()
    }
}

/// Where a line stands that is `wanted`, or else one that begins with the same word.
fn alike(printed: &[String], wanted: &str) -> Option<usize> {
    let word = |line: &str| line.split_whitespace().next().map(str::to_owned);
    let same = printed.iter().position(|line| line == wanted);
    same.or_else(|| printed.iter().position(|line| word(line).is_some() && word(line) == word(wanted)))
}

/// Follows a page from its top to its end.
fn follow(page: &str, text: &str) -> (Reader, String) {
    let mut reader = Reader::new(page);
    let new = pieces(text).iter().map(|piece| reader.follow(piece)).collect();
    (reader, new)
}

#[test]
fn every_command_prints_what_its_page_shows() {
    let mut differences = String::new();
    for page in pages() {
        let text = text(&page);
        let (reader, new) = follow(&page, &text);
        assert!(reader.ran > 0, "{page} ran no command");
        if reader.differences.is_empty() {
            assert_eq!(new, text, "{page}: a piece was lost on the way");
        } else if update() {
            fs::write(root().join(&page), new).unwrap_or_else(|why| panic!("{page}: {why}"));
        } else {
            differences += &format!("{page}\n\n{}", reader.differences);
        }
    }
    assert!(differences.is_empty(), "\n{differences}UPDATE=1 pastes what is printed.");
}

#[test]
fn what_is_shown_is_compared_line_by_line_and_cut_anew_as_it_was() {
    let printed: Vec<String> = ["one 1", "two 2", "", "three 3", "four 4"].map(str::to_owned).to_vec();
    let is = |lines: &[&str]| Shown::new(lines).is(&printed);
    assert!(is(&["one 1", "two 2", "", "three 3", "four 4"]));
    assert!(is(&[CUT, "two 2", CUT]) && is(&[CUT, "four 4"]) && is(&["one 1", CUT]));
    assert!(!is(&["two 2", CUT]), "a cut start needs its mark");
    assert!(!is(&["one 1", "two 2"]), "a cut end needs its mark");
    assert!(!is(&["one 1", "two two", CUT]));
    let cut = |lines: &[&str]| Shown::new(lines).cut_alike(&printed);
    assert_eq!(cut(&[CUT, "two two", "three three", CUT]), [CUT, "two 2", "", "three 3", CUT]);
    assert_eq!(cut(&["one", CUT]), ["one 1", CUT]);
    assert_eq!(cut(&["other", "lines", CUT]), ["one 1", "two 2", CUT]);
    assert_eq!(cut(&[]), printed);
}

#[test]
fn a_page_is_followed_as_its_reader_would() {
    let page = "# Page\n\n<!-- file a.stair -->\n```text\nstair \"a\" {\n}\n```\n<!-- edit a.stair | {\\n | { # edited\\n -->\n\
                <!-- append a.stair -->\n\
                ```text\n# more\n```\n```console\n$ cat a.stair; echo \"code $?\"\nstair \"a\" { # edited\n\
                }\n\n# more\ncode 0\n$ pitchboard guid\nno such line\n```\n";
    let (reader, new) = follow("test", page);
    assert_eq!(reader.ran, 2);
    assert!(reader.differences.starts_with("$ pitchboard guid\nshown:\nno such line\n"), "{}", reader.differences);
    assert!(new.starts_with(page.split("no such line").next().expect("a start")), "{new}");
    assert!(new.contains("unrecognized subcommand"), "standard error is shown too\n{new}");
}

#[test]
fn every_page_is_a_topic_and_reads_well_on_a_terminal_and_in_the_docs() {
    let module = fs::read_to_string(root().join("src/guide/mod.rs")).expect("the table of the topics");
    let names: Vec<String> = TOPICS.iter().map(|topic| format!("src/guide/{}.md", topic.name)).collect();
    for page in pages() {
        let text = text(&page);
        if let Some(at) = names.iter().position(|name| *name == page) {
            let name = TOPICS[at].name;
            let printed = format!("text: include_str!(\"{name}.md\")");
            let shown = format!("#[doc = include_str!(\"{name}.md\")]\npub mod {name} {{}}\n");
            assert!(module.contains(&printed), "{page} is not what is printed for `{name}`");
            assert!(module.contains(&shown), "{page} is not shown by rustdoc");
            assert!(module.contains(&format!("[{name}]: self::{name}\\n")), "no page can lead to {page} in rustdoc");
        } else {
            assert_eq!(page, "README.md", "{page} is no topic");
        }
        assert!(text.starts_with("# "), "{page} has no title");
        for piece in pieces(&text) {
            match piece {
                Piece::Line(line) => {
                    let columns = line.chars().count();
                    let note = note(line);
                    assert!(columns <= WIDEST || note.is_some(), "{page}: {columns} columns: {line}");
                    leads_somewhere(&page, &text, line);
                    if let Some(name) = note.and_then(|note| note.strip_prefix("file ")) {
                        assert!(text.contains(&format!("`{name}`")), "{page} has {name} written and does not name it");
                    }
                }
                Piece::Block { info, .. } => assert!(LANGUAGES.contains(&info), "{page}: a block in `{info}`"),
            }
        }
    }
}

/// Every link of a line is defined at the foot of its page, and leads to a file.
fn leads_somewhere(page: &str, text: &str, line: &str) {
    for (_, rest) in line.match_indices("][").map(|(at, _)| line.split_at(at + 2)) {
        let name = rest.split(']').next().unwrap_or_default();
        let target = text.lines().find_map(|line| line.strip_prefix(&format!("[{name}]: ")));
        let target = target.unwrap_or_else(|| panic!("{page}: `{name}` leads nowhere"));
        let beside = root().join(page).with_file_name("").join(target);
        assert!(beside.is_file(), "{page}: there is no {target}");
    }
}

#[test]
fn the_readme_is_short_and_lists_the_topics() {
    let readme = text("README.md");
    assert!(readme.lines().count() <= 400, "{} lines", readme.lines().count());
    assert!(readme.contains("\n$ pitchboard guide\n"), "the list of topics is not shown");
}

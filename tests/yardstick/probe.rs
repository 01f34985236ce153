//! Puts every input before one version of the library and writes down what came of it. A panic is an outcome too.

use std::fs::{self, File};
use std::io::{BufWriter, Write};
use std::panic::{self, AssertUnwindSafe};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::time::Instant;

use super::input::{Corpus, Input, Kind};
use super::record::{Fact, Seen};

/// What one thread holds between inputs, and how it puts an input to the library.
pub trait Observer {
    fn new(corpus: &'static Corpus) -> Self;
    fn observe(&mut self, input: &'static Input) -> Seen;
}

/// `probe CORPUS OUT BINARY EVERY`: one part of the answer for each thread, `OUT.0` and so on.
pub fn run<O: Observer>(arguments: &[String]) -> Result<(), Box<dyn std::error::Error>> {
    let [folder, out, binary, every] = arguments else { return Err("probe CORPUS OUT BINARY EVERY".into()) };
    let corpus: &'static Corpus = Box::leak(Box::new(Corpus::read(Path::new(folder), every.parse()?)?));
    let binary = fs::canonicalize(binary)?;
    // What a panic says is written down with its input.
    let said: &'static Mutex<String> = Box::leak(Box::default());
    panic::set_hook(Box::new(move |info| {
        if let Ok(mut said) = said.lock() {
            *said = info.to_string().replace('\n', ", ");
        }
    }));
    let (next, start) = (AtomicUsize::new(0), Instant::now());
    let threads = std::thread::available_parallelism().map_or(2, usize::from);
    let worked: Vec<std::io::Result<()>> = std::thread::scope(|scope| {
        let workers: Vec<_> = (0..threads)
            .map(|part| {
                let (next, binary) = (&next, &binary);
                let out = PathBuf::from(format!("{out}.{part}"));
                // As much room as the first thread of a command has.
                let thread = std::thread::Builder::new().stack_size(8 << 20);
                thread.spawn_scoped(scope, move || work::<O>(corpus, next, &out, binary, said))
            })
            .collect();
        workers
            .into_iter()
            .map(|worker| worker?.join().unwrap_or_else(|_| Err(std::io::Error::other("a thread died"))))
            .collect()
    });
    worked.into_iter().collect::<std::io::Result<Vec<()>>>()?;
    println!("{} inputs in {:.1} s on {threads} threads", corpus.inputs.len(), start.elapsed().as_secs_f64());
    Ok(())
}

fn work<O: Observer>(
    corpus: &'static Corpus,
    next: &AtomicUsize,
    out: &Path,
    binary: &Path,
    said: &Mutex<String>,
) -> std::io::Result<()> {
    let mut lines = BufWriter::new(File::create(out)?);
    // What a run that cannot be caught (no more stack, an abort) was about stands here.
    let at = out.with_extension(format!("{}.at", out.extension().unwrap_or_default().to_string_lossy()));
    let mut observer = O::new(corpus);
    loop {
        let number = next.fetch_add(1, Ordering::Relaxed);
        let Some(input) = corpus.inputs.get(number) else { break };
        fs::write(&at, &input.name)?;
        let mut facts = match panic::catch_unwind(AssertUnwindSafe(|| observer.observe(input))) {
            Ok(seen) => seen.facts(),
            Err(_) => {
                observer = O::new(corpus);
                let said = said.lock().map(|said| said.clone()).unwrap_or_default();
                vec![Fact::new("panic", "panic", &[("said", said)])]
            }
        };
        facts.extend(ran(corpus, input, binary)?);
        for fact in facts {
            writeln!(lines, "{}", fact.line(&input.name))?;
        }
    }
    lines.flush()?;
    fs::remove_file(at)
}

/// The exit code of the command itself: for every file, and for one in ten of the other designs.
fn ran(corpus: &Corpus, input: &Input, binary: &Path) -> std::io::Result<Option<Fact>> {
    let tree = corpus.folder.join("tree");
    // By its name, so that a run over fewer inputs asks of the same ones.
    let sampled = input.name.bytes().map(usize::from).sum::<usize>() % 10 == 0;
    let mut command = Command::new(binary);
    command.stdout(Stdio::null()).stderr(Stdio::null()).stdin(Stdio::null());
    match input.kind {
        Kind::Rules if input.is_file() => command.args(["rules", "--prove", &input.path]).current_dir(tree),
        Kind::Design if input.is_file() => command.args(["check", &input.path]).current_dir(tree),
        Kind::Design if sampled => {
            let folder = Path::new(&input.path).parent().unwrap_or(Path::new(""));
            command.args(["check", "-"]).current_dir(tree.join(folder)).stdin(Stdio::piped())
        }
        _ => return Ok(None),
    };
    let mut running = command.spawn()?;
    if let Some(mut stdin) = running.stdin.take() {
        // A command that ends early takes no more.
        let _ = stdin.write_all(input.text.as_bytes());
    }
    let code = running.wait()?.code().map_or("killed".to_owned(), |code| code.to_string());
    Ok(Some(Fact::new("ran", "ran", &[("code", code)])))
}

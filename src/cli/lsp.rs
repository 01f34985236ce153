//! `pitchboard lsp`: the language server over standard input and output.
//!
//! One thread reads, one writes, one works. What is read and not worked off yet is bounded, and so is what is not
//! written yet: a client that does not read is not read from.

use std::collections::VecDeque;
use std::io::{self, BufRead, BufReader, Read, Write};
use std::panic::{self, AssertUnwindSafe};
use std::sync::mpsc::{self, RecvTimeoutError, SyncSender, TrySendError};
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};
use std::thread;
use std::time::Duration;

use clap::Args;
use lsp_server::Message;

use super::{Disk, Outcome, day};
use crate::base::Day;
use crate::server::Server;
use crate::session::Session;

const EXAMPLES: &str = "\
Examples:
  pitchboard lsp                           for an editor to start; it ends when the editor says so

It speaks the Language Server Protocol over standard input and output. A design without findings is no permit and no
approval.

Exit code: 0 where the editor ended it in order, 1 where it broke off.";

/// What `lsp` was asked for.
#[derive(Debug, Args)]
#[command(after_help = EXAMPLES)]
pub struct Ask {}

/// Longest message that is taken in, in bytes. A longer one is passed over.
const LONGEST: u64 = 256 << 20;
/// Bytes of messages that are read ahead of the work.
const AHEAD: usize = 256 << 20;
/// Messages that are read ahead of the work.
const MOST_AHEAD: usize = 10_000;
/// Longest line of the head of a message, in bytes.
const HEAD: u64 = 4096;
/// Messages that wait to be written.
const UNWRITTEN: usize = 1000;
/// How long nothing may come before the day is asked again.
const A_MINUTE: Duration = Duration::from_secs(60);
/// How long the end waits for what is not written yet.
const LAST_WORDS: Duration = Duration::from_secs(2);

impl Ask {
    /// Serves until the client ends it, or the pipe does.
    pub fn run(&self) -> Outcome {
        let session = match day::today() {
            Some(day) => Session::new(Disk).on(day),
            None => Session::new(Disk),
        };
        let inbox = Arc::new(Inbox::default());
        let (outbox, written) = writer();
        let reading = Arc::clone(&inbox);
        let refusals = outbox.clone();
        // It ends with the process: a client may keep the pipe open and say nothing.
        thread::spawn(move || {
            read(&mut BufReader::new(io::stdin()), &reading, &refusals);
            reading.close();
        });
        let in_order = serve(&mut Server::new(session), &inbox, &outbox, &day::today);
        // The reader's own end of the outbox may live on, so an empty message tells the writer to end.
        let _ = outbox.try_send(Out::End);
        let _: Result<(), RecvTimeoutError> = written.recv_timeout(LAST_WORDS);
        if in_order { Outcome::Sound } else { Outcome::Broken }
    }
}

/// Works until the server has to end, or nothing more comes; whether that was in order.
fn serve(server: &mut Server, inbox: &Inbox, outbox: &SyncSender<Out>, today: &dyn Fn() -> Option<Day>) -> bool {
    loop {
        if let Some(day) = today() {
            server.turn_to(day);
        }
        // All that is there is looked at first: an edit may follow, or a request be given up.
        inbox.drain().into_iter().for_each(|message| server.take(message));
        let worked =
            panic::catch_unwind(AssertUnwindSafe(|| server.work(&|| inbox.has_newer()))).unwrap_or_else(|_| {
                server.fault();
                true
            });
        for message in server.sends() {
            if !send(outbox, Out::Message(message), inbox) {
                return false;
            }
        }
        if let Some(in_order) = server.ended() {
            return in_order;
        }
        if !worked && inbox.wait() == Waited::Closed {
            return false;
        }
    }
}

/// Hands a message to the writer, once there is room; false where nobody will read it: the client has closed a pipe.
fn send(outbox: &SyncSender<Out>, message: Out, inbox: &Inbox) -> bool {
    let mut message = message;
    loop {
        message = match outbox.try_send(message) {
            Ok(()) => return true,
            Err(TrySendError::Full(unsent)) if !inbox.held().closed => unsent,
            Err(TrySendError::Full(_) | TrySendError::Disconnected(_)) => return false,
        };
        thread::sleep(Duration::from_millis(5));
    }
}

/// Messages that were read and are not worked off.
#[derive(Default)]
struct Inbox {
    held: Mutex<Held>,
    changed: Condvar,
}

#[derive(Default)]
struct Held {
    messages: VecDeque<Message>,
    /// Messages and bytes that the work has not come to the end of.
    ahead: (usize, usize),
    closed: bool,
}

/// What came of waiting.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Waited {
    /// There may be something to do.
    MayGoOn,
    /// Nothing more will come.
    Closed,
}

impl Inbox {
    fn held(&self) -> MutexGuard<'_, Held> {
        self.held.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Adds a message, once there is room.
    fn put(&self, message: Message, bytes: usize) {
        let is_full = |held: &mut Held| held.ahead.0 >= MOST_AHEAD || held.ahead.1 >= AHEAD;
        let mut held = self.changed.wait_while(self.held(), is_full).unwrap_or_else(PoisonError::into_inner);
        held.messages.push_back(message);
        held.ahead.0 += 1;
        held.ahead.1 += bytes;
        self.changed.notify_all();
    }

    fn drain(&self) -> VecDeque<Message> {
        std::mem::take(&mut self.held().messages)
    }

    /// Whether a newer text of any document waits.
    fn has_newer(&self) -> bool {
        let is_change = |message: &Message| matches!(message, Message::Notification(note) if note.method == "textDocument/didChange");
        self.held().messages.iter().any(is_change)
    }

    /// Waits for a message, all that came before being worked off, but no longer than a minute: the day may turn.
    fn wait(&self) -> Waited {
        let mut held = self.held();
        if held.messages.is_empty() {
            held.ahead = (0, 0);
            self.changed.notify_all();
        }
        let nothing = |held: &mut Held| held.messages.is_empty() && !held.closed;
        let waited = self.changed.wait_timeout_while(held, A_MINUTE, nothing).unwrap_or_else(PoisonError::into_inner);
        let (held, _) = waited;
        if held.messages.is_empty() && held.closed { Waited::Closed } else { Waited::MayGoOn }
    }

    fn close(&self) {
        self.held().closed = true;
        self.changed.notify_all();
    }
}

/// What the writer is handed.
enum Out {
    Message(Message),
    /// That a message could not be read.
    Unread(&'static str),
    End,
}

/// Starts the writer: what it is handed, and when it has written all.
fn writer() -> (SyncSender<Out>, mpsc::Receiver<()>) {
    let (outbox, messages) = mpsc::sync_channel(UNWRITTEN);
    let (done, written) = mpsc::channel();
    thread::spawn(move || {
        let mut out = io::stdout().lock();
        while let Ok(next) = messages.recv() {
            let wrote = match next {
                Out::Message(message) => message.write(&mut out),
                Out::Unread(why) => unread(&mut out, why),
                Out::End => break,
            };
            if wrote.is_err() {
                break;
            }
        }
        let _ = done.send(());
    });
    (outbox, written)
}

/// The answer to what is no message: nobody can say to which request.
fn unread(out: &mut impl Write, why: &str) -> io::Result<()> {
    let error = serde_json::json!({ "code": lsp_server::ErrorCode::ParseError as i32, "message": why });
    let text = serde_json::json!({ "jsonrpc": "2.0", "id": null, "error": error }).to_string();
    write!(out, "Content-Length: {}\r\n\r\n{text}", text.len())?;
    out.flush()
}

/// Reads messages until there are no more. One that cannot be read costs itself, as long as its head says where it ends.
fn read(input: &mut impl BufRead, inbox: &Inbox, refusals: &SyncSender<Out>) {
    while let Some(length) = head(input) {
        let mut body = Vec::new();
        if length > LONGEST {
            if io::copy(&mut input.take(length), &mut io::sink()).ok() != Some(length) {
                return;
            }
            let _ = refusals.send(Out::Unread("the message is too long"));
            continue;
        }
        // As it comes, so that a head that lies costs no memory.
        match input.take(length).read_to_end(&mut body) {
            Ok(read) if read as u64 == length => {}
            _ => return,
        }
        match serde_json::from_slice::<Message>(&body) {
            Ok(message) => inbox.put(message, body.len()),
            Err(_) => {
                let _ = refusals.send(Out::Unread("this is no message of the protocol"));
            }
        }
    }
}

/// The length of the message that follows; none where nothing follows, or no head of a message.
fn head(input: &mut impl BufRead) -> Option<u64> {
    let mut length = None;
    loop {
        let mut line = Vec::new();
        input.take(HEAD).read_until(b'\n', &mut line).ok()?;
        let text = std::str::from_utf8(&line).ok()?.strip_suffix('\n')?;
        let text = text.strip_suffix('\r').unwrap_or(text);
        if text.is_empty() {
            return length;
        }
        let (name, value) = text.split_once(':')?;
        if name.trim().eq_ignore_ascii_case("Content-Length") {
            length = Some(value.trim().parse().ok()?);
        }
    }
}

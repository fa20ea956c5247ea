//! As much of HTTP/1.1 as reading files takes: a thread for each connection, requests one after the other.
//!
//! Written here, in a hundred lines, because the small server crate that was tried first lets a connection wait behind
//! one that a browser has opened in advance and not used yet: now and then a page did not load at all.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::{Ipv4Addr, SocketAddr, TcpListener, TcpStream};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread::JoinHandle;
use std::time::Duration;

/// Browsers open connections in advance; one that stays unused for this long is closed.
const PATIENCE: Duration = Duration::from_secs(30);
/// Longer heads are no browser's.
const LONGEST_HEAD: u64 = 32 * 1024;

/// What is sent back.
pub(super) struct Answer {
    /// Number and word, such as `200 OK`.
    pub(super) status: &'static str,
    pub(super) headers: Vec<(String, String)>,
    pub(super) body: Vec<u8>,
}

type Handler = dyn Fn(&Request) -> Answer + Send + Sync;

/// A server at work. It takes no more connections once it is dropped.
pub(super) struct Server {
    pub(super) port: u16,
    stop: Arc<AtomicBool>,
    thread: Option<JoinHandle<()>>,
}

impl Server {
    /// Answers each request by `handler`.
    pub(super) fn start(
        address: SocketAddr,
        handler: impl Fn(&Request) -> Answer + Send + Sync + 'static,
    ) -> std::io::Result<Self> {
        let listener = TcpListener::bind(address)?;
        let port = listener.local_addr()?.port();
        let stop = Arc::new(AtomicBool::new(false));
        let handler: Arc<Handler> = Arc::new(handler);
        let stopped = Arc::clone(&stop);
        let thread = std::thread::spawn(move || {
            for stream in listener.incoming() {
                if stopped.load(Ordering::SeqCst) {
                    break;
                }
                let (Ok(stream), handler) = (stream, Arc::clone(&handler)) else {
                    continue;
                };
                // A visitor that goes away in the middle is no one's concern.
                std::thread::spawn(move || converse(&stream, &*handler));
            }
        });
        Ok(Self { port, stop, thread: Some(thread) })
    }

    /// Goes on until the process is ended.
    pub(super) fn wait(mut self) {
        if let Some(thread) = self.thread.take() {
            // If it panicked it has said so.
            let _ = thread.join();
        }
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        self.stop.store(true, Ordering::SeqCst);
        // The thread sleeps until someone calls.
        let _ = TcpStream::connect((Ipv4Addr::LOCALHOST, self.port));
        if let Some(thread) = self.thread.take() {
            let _ = thread.join();
        }
    }
}

fn converse(stream: &TcpStream, handler: &Handler) -> std::io::Result<()> {
    stream.set_read_timeout(Some(PATIENCE))?;
    stream.set_nodelay(true)?;
    let mut reader = BufReader::new(stream);
    while let Some(request) = read_head(&mut reader)? {
        let answer = handler(&request);
        // A request with a body is none of ours: its answer is the last one, so the body need not be read.
        let last = request.last || !matches!(request.method.as_str(), "GET" | "HEAD");
        write_answer(stream, &answer, request.method == "HEAD", last)?;
        if last {
            break;
        }
    }
    Ok(())
}

/// What a visitor asks for.
pub(super) struct Request {
    pub(super) method: String,
    pub(super) path: String,
    /// Whether it takes what is compressed by Brotli.
    pub(super) takes_brotli: bool,
    last: bool,
}

/// The head of the next request; `None` when there is none, or none that can be understood.
fn read_head(reader: &mut impl BufRead) -> std::io::Result<Option<Request>> {
    let mut reader = reader.take(LONGEST_HEAD);
    let mut line = String::new();
    reader.read_line(&mut line)?;
    let mut words = line.split_whitespace();
    let (Some(method), Some(target), Some(version)) = (words.next(), words.next(), words.next()) else {
        return Ok(None);
    };
    let path = target.split(['?', '#']).next().unwrap_or_default();
    let (method, path) = (method.to_owned(), path.to_owned());
    let mut request = Request { method, path, takes_brotli: false, last: version != "HTTP/1.1" };
    loop {
        let mut header = String::new();
        if reader.read_line(&mut header)? == 0 {
            return Ok(None);
        }
        let header = header.trim();
        if header.is_empty() {
            return Ok(Some(request));
        }
        let Some((name, value)) = header.split_once(':') else { continue };
        if name.eq_ignore_ascii_case("connection") {
            request.last |= value.trim().eq_ignore_ascii_case("close");
        } else if name.eq_ignore_ascii_case("accept-encoding") {
            request.takes_brotli = value.split(',').any(|way| way.trim().split(';').next() == Some("br"));
        }
    }
}

fn write_answer(mut stream: &TcpStream, answer: &Answer, head_only: bool, last: bool) -> std::io::Result<()> {
    let connection = if last { "close" } else { "keep-alive" };
    let length = answer.body.len();
    let mut bytes =
        format!("HTTP/1.1 {}\r\nContent-Length: {length}\r\nConnection: {connection}\r\n", answer.status).into_bytes();
    for (name, value) in &answer.headers {
        bytes.extend_from_slice(format!("{name}: {value}\r\n").as_bytes());
    }
    bytes.extend_from_slice(b"\r\n");
    if !head_only {
        bytes.extend_from_slice(&answer.body);
    }
    stream.write_all(&bytes)
}

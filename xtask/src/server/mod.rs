//! A small file server for one folder: threads of the standard library and `httparse`.

mod headers;
mod resolve;

use std::fs;
use std::io::{self, Read, Write};
use std::net::{TcpListener, TcpStream};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::Duration;

use resolve::Answer;

/// Longest request head that is read, in bytes.
const HEAD_LIMIT: usize = 16 * 1024;
/// Most header fields in a request.
const FIELD_LIMIT: usize = 64;
/// A connection without a request for this long is closed.
const IDLE: Duration = Duration::from_secs(30);

/// Serves the folder until the process ends.
pub fn serve_forever(listener: &TcpListener, dist: &Path) -> io::Result<()> {
    let dist: Arc<PathBuf> = Arc::new(dist.canonicalize()?);
    for stream in listener.incoming() {
        let Ok(stream) = stream else { continue };
        let dist = Arc::clone(&dist);
        // A connection that breaks off concerns nobody else.
        let started = std::thread::Builder::new().spawn(move || drop(converse(stream, &dist)));
        drop(started);
    }
    Ok(())
}

/// Whether the connection stays open after an answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum After {
    KeepOpen,
    Close,
}

/// How much of a body is sent.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Body {
    Whole,
    HeadOnly,
}

fn converse(mut stream: TcpStream, dist: &Path) -> io::Result<()> {
    stream.set_read_timeout(Some(IDLE))?;
    stream.set_write_timeout(Some(IDLE))?;
    stream.set_nodelay(true)?;
    let mut pending = Vec::new();
    loop {
        let request = match next_request(&mut stream, &mut pending)? {
            Some(request) => request,
            None => return Ok(()),
        };
        let (reply, after) = answer(&request, dist);
        stream.write_all(&reply)?;
        if after == After::Close {
            return Ok(());
        }
    }
}

/// What was asked, as far as it matters here.
enum Request {
    Asked {
        method: String,
        target: String,
        after: After,
    },
    Unreadable,
    TooLong,
}

/// Reads up to the end of a request head; `None` when the other side has closed.
fn next_request(stream: &mut TcpStream, pending: &mut Vec<u8>) -> io::Result<Option<Request>> {
    let mut chunk = [0; 4096];
    loop {
        if let Some((request, used)) = parse(pending) {
            pending.drain(..used);
            return Ok(Some(request));
        }
        if pending.len() > HEAD_LIMIT {
            return Ok(Some(Request::TooLong));
        }
        let count = stream.read(&mut chunk)?;
        if count == 0 {
            return Ok(None);
        }
        pending.extend(chunk.iter().take(count));
    }
}

/// A whole request head and its length, or `None` while more is to come.
fn parse(bytes: &[u8]) -> Option<(Request, usize)> {
    let mut fields = [httparse::EMPTY_HEADER; FIELD_LIMIT];
    let mut head = httparse::Request::new(&mut fields);
    match head.parse(bytes) {
        Ok(httparse::Status::Partial) => None,
        Ok(httparse::Status::Complete(used)) => {
            let has = |name: &str, wanted: &str| {
                head.headers.iter().any(|field| {
                    field.name.eq_ignore_ascii_case(name)
                        && field.value.eq_ignore_ascii_case(wanted.as_bytes())
                })
            };
            // Bodies are not read: whoever sends one is answered and hung up on.
            let body = head.headers.iter().any(|field| {
                field.name.eq_ignore_ascii_case("transfer-encoding")
                    || (field.name.eq_ignore_ascii_case("content-length") && field.value != b"0")
            });
            let close = body || has("connection", "close") || head.version == Some(0);
            let request = Request::Asked {
                method: head.method.unwrap_or_default().to_owned(),
                target: head.path.unwrap_or_default().to_owned(),
                after: if close { After::Close } else { After::KeepOpen },
            };
            Some((request, used))
        }
        Err(_) => Some((Request::Unreadable, bytes.len())),
    }
}

fn answer(request: &Request, dist: &Path) -> (Vec<u8>, After) {
    let (method, target, after) = match request {
        Request::Unreadable => return (plain("400 Bad Request", Body::Whole), After::Close),
        Request::TooLong => {
            let status = "431 Request Header Fields Too Large";
            return (plain(status, Body::Whole), After::Close);
        }
        Request::Asked {
            method,
            target,
            after,
        } => (method.as_str(), target, *after),
    };
    let body = match method {
        "GET" => Body::Whole,
        "HEAD" => Body::HeadOnly,
        _ => return (plain("405 Method Not Allowed", Body::Whole), After::Close),
    };
    let reply = match resolve::resolve(dist, target) {
        Answer::File(path) => match fs::read(&path) {
            Ok(bytes) => reply("200 OK", headers::mime(&path), &bytes, body),
            Err(_) => plain("404 Not Found", body),
        },
        Answer::Missing => plain("404 Not Found", body),
        Answer::Refused => plain("400 Bad Request", body),
    };
    (reply, after)
}

fn plain(status: &str, body: Body) -> Vec<u8> {
    let text = format!("{status}\n");
    reply(status, "text/plain; charset=utf-8", text.as_bytes(), body)
}

fn reply(status: &str, mime: &str, bytes: &[u8], body: Body) -> Vec<u8> {
    let mut head = format!("HTTP/1.1 {status}\r\n");
    for (name, value) in headers::always() {
        head.push_str(&format!("{name}: {value}\r\n"));
    }
    let length = bytes.len();
    head.push_str(&format!(
        "Content-Type: {mime}\r\nContent-Length: {length}\r\n\r\n"
    ));
    let mut whole = head.into_bytes();
    if body == Body::Whole {
        whole.extend_from_slice(bytes);
    }
    whole
}

#[cfg(test)]
mod tests {
    use super::*;

    fn asked(head: &str) -> (String, After) {
        let (request, _) = parse(head.as_bytes()).unwrap();
        let (reply, after) = answer(&request, Path::new("/nowhere"));
        (String::from_utf8(reply).unwrap(), after)
    }

    #[test]
    fn half_a_request_is_waited_for() {
        assert!(parse(b"GET / HTTP/1.1\r\nHost: x\r\n").is_none());
    }

    #[test]
    fn what_is_not_a_request_is_refused_and_closed() {
        let (reply, after) = asked("\u{1}\u{2}\r\n\r\n");
        assert!(reply.starts_with("HTTP/1.1 400 "), "{reply}");
        assert_eq!(after, After::Close);
    }

    #[test]
    fn only_reading_is_allowed() {
        let (reply, after) = asked("POST / HTTP/1.1\r\nContent-Length: 3\r\n\r\n");
        assert!(reply.starts_with("HTTP/1.1 405 "), "{reply}");
        assert_eq!(after, After::Close);
    }

    #[test]
    fn a_missing_file_keeps_the_connection_and_the_policy() {
        let (reply, after) = asked("GET /no.js HTTP/1.1\r\nHost: x\r\n\r\n");
        assert!(reply.starts_with("HTTP/1.1 404 "), "{reply}");
        assert!(reply.contains("\r\nContent-Security-Policy: default-src 'self';"));
        assert_eq!(after, After::KeepOpen);
    }

    #[test]
    fn head_has_the_length_and_no_body() {
        let (reply, _) = asked("HEAD /no.js HTTP/1.1\r\n\r\n");
        assert!(reply.contains("Content-Length: 14\r\n"), "{reply}");
        assert!(reply.ends_with("\r\n\r\n"), "{reply}");
    }
}

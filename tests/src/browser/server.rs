//! The server that a phone opens: the app's own, or a few files for the
//! harness's own tests.

use std::collections::HashMap;
use std::env;
use std::io::{BufRead, BufReader, Write};
use std::net::{TcpListener, TcpStream};
use std::process::{Child, Command, Stdio};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread::{self, JoinHandle};

/// Path on the server and text of a file.
type Files = HashMap<&'static str, &'static str>;

/// What answers requests at present.
enum Running {
    Nothing,
    App(Child),
    Files(Arc<AtomicBool>, JoinHandle<()>),
}

/// A server on a free port that can be stopped and started on the same port.
pub struct Server {
    port: u16,
    files: Option<Arc<Files>>,
    running: Running,
}

impl Server {
    /// Serves the built app: `$RAKELINE_XTASK serve --dist $RAKELINE_DIST`.
    ///
    /// # Panics
    /// If a variable is missing or the server does not start.
    #[must_use]
    pub fn start() -> Self {
        let mut server = Self {
            port: 0,
            files: None,
            running: Running::Nothing,
        };
        server.start_again();
        server
    }

    /// Serves these files (path and text), for tests of the harness itself.
    ///
    /// # Panics
    /// If no port is free.
    #[must_use]
    pub fn of_files(files: &[(&'static str, &'static str)]) -> Self {
        let mut server = Self {
            port: 0,
            files: Some(Arc::new(files.iter().copied().collect())),
            running: Running::Nothing,
        };
        server.start_again();
        server
    }

    /// Starts again on the port it had; nothing happens while it runs.
    ///
    /// # Panics
    /// If the server does not start.
    pub fn start_again(&mut self) {
        if !matches!(self.running, Running::Nothing) {
            return;
        }
        (self.port, self.running) = match &self.files {
            Some(files) => serve_files(self.port, Arc::clone(files)),
            None => serve_app(self.port),
        };
    }

    /// Stops: the phone is offline from here.
    ///
    /// # Panics
    /// If the server cannot be ended.
    pub fn stop(&mut self) {
        match std::mem::replace(&mut self.running, Running::Nothing) {
            Running::Nothing => {}
            Running::App(mut child) => {
                child.kill().expect("the app's server can be ended");
                child.wait().expect("the app's server ends");
            }
            Running::Files(stop, thread) => {
                stop.store(true, Ordering::SeqCst);
                drop(TcpStream::connect(("localhost", self.port)));
                thread.join().expect("the file server ends");
            }
        }
    }

    /// `http://localhost:PORT`, a secure context.
    #[must_use]
    pub fn origin(&self) -> String {
        format!("http://localhost:{}", self.port)
    }

    /// The same server under a name that is no secure context.
    #[must_use]
    pub fn insecure_origin(&self) -> String {
        format!("http://{INSECURE_HOST}:{}", self.port)
    }
}

/// A host that the phone resolves to this machine, without being `localhost`.
pub(super) const INSECURE_HOST: &str = "phone.test";

impl Drop for Server {
    fn drop(&mut self) {
        self.stop();
    }
}

fn variable(name: &str) -> String {
    env::var(name).unwrap_or_else(|_| panic!("{name} is not set: run `cargo xtask test`"))
}

fn serve_app(port: u16) -> (u16, Running) {
    let xtask = variable("RAKELINE_XTASK");
    let mut child = Command::new(&xtask)
        .args(["serve", "--dist", &variable("RAKELINE_DIST"), "--port"])
        .arg(port.to_string())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap_or_else(|error| panic!("{xtask} does not start: {error}"));
    let mut lines = BufReader::new(child.stdout.take().expect("stdout is piped")).lines();
    let port = lines
        .by_ref()
        .map_while(Result::ok)
        .find_map(|line| {
            let (_, port) = line.strip_prefix("listening on ")?.rsplit_once(':')?;
            port.trim().parse().ok()
        })
        .expect("the server says `listening on http://localhost:PORT`");
    // Keep reading, so that a server that says more is never blocked.
    thread::spawn(move || lines.for_each(drop));
    (port, Running::App(child))
}

fn serve_files(port: u16, files: Arc<Files>) -> (u16, Running) {
    let listener = TcpListener::bind(("localhost", port)).expect("the port is free");
    let port = listener.local_addr().expect("it is bound").port();
    let stop = Arc::new(AtomicBool::new(false));
    let stopped = Arc::clone(&stop);
    let thread = thread::spawn(move || {
        for stream in listener.incoming() {
            if stopped.load(Ordering::SeqCst) {
                return;
            }
            let (files, stopped) = (Arc::clone(&files), Arc::clone(&stopped));
            // One thread each: the browser opens connections ahead of use.
            thread::spawn(move || stream.map(|stream| answer(stream, &files, &stopped)));
        }
    });
    (port, Running::Files(stop, thread))
}

/// Answers one request and closes; what goes wrong here the browser reports.
fn answer(mut stream: TcpStream, files: &Files, stopped: &AtomicBool) {
    let mut first = String::new();
    let mut reader = BufReader::new(&stream);
    if reader.read_line(&mut first).is_err() {
        return;
    }
    let mut header = String::new();
    while reader.read_line(&mut header).is_ok_and(|read| read > 2) {
        header.clear();
    }
    // A connection opened ahead must not outlive the server.
    if stopped.load(Ordering::SeqCst) {
        return;
    }
    let path = first.split(' ').nth(1).unwrap_or("/");
    let path = path.split('?').next().unwrap_or(path);
    let body = files.get(path).copied();
    let status = if body.is_some() {
        "200 OK"
    } else {
        "404 Not Found"
    };
    let kind = match path.rsplit_once('.') {
        Some((_, "js")) => "text/javascript",
        Some((_, "ico")) => "image/x-icon",
        _ => "text/html",
    };
    let body = body.unwrap_or("not here");
    let _ = write!(
        stream,
        "HTTP/1.1 {status}\r\nContent-Type: {kind}; charset=utf-8\r\nContent-Length: {}\r\nConnection: close\r\n\r\n{body}",
        body.len()
    );
    let _ = stream.flush();
}

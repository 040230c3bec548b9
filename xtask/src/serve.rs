//! The commands `run` and `serve`.

use std::io::{ErrorKind, Write};
use std::net::{Ipv4Addr, TcpListener};
use std::path::Path;

use anyhow::{Context, Result, anyhow, bail};

use crate::app;
use crate::options::Profile;
use crate::server;
use crate::tools::Tree;

/// Builds the app and serves it. The port is taken first, so that a busy one is told at once.
pub fn run(port: u16, profile: Profile) -> Result<()> {
    let listener = listen(port)?;
    let tree = Tree::find()?;
    let dist = app::build(&tree, profile)?;
    let port = listener.local_addr()?.port();
    announce(port, &dist)?;
    println!("  the app:            http://localhost:{port}/");
    println!("  with a sample job:  http://localhost:{port}/?sample");
    println!(
        "  on a phone by USB:  adb reverse tcp:{port} tcp:{port}, then the same address there"
    );
    println!("                      (sensors and camera need a secure context: localhost is one)");
    println!("Ctrl+C stops.");
    Ok(server::serve_forever(&listener, &dist)?)
}

/// Serves a folder that was built before.
pub fn serve(dist: &Path, port: u16) -> Result<()> {
    if !dist.join("index.html").is_file() {
        bail!(
            "{} has no index.html: `cargo xtask dist` builds one",
            dist.display()
        );
    }
    let listener = listen(port)?;
    announce(listener.local_addr()?.port(), dist)?;
    Ok(server::serve_forever(&listener, dist)?)
}

fn listen(port: u16) -> Result<TcpListener> {
    TcpListener::bind((Ipv4Addr::LOCALHOST, port)).map_err(|error| match error.kind() {
        ErrorKind::AddrInUse => {
            anyhow!("port {port} is busy: stop what listens there, or --port N")
        }
        _ => anyhow!(error).context(format!("cannot listen on port {port}")),
    })
}

/// The first line on standard output, at once, for whoever started us.
fn announce(port: u16, dist: &Path) -> Result<()> {
    let mut out = std::io::stdout();
    writeln!(out, "listening on http://localhost:{port}")?;
    out.flush().context("cannot write to standard output")?;
    eprintln!("xtask: serving {}", dist.display());
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_busy_port_is_told_in_one_line() {
        let first = listen(0).unwrap();
        let port = first.local_addr().unwrap().port();
        let said = listen(port).unwrap_err().to_string();
        assert_eq!(
            said,
            format!("port {port} is busy: stop what listens there, or --port N")
        );
    }

    #[test]
    fn a_folder_without_a_first_page_is_refused() {
        let said = serve(Path::new("no/such/folder"), 0)
            .unwrap_err()
            .to_string();
        assert!(
            said.starts_with("no/such/folder has no index.html"),
            "{said}"
        );
    }
}

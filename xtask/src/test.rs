//! The command `test`: every suite is tried, whatever happened before it.

use std::ffi::OsString;
use std::io::{BufRead, BufReader};
use std::path::PathBuf;
use std::process::{Command, ExitCode, Stdio};
use std::time::{Duration, Instant};

use anyhow::{Context, Result};

use crate::options::{Language, Profile};
use crate::suites::Suite;
use crate::tally::{Ending, Tally};
use crate::tools::{self, Tree, WASM};
use crate::{android, app, bindings, chrome, poppler, venv};

/// Names the interpreter for oracles; when set before, it is used instead of `target/venv`.
pub const PYTHON: &str = "RAKELINE_PYTHON";

/// Runs the suites named, all when none is; the last line is the plain sum.
pub fn run(named: &[Suite]) -> Result<ExitCode> {
    let tree = Tree::find()?;
    let suites = if named.is_empty() { &Suite::ALL } else { named };
    let mut done: Vec<(Suite, Tally, Duration)> = Vec::new();
    for suite in suites.iter().copied() {
        println!("== {}", suite.name());
        let start = Instant::now();
        let tally = try_suite(&tree, suite).unwrap_or_else(|fault| {
            println!("xtask: {}: {fault:#}", suite.name());
            Tally::FAIL
        });
        let time = start.elapsed();
        println!("== {}: {tally}, {:.1} s", suite.name(), time.as_secs_f64());
        done.push((suite, tally, time));
    }
    let total: Duration = done.iter().map(|(.., time)| *time).sum();
    println!();
    for (suite, tally, time) in &done {
        let note = match tally {
            Tally {
                passed: 0,
                failed: 0,
            } => " (no test in it)",
            _ => "",
        };
        println!(
            "{:<10} {:>7.1} s  {tally}{note}",
            suite.name(),
            time.as_secs_f64()
        );
    }
    println!("{:<10} {:>7.1} s", "all", total.as_secs_f64());
    let sum: Tally = done.iter().map(|(_, tally, _)| *tally).sum();
    println!("{sum}");
    Ok(match sum {
        Tally {
            passed: 1..,
            failed: 0,
        } => ExitCode::SUCCESS,
        _ => ExitCode::FAILURE,
    })
}

fn try_suite(tree: &Tree, suite: Suite) -> Result<Tally> {
    match suite {
        Suite::Fmt => check(tree.cargo().args(["fmt", "--all", "--", "--check"])),
        Suite::Clippy => clippy(tree),
        Suite::Android => android::check(tree),
        Suite::Unit => cargo_test(tree, suite, &["--lib", "--bins"]),
        _ => cargo_test(tree, suite, &["--test", suite.name()]),
    }
}

fn clippy(tree: &Tree) -> Result<Tally> {
    tools::ensure_wasm_target(tree)?;
    let lint = |args: &[&str]| {
        let mut cargo = tree.cargo();
        cargo
            .arg("clippy")
            .args(args)
            .args(["--", "-D", "warnings"]);
        check(&mut cargo)
    };
    let native = lint(&["--workspace", "--all-targets", "--all-features"])?;
    // The app as it is built, then with all that its worker takes.
    let wasm = lint(&["-p", "rakeline", "--target", WASM])?;
    let wasm = match wasm {
        Tally::PASS => lint(&["-p", "rakeline", "--target", WASM, "--features", "worker"])?,
        failed => failed,
    };
    // One check, of which each half can fail it.
    Ok(if native == Tally::PASS { wasm } else { native })
}

fn check(command: &mut Command) -> Result<Tally> {
    let status = command.status().context("cannot start cargo")?;
    Ok(if status.success() {
        Tally::PASS
    } else {
        Tally::FAIL
    })
}

/// All test suites are built with the same packages and features, so that nothing compiles twice.
fn cargo_test(tree: &Tree, suite: Suite, targets: &[&str]) -> Result<Tally> {
    let mut cargo = tree.cargo();
    cargo.args(["test", "--workspace", "--all-features", "--no-fail-fast"]);
    let settings = settings(tree, suite)?;
    cargo.args(targets).envs(settings.clone());
    if suite != Suite::Browser {
        return counted(&mut cargo);
    }
    let (first, failed) = counted_by_name(&mut cargo)?;
    let all_named = u64::try_from(failed.len()).is_ok_and(|named| named == first.failed);
    if failed.is_empty() || !all_named {
        return Ok(first);
    }
    // A real browser on a busy machine may miss its moment. Each journey that
    // failed gets one more run, alone; what fails twice has failed.
    println!("xtask: once more, alone: {}", failed.join(", "));
    let mut again = tree.cargo();
    again
        .args(["test", "--workspace", "--all-features", "--no-fail-fast"])
        .args(targets)
        .envs(settings)
        .args(["--", "--exact", "--test-threads", "1"])
        .args(&failed);
    let second = counted(&mut again)?;
    Ok(Tally {
        passed: first.passed + second.passed,
        failed: second.failed,
    })
}

/// As [`counted`], with the names of the tests that failed.
fn counted_by_name(command: &mut Command) -> Result<(Tally, Vec<String>)> {
    let (mut tallies, mut failed) = (Vec::new(), Vec::new());
    let ending = streamed(command, |line| {
        tallies.extend(Tally::read(line));
        failed.extend(failed_name(line));
    })?;
    let tally = tallies.into_iter().sum::<Tally>().with_ending(ending);
    Ok((tally, failed))
}

/// The test that a line of the runner reports as failed.
fn failed_name(line: &str) -> Option<String> {
    let name = line.strip_prefix("test ")?.strip_suffix(" ... FAILED")?;
    Some(name.to_owned())
}

/// What the tests of a suite are told by environment variables.
fn settings(tree: &Tree, suite: Suite) -> Result<Vec<(&'static str, OsString)>> {
    let mut settings = Vec::new();
    if suite.asks_python() {
        settings.push((PYTHON, python(tree)?.into()));
    }
    if suite == Suite::Ffi {
        let written = bindings::write(tree, Language::Python)?;
        settings.push(("RAKELINE_BINDINGS", written.into()));
    }
    if suite.reads_pdfs() {
        poppler::ensure()?;
    }
    if suite == Suite::Browser {
        settings.extend(browser_settings(tree)?);
    }
    Ok(settings)
}

/// The interpreter that oracles run with.
pub fn python(tree: &Tree) -> Result<PathBuf> {
    match std::env::var_os(PYTHON) {
        Some(named) if !named.is_empty() => Ok(named.into()),
        _ => venv::ensure(tree),
    }
}

/// A fresh build of the app, this program as its server, and a browser.
pub fn browser_settings(tree: &Tree) -> Result<Vec<(&'static str, OsString)>> {
    let chrome = chrome::ensure()?;
    let dist = app::build(tree, Profile::Web)?;
    let server = std::env::current_exe().context("cannot tell where xtask lies")?;
    Ok(vec![
        ("CHROME", chrome.into()),
        ("RAKELINE_DIST", dist.into()),
        ("RAKELINE_XTASK", server.into()),
    ])
}

/// Runs a test command with its output shown and its result lines counted.
fn counted(command: &mut Command) -> Result<Tally> {
    let mut tallies = Vec::new();
    let ending = streamed(command, |line| tallies.extend(Tally::read(line)))?;
    Ok(tallies.into_iter().sum::<Tally>().with_ending(ending))
}

/// Runs a command, prints each line of its standard output as it comes and hands it on.
pub fn streamed(command: &mut Command, mut each: impl FnMut(&str)) -> Result<Ending> {
    let mut child = command
        .stdin(Stdio::null())
        .stdout(Stdio::piped())
        .spawn()
        .context("cannot start cargo")?;
    if let Some(out) = child.stdout.take() {
        for line in BufReader::new(out).split(b'\n') {
            let line = line?;
            let line = String::from_utf8_lossy(&line);
            println!("{line}");
            each(&line);
        }
    }
    let status = child.wait()?;
    Ok(if status.success() {
        Ending::Good
    } else {
        Ending::Bad
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shell(script: &str) -> Tally {
        counted(Command::new("sh").args(["-c", script])).unwrap()
    }

    #[test]
    fn results_of_several_programs_are_added() {
        let script = "echo 'test result: ok. 2 passed; 0 failed; 0 ignored'; \
                      echo 'test result: FAILED. 1 passed; 1 failed; 0 ignored'; exit 101";
        let wanted = Tally {
            passed: 3,
            failed: 1,
        };
        assert_eq!(shell(script), wanted);
    }

    #[test]
    fn a_failed_test_is_read_by_its_name() {
        let line = "test kept::a_reload_loses_nothing ... FAILED";
        assert_eq!(
            failed_name(line).as_deref(),
            Some("kept::a_reload_loses_nothing")
        );
        assert_eq!(
            failed_name("test kept::a_reload_loses_nothing ... ok"),
            None
        );
        assert_eq!(failed_name("test result: FAILED. 1 passed"), None);
    }

    #[test]
    fn a_command_that_ends_badly_counts_as_failed() {
        assert_eq!(shell("exit 101"), Tally::FAIL);
    }
}

//! The command `bench`: each suite is a bench target of the tests package with a plain `main`.

use std::process::ExitCode;

use anyhow::{Result, bail};

use crate::android;
use crate::app;
use crate::bars::{self, Bar};
use crate::espeak;
use crate::options::Effort;
use crate::tally::Ending;
use crate::test::{self, PYTHON};
use crate::tools::{Bench, Tree};

/// The suites that measure the app in a browser.
const IN_BROWSER: [&str; 8] = [
    "first", "kit", "markout", "coverage", "learn", "photo", "storage", "again",
];

/// The suite of the Android package: it builds for phones and asks a JVM.
const ANDROID: &str = "android";

/// The suite that listens to speech.
const HEARS_SPEECH: &str = "learn";

/// The suite that times the mark-out in the browser, as a module of its own.
const SOLVES: &str = "markout";

/// The suite that weighs the app and needs no oracle.
const WEIGHED: &str = "first";

/// Runs the suites named, all when none is.
pub fn run(named: &[String], effort: Effort) -> Result<ExitCode> {
    let tree = Tree::find()?;
    if tree.benches.is_empty() {
        bail!("there is no bench: tests/Cargo.toml has no [[bench]]");
    }
    let mut benches = tree.benches.iter().collect::<Vec<_>>();
    let android = Bench {
        name: ANDROID.to_owned(),
        features: String::new(),
    };
    benches.push(&android);
    let suites = chosen(&benches, named)?;
    let mut faults = Vec::new();
    let mut held = 0;
    for suite in suites {
        println!("== {}", suite.name);
        let name = &suite.name;
        match try_suite(&tree, suite, effort) {
            Ok(report) => {
                held += report.held;
                faults.extend(
                    report
                        .faults
                        .into_iter()
                        .map(|fault| format!("{name}: {fault}")),
                );
            }
            Err(fault) => faults.push(format!("{name}: {fault:#}")),
        }
    }
    println!();
    for fault in &faults {
        println!("{fault}");
    }
    println!("{held} bars ok, {} faults", faults.len());
    Ok(if faults.is_empty() {
        ExitCode::SUCCESS
    } else {
        ExitCode::FAILURE
    })
}

/// The benches named, all when none is.
fn chosen<'a>(benches: &[&'a Bench], named: &[String]) -> Result<Vec<&'a Bench>> {
    if named.is_empty() {
        // The package for phones is built for its bench alone: by its name only.
        let all = benches.iter().copied();
        return Ok(all.filter(|bench| bench.name != ANDROID).collect());
    }
    let find = |name: &String| match benches.iter().copied().find(|bench| bench.name == *name) {
        Some(bench) => Ok(bench),
        None => {
            let names: Vec<&str> = benches.iter().map(|bench| &*bench.name).collect();
            bail!("unknown bench '{name}'; there are: {}", names.join(", "));
        }
    };
    named.iter().map(find).collect()
}

/// What a suite printed.
#[derive(Default)]
struct Report {
    held: u32,
    faults: Vec<String>,
}

impl Report {
    fn note(&mut self, line: &str) {
        match bars::read(line) {
            None => {}
            Some(Ok(Bar::Ok)) => self.held += 1,
            Some(Ok(Bar::Short)) => self.faults.push(line.to_owned()),
            Some(Err(fault)) => self.faults.push(format!("{fault:#}")),
        }
    }

    fn close(mut self, ending: Ending) -> Self {
        if self.held == 0 && self.faults.is_empty() {
            self.faults.push("it printed no bar".to_owned());
        }
        if ending == Ending::Bad {
            self.faults
                .push("it failed; see the lines above".to_owned());
        }
        self
    }
}

fn try_suite(tree: &Tree, suite: &Bench, effort: Effort) -> Result<Report> {
    if suite.name == ANDROID {
        let mut report = Report::default();
        let fault = android::bench::run(tree, effort, &mut |line| {
            println!("{line}");
            report.note(line);
        });
        if let Err(fault) = fault {
            report.faults.push(format!("{fault:#}"));
        }
        return Ok(report.close(Ending::Good));
    }
    let mut cargo = tree.cargo();
    cargo.args(["bench", "-p", "rakeline-tests", "--bench", &suite.name]);
    cargo.args(["--features", &suite.features]);
    if effort == Effort::Quick {
        cargo.args(["--", "--quick"]);
    }
    if suite.name == HEARS_SPEECH {
        espeak::ensure()?;
    }
    if IN_BROWSER.contains(&suite.name.as_str()) {
        let settings = test::browser_settings(tree)?;
        let dist = settings.iter().find(|(name, _)| *name == "RAKELINE_DIST");
        if let Some((_, dist)) = dist
            && suite.name == WEIGHED
        {
            let weight = app::weigh(tree, dist.as_ref())?;
            println!("{}", weight.table);
            cargo.env(
                "RAKELINE_DIST_BROTLI_BYTES",
                weight.brotli_bytes.to_string(),
            );
        }
        if let Some((_, dist)) = dist
            && suite.name == SOLVES
        {
            app::add_solver(tree, dist.as_ref())?;
        }
        cargo.envs(settings);
    }
    if suite.name != WEIGHED {
        cargo.env(PYTHON, test::python(tree)?);
    }
    let mut report = Report::default();
    let ending = test::streamed(&mut cargo, |line| report.note(line))?;
    Ok(report.close(ending))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_suite_without_a_bar_is_at_fault() {
        let report = Report::default().close(Ending::Good);
        assert_eq!(report.faults, ["it printed no bar"]);
    }

    #[test]
    fn a_short_bar_and_a_crash_are_both_told() {
        let mut report = Report::default();
        report.note("bar a 1 <= 2 ok");
        report.note("bar b 3 <= 2 short");
        let report = report.close(Ending::Bad);
        assert_eq!(report.held, 1);
        let wanted = ["bar b 3 <= 2 short", "it failed; see the lines above"];
        assert_eq!(report.faults, wanted);
    }
}

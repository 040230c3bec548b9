//! What can be asked on the command line, parsed into a [`Command`].

use std::ffi::OsString;
use std::path::PathBuf;

use anyhow::{Context, Result, anyhow, bail};
use lexopt::prelude::*;

use crate::suites::Suite;

/// Port of `run` when none is named.
pub const PORT: u16 = 8787;

/// Printed by `cargo xtask help`.
pub const HELP: &str = "\
cargo xtask run [--port N] [--debug]          build the app and serve it (port 8787)
cargo xtask serve --dist DIR [--port N]       serve a built app; port 0 takes a free one
cargo xtask dist [--debug]                    build the app, print its sizes
cargo xtask bindings python|kotlin            the core for other languages, in target/<language>
cargo xtask android-check                     the Android package, as far as it goes without a phone
cargo xtask android-host DIR                  our Kotlin into the Gradle project that dx wrote
cargo xtask venv                              Python for the oracles of the tests, in target/venv
cargo xtask test [SUITE...]                   fmt, clippy, unit, published, workflow, ffi, tidy, android, browser
cargo xtask bench [SUITE...] [--quick]        measure against the limits, tests/benches/<suite>.rs";

/// One parsed command line.
#[derive(Debug, PartialEq, Eq)]
pub enum Command {
    /// Print [`HELP`].
    Help,
    /// Build and serve.
    Run { port: u16, profile: Profile },
    /// Serve only.
    Serve { dist: PathBuf, port: u16 },
    /// Build only.
    Dist { profile: Profile },
    /// Make the Python environment.
    Venv,
    /// Write the core for another language.
    Bindings { language: Language },
    /// Check the Android package.
    AndroidCheck,
    /// Put the host into a Gradle project.
    AndroidHost { project: PathBuf },
    /// Run these suites, all when none is named.
    Test { suites: Vec<Suite> },
    /// Run these benches, all when none is named.
    Bench { suites: Vec<String>, effort: Effort },
}

/// How the app is compiled.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Profile {
    /// Small, as shipped.
    Web,
    /// Quick to build, with checks.
    Dev,
}

impl Profile {
    /// Name for cargo's `--profile`.
    pub fn name(self) -> &'static str {
        match self {
            Self::Web => "web",
            Self::Dev => "dev",
        }
    }

    /// Cargo's folder for what it builds.
    pub fn folder(self) -> &'static str {
        match self {
            Self::Web => "web",
            Self::Dev => "debug",
        }
    }
}

/// A language that the core is written for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Language {
    /// For scripts.
    Python,
    /// For Android and the JVM.
    Kotlin,
}

impl Language {
    /// As named on the command line.
    pub fn name(self) -> &'static str {
        match self {
            Self::Python => "python",
            Self::Kotlin => "kotlin",
        }
    }

    fn named(words: &[String]) -> Result<Self> {
        match words {
            [word] if word == "python" => Ok(Self::Python),
            [word] if word == "kotlin" => Ok(Self::Kotlin),
            _ => bail!("bindings wants one language: python or kotlin"),
        }
    }
}

/// How many repeats a bench does.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Effort {
    /// The counts that the limits are stated for.
    Full,
    /// The same figures within two minutes a suite.
    Quick,
}

/// Options as they were met, before a command looks at them.
#[derive(Default)]
struct Found {
    words: Vec<String>,
    port: Option<u16>,
    dist: Option<PathBuf>,
    debug: Option<()>,
    quick: Option<()>,
}

/// Parses the arguments after the program's name.
pub fn parse<I>(args: I) -> Result<Command>
where
    I: IntoIterator,
    I::Item: Into<OsString>,
{
    let mut parser = lexopt::Parser::from_args(args);
    let name = match parser.next()? {
        None | Some(Long("help") | Short('h')) => return Ok(Command::Help),
        Some(Value(word)) => text(word)?,
        Some(other) => return Err(other.unexpected().into()),
    };
    let allowed: &[&str] = match name.as_str() {
        "help" => return Ok(Command::Help),
        "run" => &["port", "debug"],
        "serve" => &["dist", "port"],
        "dist" => &["debug"],
        "venv" | "android-check" => &[],
        "bindings" | "android-host" => &["SUITE"],
        "test" => &["SUITE"],
        "bench" => &["SUITE", "quick"],
        _ => bail!("unknown command '{name}'; `cargo xtask help` lists them"),
    };
    let found = collect(&mut parser, &name, allowed)?;
    let profile = found.debug.map_or(Profile::Web, |()| Profile::Dev);
    Ok(match name.as_str() {
        "run" => Command::Run {
            port: found.port.unwrap_or(PORT),
            profile,
        },
        "serve" => Command::Serve {
            dist: found
                .dist
                .ok_or_else(|| anyhow!("serve needs --dist DIR"))?,
            port: found.port.unwrap_or(PORT),
        },
        "dist" => Command::Dist { profile },
        "venv" => Command::Venv,
        "android-check" => Command::AndroidCheck,
        "android-host" => Command::AndroidHost {
            project: match &found.words[..] {
                [project] => project.into(),
                _ => bail!("android-host wants the folder of the Gradle project"),
            },
        },
        "bindings" => Command::Bindings {
            language: Language::named(&found.words)?,
        },
        "test" => Command::Test {
            suites: found
                .words
                .iter()
                .map(|word| Suite::named(word))
                .collect::<Result<_>>()?,
        },
        _ => Command::Bench {
            suites: found.words,
            effort: found.quick.map_or(Effort::Full, |()| Effort::Quick),
        },
    })
}

fn collect(parser: &mut lexopt::Parser, command: &str, allowed: &[&str]) -> Result<Found> {
    let mut found = Found::default();
    while let Some(arg) = parser.next()? {
        let (shown, key) = match &arg {
            Long(name) => (format!("--{name}"), (*name).to_owned()),
            Short(letter) => (format!("-{letter}"), format!("-{letter}")),
            Value(word) => (word.to_string_lossy().into_owned(), "SUITE".to_owned()),
        };
        if !allowed.contains(&key.as_str()) {
            bail!("{command} does not know '{shown}'; `cargo xtask help` lists the options");
        }
        match arg {
            Value(word) => found.words.push(text(word)?),
            Long("port") => found.port = Some(port(&text(parser.value()?)?)?),
            Long("dist") => found.dist = Some(parser.value()?.into()),
            Long("debug") => found.debug = Some(()),
            Long("quick") => found.quick = Some(()),
            other => return Err(other.unexpected().into()),
        }
    }
    Ok(found)
}

fn port(word: &str) -> Result<u16> {
    word.parse()
        .with_context(|| format!("--port wants a number from 0 to 65535, not '{word}'"))
}

fn text(word: OsString) -> Result<String> {
    word.into_string()
        .map_err(|word| anyhow!("'{}' is not readable text", word.to_string_lossy()))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn parsed(line: &str) -> Result<Command> {
        parse(line.split_whitespace())
    }

    fn refusal(line: &str) -> String {
        format!("{:#}", parsed(line).unwrap_err())
    }

    #[test]
    fn run_takes_the_usual_port_and_the_shipped_profile() {
        assert_eq!(
            parsed("run").unwrap(),
            Command::Run {
                port: 8787,
                profile: Profile::Web
            }
        );
    }

    #[test]
    fn run_takes_another_port_and_the_quick_profile() {
        assert_eq!(
            parsed("run --port 9000 --debug").unwrap(),
            Command::Run {
                port: 9000,
                profile: Profile::Dev
            }
        );
    }

    #[test]
    fn serve_wants_to_know_the_folder() {
        assert_eq!(refusal("serve --port 0"), "serve needs --dist DIR");
        assert_eq!(
            parsed("serve --dist some/where --port=0").unwrap(),
            Command::Serve {
                dist: "some/where".into(),
                port: 0
            }
        );
    }

    #[test]
    fn suites_come_in_the_order_named() {
        assert_eq!(
            parsed("test tidy fmt").unwrap(),
            Command::Test {
                suites: vec![Suite::Tidy, Suite::Fmt]
            }
        );
    }

    #[test]
    fn a_bench_may_be_named_and_hurried() {
        assert_eq!(
            parsed("bench first --quick").unwrap(),
            Command::Bench {
                suites: vec!["first".into()],
                effort: Effort::Quick
            }
        );
    }

    #[test]
    fn what_is_unknown_is_named_in_one_line() {
        for (line, named) in [
            ("launch", "unknown command 'launch'"),
            ("run --fast", "run does not know '--fast'"),
            ("run now", "run does not know 'now'"),
            ("dist --port 1", "dist does not know '--port'"),
            ("bindings", "python or kotlin"),
            ("bindings perl", "python or kotlin"),
            ("test everything", "unknown suite 'everything'"),
            ("run --port many", "not 'many'"),
            ("run --port 70000", "not '70000'"),
            ("run --port", "--port"),
        ] {
            let said = refusal(line);
            assert!(said.contains(named), "{line}: {said}");
            assert_eq!(said.lines().count(), 1, "{line}: {said}");
        }
    }
}

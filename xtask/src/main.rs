//! The commands for working on Rakeline: `cargo xtask help` lists them.
//!
//! Where to start: [`options`] says what can be asked, each command has a module of its name.

mod android;
mod app;
mod bars;
mod bench;
mod bindings;
mod chrome;
mod dist;
mod espeak;
mod options;
mod poppler;
mod serve;
mod server;
mod suites;
mod tally;
mod test;
mod tools;
mod venv;

use std::process::ExitCode;

use options::Command;

fn main() -> ExitCode {
    let done = options::parse(std::env::args_os().skip(1)).and_then(carry_out);
    match done {
        Ok(code) => code,
        Err(fault) => {
            eprintln!("xtask: {fault:#}");
            ExitCode::FAILURE
        }
    }
}

fn carry_out(command: Command) -> anyhow::Result<ExitCode> {
    match command {
        Command::Help => println!("{}", options::HELP),
        Command::Run { port, profile } => serve::run(port, profile)?,
        Command::Serve { dist, port } => serve::serve(&dist, port)?,
        Command::Dist { profile } => app::build_and_weigh(profile)?,
        Command::Venv => println!("{}", venv::ensure(&tools::Tree::find()?)?.display()),
        Command::AndroidCheck => {
            let tally = android::check(&tools::Tree::find()?)?;
            println!("{tally}");
            if tally.failed > 0 {
                return Ok(ExitCode::FAILURE);
            }
        }
        Command::AndroidHost { project } => {
            android::host::put(&tools::Tree::find()?, &project)?;
        }
        Command::Bindings { language } => {
            println!(
                "{}",
                bindings::write(&tools::Tree::find()?, language)?.display()
            );
        }
        Command::Test { suites } => return test::run(&suites),
        Command::Bench { suites, effort } => return bench::run(&suites, effort),
    }
    Ok(ExitCode::SUCCESS)
}

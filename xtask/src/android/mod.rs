//! The command `android-check`: the Android package as far as it goes on a
//! machine without an Android SDK, NDK, emulator or phone.
//!
//! Every step says what it proves; what is not proved stands at the end. Tools
//! come from package registries and are kept in `target/android`.

pub mod bench;
mod elf;
pub mod host;
mod jvm;
mod link;
mod package;
mod stubs;
mod symbols;
mod tools;

use std::path::PathBuf;
use std::time::Instant;

use anyhow::Result;

use crate::tally::Tally;
use crate::tools::Tree;

/// The target that phones have.
pub const ARM: &str = "aarch64-linux-android";

/// Where things of the check lie.
pub struct Place {
    /// What is kept from one check to the next.
    pub kept: PathBuf,
    /// The host written in Kotlin.
    pub host: PathBuf,
}

impl Place {
    fn of(tree: &Tree) -> Self {
        Self {
            kept: tree.target.join("android"),
            host: tree.root.join("mobile/android"),
        }
    }
}

/// One step: its name, what it proves when it passes.
struct Step {
    name: &'static str,
    proves: &'static str,
    run: fn(&Tree, &Place) -> Result<String>,
}

const STEPS: [Step; 6] = [
    Step {
        name: "link",
        proves: "the package's library compiles for phones, passes the linter and links (unwinder \
                 and system libraries are stand-ins)",
        run: link::run,
    },
    Step {
        name: "elf",
        proves: "needed libraries, 16 KiB pages, and every function that the Kotlin sides call by \
                 name are right in the linked file; it uses no symbol that Android 9 lacks \
                 (of libandroid by its headers, of liblog by hand)",
        run: elf::run,
    },
    Step {
        name: "stubs",
        proves: "every Android member that our Kotlin touches is in the public typings, no later \
                 than Android 9, with the constants as given",
        run: stubs::run,
    },
    Step {
        name: "package",
        proves: "manifest and resources compile; permissions, exported parts and SDK versions are \
                 the ones meant (without a dexer, so nothing that could run)",
        run: package::run,
    },
    Step {
        name: "kotlin",
        proves: "the generated Kotlin and our own compile",
        run: jvm::compile,
    },
    Step {
        name: "jvm",
        proves: "Kotlin drives the real core and the app's devices on a JVM: same values as Rust, \
                 batches from threads, faults, a process death (no Android class takes part)",
        run: jvm::test,
    },
];

/// Runs all steps; a step that needs one that failed fails too.
pub fn check(tree: &Tree) -> Result<Tally> {
    let place = Place::of(tree);
    let (mut passed, mut failed) = (0, 0);
    for step in &STEPS {
        let start = Instant::now();
        match (step.run)(tree, &place) {
            Ok(found) => {
                passed += 1;
                println!(
                    "android-check {} ... ok, {:.0} s: {found}\n  proves: {}",
                    step.name,
                    start.elapsed().as_secs_f64(),
                    step.proves
                );
            }
            Err(fault) => {
                failed += 1;
                println!("android-check {} ... FAILED: {fault:#}", step.name);
            }
        }
    }
    println!(
        "android-check proves nothing about: sensors, camera, microphone, storage and sharing on a \
         phone; the web view; dexing, Gradle and R8; the NDK's own unwinder. See the list of device \
         tests in mobile/android/README.md."
    );
    Ok(Tally { passed, failed })
}

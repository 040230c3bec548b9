//! Building the web app: cargo for wasm, then the `bundle` program of this package, then the
//! assets.

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use anyhow::{Context, Result, bail};

use crate::dist;
use crate::options::Profile;
use crate::tools::{self, Tree, WASM};

/// A wasm module: of the web app, or of a bench.
struct Module {
    package: &'static str,
    bin: &'static str,
    features: &'static [&'static str],
}

/// What the first screen needs, and what comes later beside it. Each is built with its own
/// features, so that nothing heavy gets into the first.
const MODULES: [Module; 2] = [
    Module {
        package: "rakeline",
        bin: "app",
        features: &[],
    },
    Module {
        package: "rakeline",
        bin: "worker",
        features: &["--features", "worker"],
    },
];

/// The mark-out on its own, for the bench that times it.
const SOLVER: Module = Module {
    package: "rakeline-in-wasm",
    bin: "solver",
    features: &[],
};

/// Builds everything into `target/dist/<profile>` and gives that folder.
pub fn build(tree: &Tree, profile: Profile) -> Result<PathBuf> {
    tools::ensure_wasm_target(tree)?;
    eprintln!(
        "xtask: 1 of 3, compiling the app and its worker (profile {})",
        profile.name()
    );
    for module in &MODULES {
        compile(tree, profile, module)?;
    }

    eprintln!("xtask: 2 of 3, compiling the bundler");
    let bundle = bundler(tree)?;

    let dist = tree.target.join("dist").join(profile.name());
    eprintln!("xtask: 3 of 3, writing {}", dist.display());
    dist::emptied(&dist)?;
    for module in &MODULES {
        bind(tree, &bundle, profile, module, &dist)?;
    }
    dist::furnish(&tree.root.join("assets"), &dist)?;
    Ok(dist)
}

/// Puts the mark-out, built as the app is, beside a built app.
pub fn add_solver(tree: &Tree, dist: &Path) -> Result<()> {
    compile(tree, Profile::Web, &SOLVER)?;
    bind(tree, &bundler(tree)?, Profile::Web, &SOLVER, dist)
}

fn compile(tree: &Tree, profile: Profile, module: &Module) -> Result<()> {
    let mut cargo = tree.cargo();
    cargo.args(["build", "-p", module.package, "--bin", module.bin]);
    cargo.args(["--target", WASM, "--profile", profile.name()]);
    cargo.args(module.features);
    tools::must(&mut cargo, &format!("building the {}", module.bin))
}

fn bind(tree: &Tree, bundle: &Path, profile: Profile, module: &Module, dist: &Path) -> Result<()> {
    let built = tree.target.join(WASM).join(profile.folder());
    let mut command = Command::new(bundle);
    command.arg("bind");
    command.arg(built.join(module.bin).with_extension("wasm"));
    tools::must(command.arg(dist), "wasm-bindgen")
}

/// Builds and prints the sizes.
pub fn build_and_weigh(profile: Profile) -> Result<()> {
    let tree = Tree::find()?;
    let dist = build(&tree, profile)?;
    // A debug build is not what anybody loads: its weight says nothing.
    if profile == Profile::Web {
        let module = tree
            .target
            .join(WASM)
            .join(profile.folder())
            .join("app.wasm");
        let mut crates = Command::new(bundler(&tree)?);
        tools::must(crates.arg("crates").arg(module), "weighing the crates")?;
        println!("{}", weigh(&tree, &dist)?.table);
    }
    println!("{}", dist.display());
    Ok(())
}

/// What the first start has to load.
pub struct Weight {
    /// One line a file, for people.
    pub table: String,
    /// Module and scripts together, brotli.
    pub brotli_bytes: u64,
}

/// Weighs the module, its script and its snippets.
pub fn weigh(tree: &Tree, dist: &Path) -> Result<Weight> {
    let asked = Command::new(bundler(tree)?)
        .arg("weigh")
        .arg(dist)
        .stderr(Stdio::inherit())
        .output()
        .context("cannot start the bundler")?;
    if !asked.status.success() {
        bail!("weighing the app failed; see the lines above");
    }
    let table = String::from_utf8_lossy(&asked.stdout).trim_end().to_owned();
    let last = table
        .rsplit_once("brotli ")
        .map(|(_, number)| number.trim());
    let brotli_bytes = last
        .and_then(|number| number.parse().ok())
        .context("the bundler printed no sum")?;
    Ok(Weight {
        table,
        brotli_bytes,
    })
}

fn bundler(tree: &Tree) -> Result<PathBuf> {
    let mut cargo = tree.cargo();
    cargo.args([
        "build",
        "-p",
        "xtask",
        "--features",
        "bundle",
        "--bin",
        "bundle",
    ]);
    tools::must(&mut cargo, "building the bundler")?;
    let name = format!("bundle{}", std::env::consts::EXE_SUFFIX);
    Ok(tree.target.join("debug").join(name))
}

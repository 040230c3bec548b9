//! Building the web app: cargo for wasm, then the `bundle` program of this package, then the
//! assets.

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use anyhow::{Context, Result, bail};

use crate::dist;
use crate::options::Profile;
use crate::tools::{self, Tree, WASM};

/// Builds everything into `target/dist/<profile>` and gives that folder.
pub fn build(tree: &Tree, profile: Profile) -> Result<PathBuf> {
    tools::ensure_wasm_target(tree)?;
    eprintln!(
        "xtask: 1 of 3, compiling the app (profile {})",
        profile.name()
    );
    let mut cargo = tree.cargo();
    cargo.args(["build", "-p", "rakeline", "--bin", "app", "--target", WASM]);
    cargo.args(["--profile", profile.name()]);
    tools::must(&mut cargo, "building the app")?;

    eprintln!("xtask: 2 of 3, compiling the bundler");
    let bundle = bundler(tree)?;

    let dist = tree.target.join("dist").join(profile.name());
    eprintln!("xtask: 3 of 3, writing {}", dist.display());
    dist::emptied(&dist)?;
    let module = tree
        .target
        .join(WASM)
        .join(profile.folder())
        .join("app.wasm");
    let mut command = Command::new(bundle);
    command.arg("bind").arg(module).arg(&dist);
    tools::must(&mut command, "wasm-bindgen")?;
    dist::furnish(&tree.root.join("assets"), &dist)?;
    Ok(dist)
}

/// Builds and prints the sizes.
pub fn build_and_weigh(profile: Profile) -> Result<()> {
    let tree = Tree::find()?;
    let dist = build(&tree, profile)?;
    println!("{}", weigh(&tree, &dist)?.table);
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

//! Kotlin: generated, compiled against the few Android classes it touches,
//! and run on a JVM with the real core.

use std::collections::hash_map::DefaultHasher;
use std::fs;
use std::hash::{Hash, Hasher};
use std::path::{Path, PathBuf};
use std::process::Command;

use anyhow::{Context, Result, bail};

use super::tools::{file, files, kotlin_jars, program};
use super::{Place, link, package};
use crate::bindings;
use crate::options::Language;
use crate::tally::Tally;
use crate::tools::{Tree, must};

const JNA: &str = "/usr/share/java/jna.jar";
const JNI: &str = "/usr/lib/x86_64-linux-gnu/jni";
/// What the generated Kotlin calls the library.
const NAME: &str = "main";

/// Kotlin as it is shipped, out of the library for phones.
pub fn shipped_kotlin(tree: &Tree, place: &Place) -> Result<PathBuf> {
    let folder = place.kept.join("kotlin-shipped");
    let library = place.kept.join("libmain.so");
    let linked = link::library(tree);
    fs::copy(&linked, &library).with_context(|| format!("cannot copy {}", linked.display()))?;
    bindings::generate(tree, &library, Language::Kotlin, &folder)?;
    Ok(folder)
}

/// The app's devices and the core for this computer, with the app without a
/// screen that tests open.
fn library(tree: &Tree, place: &Place) -> Result<PathBuf> {
    let mut cargo = tree.cargo();
    cargo.args(["rustc", "-p", "rakeline", "--lib"]);
    cargo.args(["--features", "rehearsal", "--crate-type", "cdylib"]);
    must(&mut cargo, "building the app's devices for this computer")?;
    let folder = place.kept.join("jvm");
    fs::create_dir_all(&folder)?;
    let prefix = std::env::consts::DLL_PREFIX;
    let ending = std::env::consts::DLL_SUFFIX;
    let built = tree.target.join(format!("debug/{prefix}rakeline{ending}"));
    let beside = folder.join(format!("{prefix}{NAME}{ending}"));
    fs::copy(&built, &beside).with_context(|| format!("cannot copy {}", built.display()))?;
    Ok(beside)
}

fn joined(paths: &[PathBuf]) -> String {
    let words: Vec<String> = paths
        .iter()
        .map(|path| path.display().to_string())
        .collect();
    words.join(":")
}

/// What was compiled from what: the same again is not compiled again.
fn stamp(inputs: &[PathBuf]) -> Result<String> {
    let mut hasher = DefaultHasher::new();
    for path in inputs {
        path.file_name().hash(&mut hasher);
        fs::read(path)?.hash(&mut hasher);
    }
    Ok(format!("{:016x}", hasher.finish()))
}

/// Compiles Kotlin unless that was done.
fn kotlinc(tree: &Tree, place: &Place, sources: &[PathBuf], path: &str, into: &Path) -> Result<()> {
    let wanted = stamp(sources)?;
    let kept = into.with_extension("stamp");
    if into.exists() && fs::read_to_string(&kept).is_ok_and(|had| had == wanted) {
        return Ok(());
    }
    let jars = kotlin_jars(tree, place)?;
    let home = place.kept.join("kotlin-home");
    fs::create_dir_all(home.join("lib"))?;
    for library in ["kotlin-stdlib", "kotlin-reflect", "kotlin-script-runtime"] {
        let named = |jar: &&PathBuf| {
            let name = jar.file_name().and_then(|name| name.to_str());
            let rest = name.and_then(|name| name.strip_prefix(library));
            rest.is_some_and(|rest| {
                rest.trim_start_matches('-')
                    .starts_with(|c: char| c.is_ascii_digit())
                    || rest == ".jar"
            })
        };
        let jar = jars.iter().find(named);
        let jar = jar.with_context(|| format!("the wheel holds no {library}"))?;
        fs::copy(jar, home.join(format!("lib/{library}.jar")))?;
    }
    let java = program(&["java"], "openjdk-17-jdk-headless")?;
    let mut compile = Command::new(java);
    compile.args(["-cp", &joined(&jars)]);
    compile.arg("org.jetbrains.kotlin.cli.jvm.K2JVMCompiler");
    compile.arg("-kotlin-home").arg(&home);
    compile.args(["-jvm-target", "17", "-nowarn", "-cp", path]);
    compile.args(sources).arg("-d").arg(into);
    must(&mut compile, "compiling Kotlin")?;
    fs::write(&kept, wanted)?;
    Ok(())
}

fn javac(sources: &[PathBuf], into: &Path) -> Result<()> {
    let javac = program(&["javac"], "openjdk-17-jdk-headless")?;
    fs::create_dir_all(into)?;
    let mut compile = Command::new(javac);
    compile.args(["-nowarn", "-d"]).arg(into).args(sources);
    must(&mut compile, "compiling the stubs")
}

fn jar(place: &Place, name: &str) -> PathBuf {
    place.kept.join("jvm").join(name)
}

/// Generated Kotlin, our own against it, the tests against both.
pub fn compile(tree: &Tree, place: &Place) -> Result<String> {
    let kotlin = |name: &str| name.ends_with(".kt");
    let java = |name: &str| name.ends_with(".java");
    let jna = file(JNA, "libjna-java")?;
    let shipped = files(&shipped_kotlin(tree, place)?, &kotlin)?;
    let library = library(tree, place)?;
    let folder = place.kept.join("kotlin-tested");
    bindings::generate(tree, &library, Language::Kotlin, &folder)?;
    let tested = files(&folder, &kotlin)?;
    let stubs = place.kept.join("jvm/stubs");
    let mut stub_sources = files(&place.host.join("stubs"), &java)?;
    stub_sources.extend(files(&package::resource_class(place), &java)?);
    javac(&stub_sources, &stubs)?;
    let jna = jna.display().to_string();
    let stubs = stubs.display().to_string();
    let generated = jar(place, "generated.jar");
    kotlinc(tree, place, &tested, &jna, &generated)?;
    let mut own = files(&place.host.join("kotlin"), &kotlin)?;
    own.push(place.host.join("MainActivity.kt"));
    let host = jar(place, "host.jar");
    let path = format!("{}:{jna}:{stubs}", generated.display());
    kotlinc(tree, place, &own, &path, &host)?;
    // What is shipped differs by the app without a screen only.
    let alone = jar(place, "shipped.jar");
    kotlinc(tree, place, &shipped, &jna, &alone)?;
    let tests = files(&place.host.join("test"), &kotlin)?;
    let path = format!("{}:{path}", host.display());
    kotlinc(tree, place, &tests, &path, &jar(place, "tests.jar"))?;
    Ok(format!(
        "{} generated files and {} of our own",
        shipped.len(),
        own.len()
    ))
}

/// The JVM with everything on its path.
pub fn java(tree: &Tree, place: &Place, what: &str) -> Result<Command> {
    let jna = file(JNA, "libjna-java")?;
    let home = place.kept.join("kotlin-home/lib/kotlin-stdlib.jar");
    let named = ["tests.jar", "host.jar", "generated.jar", "stubs"];
    let mut path: Vec<PathBuf> = named.iter().map(|name| jar(place, name)).collect();
    path.extend([jna, home]);
    let java = program(&["java"], "openjdk-17-jdk-headless")?;
    let mut run = Command::new(java);
    let jvm = place.kept.join("jvm");
    run.arg(format!("-Djna.library.path={}", jvm.display()));
    run.arg(format!("-Djna.boot.library.path={JNI}"));
    run.args(["-Djava.awt.headless=true", "-cp", &joined(&path)]);
    run.args(["app.rakeline.test.MainKt", what]);
    run.arg(&tree.root).arg(jvm.join("scratch"));
    Ok(run)
}

/// Runs the tests on a JVM.
pub fn test(tree: &Tree, place: &Place) -> Result<String> {
    let mut tallies = Vec::new();
    let ending = crate::test::streamed(&mut java(tree, place, "test")?, |line| {
        tallies.extend(Tally::read(line));
    })?;
    let tally = tallies.into_iter().sum::<Tally>().with_ending(ending);
    if tally.failed > 0 || tally.passed == 0 {
        bail!("{tally}");
    }
    Ok(tally.to_string())
}

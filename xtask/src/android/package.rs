//! Manifest and resources, compiled and read back.

use std::fs;
use std::path::PathBuf;
use std::process::Command;

use anyhow::{Context, Result, bail};

use super::Place;
use super::symbols::LEAST_LEVEL;
use super::tools::{aapt2, file};
use crate::tools::{Tree, must};

/// Debian's Android classes' resources: of Android 10.
const FRAMEWORK: &str = "/usr/share/android-framework-res/framework-res.apk";
/// The level that the package is meant for.
const TARGET_LEVEL: u32 = 35;
/// All that may be asked of the fitter.
const PERMISSIONS: [&str; 3] = [
    "android.permission.CAMERA",
    "android.permission.RECORD_AUDIO",
    "android.permission.VIBRATE",
];
/// What a later framework or a library would bring: for this check only.
const OVERLAY: &str = "<?xml version=\"1.0\" encoding=\"utf-8\"?>\n<resources>\n\
     <string name=\"app_name\">Rakeline</string>\n<style name=\"Theme.AppCompat.Light.NoActionBar\" \
     parent=\"@android:style/Theme.Material.Light.NoActionBar\" />\n</resources>\n";

/// Where the class of the resources' numbers is written.
pub fn resource_class(place: &Place) -> PathBuf {
    place.kept.join("package/java")
}

/// The resources as they are compiled here.
fn resources(place: &Place) -> Result<PathBuf> {
    let from = place.host.join("res");
    let to = place.kept.join("package/res");
    if to.exists() {
        fs::remove_dir_all(&to)?;
    }
    for path in super::tools::files(&from, &|name| name.ends_with(".xml"))? {
        let inside = path.strip_prefix(&from)?;
        let beside = to.join(inside);
        if let Some(folder) = beside.parent() {
            fs::create_dir_all(folder)?;
        }
        let text = fs::read_to_string(&path)?;
        // A framework of Android 10 knows no monochrome icon.
        let kept: Vec<&str> = text
            .lines()
            .filter(|line| !line.contains("<monochrome "))
            .collect();
        fs::write(&beside, kept.join("\n") + "\n")?;
    }
    fs::write(to.join("values/overlay.xml"), OVERLAY)?;
    Ok(to)
}

/// What must stand in the manifest as text.
fn manifest_says(manifest: &str) -> Result<()> {
    for needed in [
        "android:allowBackup=\"false\"",
        "android:usesCleartextTraffic=\"false\"",
        "android:extractNativeLibs=\"false\"",
    ] {
        if !manifest.contains(needed) {
            bail!("the manifest lacks {needed}");
        }
    }
    let exported = manifest.matches("android:exported=\"true\"").count();
    if exported != 1 {
        bail!("{exported} parts of the package are exported, not the activity alone");
    }
    Ok(())
}

/// What `aapt2 dump badging` must say.
fn badging_says(badging: &str) -> Result<()> {
    let mut permissions: Vec<&str> = badging
        .lines()
        .filter_map(|line| line.strip_prefix("uses-permission: name='"))
        .filter_map(|rest| rest.split('\'').next())
        .collect();
    permissions.sort_unstable();
    if permissions != PERMISSIONS {
        bail!("it asks for {permissions:?} and not for {PERMISSIONS:?}");
    }
    // The word for the least level changed between releases of the tool.
    let levels = [format!("'{LEAST_LEVEL}'"), format!("'{TARGET_LEVEL}'")];
    let least = badging.lines().any(|line| {
        line.to_lowercase().starts_with("minsdkversion") || line.starts_with("sdkVersion")
    });
    if !least || levels.iter().any(|level| !badging.contains(level)) {
        bail!("the SDK versions are not {LEAST_LEVEL} and {TARGET_LEVEL}");
    }
    let launched = "launchable-activity: name='dev.dioxus.main.MainActivity'";
    if !badging.contains(launched) || !badging.contains("package: name='app.rakeline'") {
        bail!("package and first activity are not ours");
    }
    Ok(())
}

/// Compiles manifest and resources, reads back what became of them.
pub fn run(tree: &Tree, place: &Place) -> Result<String> {
    let aapt2 = aapt2(tree, place)?;
    let framework = file(FRAMEWORK, "android-framework-res")?;
    let folder = place.kept.join("package");
    fs::create_dir_all(&folder)?;
    let compiled = folder.join("res.zip");
    let mut compile = Command::new(&aapt2);
    compile.args(["compile", "--dir"]).arg(resources(place)?);
    compile.arg("-o").arg(&compiled);
    must(&mut compile, "aapt2 compile")?;
    let manifest = place.host.join("AndroidManifest.xml");
    let text = fs::read_to_string(&manifest)
        .with_context(|| format!("cannot read {}", manifest.display()))?;
    manifest_says(&text)?;
    let made = folder.join("check.apk");
    let mut link = Command::new(&aapt2);
    link.arg("link").arg("-I").arg(&framework);
    link.arg("--manifest").arg(&manifest);
    link.arg("--min-sdk-version").arg(LEAST_LEVEL.to_string());
    link.arg("--target-sdk-version")
        .arg(TARGET_LEVEL.to_string());
    link.args(["--version-code", "1", "--version-name", "check"]);
    link.arg("--java").arg(resource_class(place));
    link.arg("-o").arg(&made).arg(&compiled);
    must(&mut link, "aapt2 link")?;
    let dumped = Command::new(&aapt2)
        .args(["dump", "badging"])
        .arg(&made)
        .output()?;
    let badging = String::from_utf8_lossy(&dumped.stdout);
    badging_says(&badging)?;
    Ok(format!(
        "{} permissions, Android {LEAST_LEVEL} to {TARGET_LEVEL} (the monochrome icon and the \
         library's theme are left out: the framework here is of Android 10)",
        PERMISSIONS.len()
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_permission_too_many_is_found() {
        let right = "package: name='app.rakeline' versionCode='1'\nminSdkVersion:'28'\n\
                     targetSdkVersion:'35'\n\
                     uses-permission: name='android.permission.CAMERA'\n\
                     uses-permission: name='android.permission.RECORD_AUDIO'\n\
                     uses-permission: name='android.permission.VIBRATE'\n\
                     launchable-activity: name='dev.dioxus.main.MainActivity'  label=''\n";
        assert!(badging_says(right).is_ok());
        let more = format!("{right}uses-permission: name='android.permission.INTERNET'\n");
        assert!(badging_says(&more).is_err());
        assert!(badging_says(&right.replace("'28'", "'24'")).is_err());
    }
}

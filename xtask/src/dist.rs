//! The folder that is served: assets beside the compiled app, and the service worker that
//! knows every file of it.

use std::collections::hash_map::DefaultHasher;
use std::fs;
use std::hash::{Hash, Hasher};
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, bail};

/// The template, and the name it is served under.
const SERVICE_WORKER: &str = "sw.js";
/// Replaced by a hash over all contents.
const VERSION: &str = "__VERSION__";
/// Replaced by a JSON array of all paths, `/` first.
const FILES: &str = "__FILES__";

/// Copies `assets/web` and `assets/css` beside the compiled app and writes the service worker.
pub fn furnish(assets: &Path, dist: &Path) -> Result<()> {
    let web = assets.join("web");
    copy(&web, dist)?;
    copy(&assets.join("css"), dist)?;
    let template = fs::read_to_string(web.join(SERVICE_WORKER))
        .with_context(|| format!("cannot read {}", web.join(SERVICE_WORKER).display()))?;
    let files = contents(dist)?;
    check_links(&files)?;
    let worker = service_worker(&template, &files)?;
    let path = dist.join(SERVICE_WORKER);
    fs::write(&path, worker).with_context(|| format!("cannot write {}", path.display()))
}

/// An empty folder, whatever it was before.
pub fn emptied(folder: &Path) -> Result<()> {
    if folder.exists() {
        fs::remove_dir_all(folder).with_context(|| format!("cannot empty {}", folder.display()))?;
    }
    fs::create_dir_all(folder).with_context(|| format!("cannot make {}", folder.display()))
}

/// A file of the build: its path as the browser asks for it, and its bytes.
struct Served {
    path: String,
    bytes: Vec<u8>,
}

fn copy(from: &Path, dist: &Path) -> Result<()> {
    for file in walk(from)? {
        let inside = file.strip_prefix(from).unwrap_or(&file);
        if inside == Path::new(SERVICE_WORKER) {
            continue;
        }
        let to = dist.join(inside);
        if to.exists() {
            bail!("two files want to be {} in the build", inside.display());
        }
        if let Some(folder) = to.parent() {
            fs::create_dir_all(folder)?;
        }
        fs::copy(&file, &to).with_context(|| format!("cannot copy {}", file.display()))?;
    }
    Ok(())
}

/// Every file below a folder, hidden ones left out, in a fixed order.
fn walk(folder: &Path) -> Result<Vec<PathBuf>> {
    let mut files = Vec::new();
    let entries =
        fs::read_dir(folder).with_context(|| format!("cannot read {}", folder.display()))?;
    for entry in entries {
        let entry = entry?;
        if entry.file_name().to_string_lossy().starts_with('.') {
            continue;
        }
        if entry.path().is_dir() {
            files.extend(walk(&entry.path())?);
        } else {
            files.push(entry.path());
        }
    }
    files.sort();
    Ok(files)
}

fn contents(dist: &Path) -> Result<Vec<Served>> {
    let served = walk(dist)?.into_iter().map(|file| {
        let inside = file.strip_prefix(dist).unwrap_or(&file);
        let parts: Vec<_> = inside.iter().map(|part| part.to_string_lossy()).collect();
        Ok(Served {
            path: format!("/{}", parts.join("/")),
            bytes: fs::read(&file).with_context(|| format!("cannot read {}", file.display()))?,
        })
    });
    served
        .filter(|served| !matches!(served, Ok(file) if file.path == "/sw.js"))
        .collect()
}

fn service_worker(template: &str, files: &[Served]) -> Result<String> {
    for token in [VERSION, FILES] {
        if !template.contains(token) {
            bail!("assets/web/{SERVICE_WORKER} lacks the token {token}");
        }
    }
    let parts = files
        .iter()
        .flat_map(|file| [file.path.as_bytes(), &file.bytes]);
    let version = hash(parts.chain([template.as_bytes()]));
    let paths: Vec<&str> = std::iter::once("/")
        .chain(files.iter().map(|file| file.path.as_str()))
        .collect();
    Ok(template
        .replace(VERSION, &version)
        .replace(FILES, &serde_json::to_string(&paths)?))
}

/// Files that `index.html` names must be in the build.
fn check_links(files: &[Served]) -> Result<()> {
    let Some(index) = files.iter().find(|file| file.path == "/index.html") else {
        bail!("assets/web/index.html is missing");
    };
    let text = String::from_utf8_lossy(&index.bytes);
    for link in links(&text) {
        let path = format!("/{}", link.trim_start_matches("./").trim_start_matches('/'));
        if !files.iter().any(|file| file.path == path) {
            bail!("index.html names {link}, which is not in the build");
        }
    }
    Ok(())
}

/// Values of `href` and `src` that point to files of our own.
fn links(html: &str) -> impl Iterator<Item = &str> {
    ["href=\"", "src=\""].into_iter().flat_map(move |mark| {
        html.split(mark).skip(1).filter_map(|rest| {
            let link = rest.split(['"', '?', '#']).next()?;
            let own = !link.contains(':') && !link.is_empty() && link != "/";
            own.then_some(link)
        })
    })
}

/// Sixteen hex digits that change when any part changes; for caches, not for secrets.
pub fn hash<'a>(parts: impl IntoIterator<Item = &'a [u8]>) -> String {
    let mut hasher = DefaultHasher::new();
    for part in parts {
        part.hash(&mut hasher);
    }
    format!("{:016x}", hasher.finish())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn served(path: &str, text: &str) -> Served {
        Served {
            path: path.into(),
            bytes: text.into(),
        }
    }

    const TEMPLATE: &str = "const V = '__VERSION__', F = __FILES__;";

    #[test]
    fn the_service_worker_knows_every_file_and_the_root() {
        let files = [served("/app.js", "a"), served("/snippets/x/y.js", "b")];
        let worker = service_worker(TEMPLATE, &files).unwrap();
        assert!(
            worker.ends_with(r#"F = ["/","/app.js","/snippets/x/y.js"];"#),
            "{worker}"
        );
        assert!(!worker.contains("__"), "{worker}");
    }

    #[test]
    fn the_version_changes_with_a_byte_a_name_or_the_template() {
        let version = |template: &str, files: &[Served]| {
            let worker = service_worker(template, files).unwrap();
            worker.split('\'').nth(1).unwrap().to_owned()
        };
        let first = version(TEMPLATE, &[served("/app.js", "a")]);
        assert_eq!(first, version(TEMPLATE, &[served("/app.js", "a")]));
        assert_ne!(first, version(TEMPLATE, &[served("/app.js", "b")]));
        assert_ne!(first, version(TEMPLATE, &[served("/ap.js", "a")]));
        assert_ne!(
            first,
            version(&TEMPLATE.replace(';', ""), &[served("/app.js", "a")])
        );
    }

    #[test]
    fn a_template_without_a_token_is_refused() {
        let said = service_worker("const V = '__VERSION__'", &[]).unwrap_err();
        assert!(said.to_string().contains("__FILES__"), "{said}");
    }

    #[test]
    fn a_link_to_a_file_that_was_not_built_is_named() {
        let index = served(
            "/index.html",
            r#"<a href="/"></a><link href="/app.css"><script src="boot.js">"#,
        );
        let said = check_links(&[index, served("/boot.js", "")]).unwrap_err();
        assert_eq!(
            said.to_string(),
            "index.html names /app.css, which is not in the build"
        );
    }

    #[test]
    fn furnishing_copies_nested_assets_and_no_template() {
        let folder = tempfile("furnish");
        let (assets, dist) = (folder.join("assets"), folder.join("dist"));
        for (path, text) in [
            ("web/index.html", "<script src=\"/boot.js\">"),
            ("web/boot.js", "1"),
            ("web/icons/mark.svg", "<svg/>"),
            ("web/sw.js", TEMPLATE),
            ("css/app.css", "b{}"),
        ] {
            let file = assets.join(path);
            fs::create_dir_all(file.parent().unwrap()).unwrap();
            fs::write(file, text).unwrap();
        }
        emptied(&dist).unwrap();
        furnish(&assets, &dist).unwrap();
        let worker = fs::read_to_string(dist.join("sw.js")).unwrap();
        assert!(
            worker.contains(r#"["/","/app.css","/boot.js","/icons/mark.svg","/index.html"]"#),
            "{worker}"
        );
        fs::remove_dir_all(folder).unwrap();
    }

    fn tempfile(name: &str) -> PathBuf {
        let folder = std::env::temp_dir().join(format!("xtask-{name}-{}", std::process::id()));
        emptied(&folder).unwrap();
        folder
    }
}

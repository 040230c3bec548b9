//! From what a browser asks for to a file of the folder, and never to one outside.

use std::path::{Path, PathBuf};

/// What a request target leads to.
#[derive(Debug, PartialEq, Eq)]
pub enum Answer {
    /// This file.
    File(PathBuf),
    /// A file that is not in the folder.
    Missing,
    /// A target that no browser of ours sends.
    Refused,
}

/// Finds the file for a request target.
///
/// Precondition: `dist` is canonical. A path of the app, that is an unknown path whose last part
/// has no extension, is answered with `index.html`.
pub fn resolve(dist: &Path, target: &str) -> Answer {
    let Some(parts) = parts(target) else {
        return Answer::Refused;
    };
    let asked = parts
        .iter()
        .fold(dist.to_owned(), |path, part| path.join(part));
    if let Some(file) = file_inside(dist, &asked) {
        return Answer::File(file);
    }
    let names_a_file = parts.last().is_some_and(|last| last.contains('.'));
    if names_a_file {
        return Answer::Missing;
    }
    file_inside(dist, &dist.join("index.html")).map_or(Answer::Missing, Answer::File)
}

/// The file after links are followed, if it lies in the folder.
fn file_inside(dist: &Path, path: &Path) -> Option<PathBuf> {
    let real = path.canonicalize().ok()?;
    (real.is_file() && real.starts_with(dist)).then_some(real)
}

/// The decoded parts of the path; `None` when one could lead elsewhere.
fn parts(target: &str) -> Option<Vec<String>> {
    let path = target.split(['?', '#']).next()?.strip_prefix('/')?;
    let parts = path.split('/').filter(|part| !part.is_empty());
    parts
        .map(|part| decoded(part).filter(|part| is_plain(part)))
        .collect()
}

fn is_plain(part: &str) -> bool {
    let elsewhere = part.contains(['/', '\\', ':']) || part == ".." || part == ".";
    !elsewhere && !part.chars().any(char::is_control)
}

/// Percent decoding; `None` for broken escapes and for what is not UTF-8.
fn decoded(part: &str) -> Option<String> {
    let mut bytes = Vec::with_capacity(part.len());
    let mut rest = part.bytes();
    while let Some(byte) = rest.next() {
        if byte == b'%' {
            let high = char::from(rest.next()?).to_digit(16)?;
            let low = char::from(rest.next()?).to_digit(16)?;
            bytes.push(u8::try_from(high * 16 + low).ok()?);
        } else {
            bytes.push(byte);
        }
    }
    String::from_utf8(bytes).ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::fs;

    /// A folder with a secret beside it, removed at the end.
    struct Site(PathBuf);

    impl Site {
        fn new(name: &str) -> Self {
            let base = std::env::temp_dir().join(format!("resolve-{name}-{}", std::process::id()));
            fs::create_dir_all(base.join("dist/snippets/a b")).unwrap();
            for file in [
                "dist/index.html",
                "dist/app.js",
                "dist/snippets/a b/x.js",
                "secret.txt",
            ] {
                fs::write(base.join(file), file).unwrap();
            }
            Self(base.canonicalize().unwrap())
        }

        fn ask(&self, target: &str) -> Answer {
            resolve(&self.0.join("dist"), target)
        }

        fn file(&self, name: &str) -> Answer {
            Answer::File(self.0.join("dist").join(name))
        }
    }

    impl Drop for Site {
        fn drop(&mut self) {
            drop(fs::remove_dir_all(&self.0));
        }
    }

    #[test]
    fn files_are_found_with_query_and_escapes() {
        let site = Site::new("files");
        assert_eq!(site.ask("/app.js"), site.file("app.js"));
        assert_eq!(site.ask("/app.js?v=1#x"), site.file("app.js"));
        assert_eq!(
            site.ask("/snippets/a%20b/x.js"),
            site.file("snippets/a b/x.js")
        );
    }

    #[test]
    fn paths_of_the_app_lead_to_the_first_page() {
        let site = Site::new("app");
        for target in ["/", "/?sample", "/job/12/marks", "/snippets", "/snippets/"] {
            assert_eq!(site.ask(target), site.file("index.html"), "{target}");
        }
    }

    #[test]
    fn a_missing_file_is_missing_and_not_the_first_page() {
        let site = Site::new("missing");
        for target in ["/old.js", "/snippets/gone.wasm", "/.hidden"] {
            assert_eq!(site.ask(target), Answer::Missing, "{target}");
        }
    }

    #[test]
    fn nothing_outside_the_folder_is_served() {
        let site = Site::new("outside");
        for target in [
            "/../secret.txt",
            "/%2e%2e/secret.txt",
            "/..%2fsecret.txt",
            "/snippets/../../secret.txt",
            "/..\\secret.txt",
            "/%00",
            "/%zz",
            "/%ff",
            "secret.txt",
            "http://elsewhere/secret.txt",
            "",
        ] {
            assert_eq!(site.ask(target), Answer::Refused, "{target}");
        }
    }

    #[cfg(unix)]
    #[test]
    fn a_link_out_of_the_folder_is_not_followed() {
        let site = Site::new("link");
        let link = site.0.join("dist/link.txt");
        std::os::unix::fs::symlink(site.0.join("secret.txt"), link).unwrap();
        assert_eq!(site.ask("/link.txt"), Answer::Missing);
    }
}

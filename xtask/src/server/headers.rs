//! What every answer carries: policy, caching, media type.

use std::path::Path;

/// Own origin only; wasm may compile, no script or style stands inline.
pub const CONTENT_SECURITY_POLICY: &str = "default-src 'self'; \
script-src 'self' 'wasm-unsafe-eval'; \
style-src 'self'; \
img-src 'self' blob: data:; \
media-src 'self' blob:; \
connect-src 'self'; \
worker-src 'self'; \
object-src 'none'; \
base-uri 'none'; \
form-action 'none'; \
frame-ancestors 'none'";

/// The devices that the app reads, for itself alone.
pub const PERMISSIONS_POLICY: &str =
    "accelerometer=(self), gyroscope=(self), camera=(self), microphone=(self), geolocation=()";

/// Header fields of every answer.
pub fn always() -> [(&'static str, &'static str); 5] {
    [
        ("Content-Security-Policy", CONTENT_SECURITY_POLICY),
        ("Permissions-Policy", PERMISSIONS_POLICY),
        ("Cache-Control", "no-cache"),
        ("X-Content-Type-Options", "nosniff"),
        ("Referrer-Policy", "no-referrer"),
    ]
}

/// Media type by the file's extension.
pub fn mime(path: &Path) -> &'static str {
    let extension = path.extension().unwrap_or_default().to_string_lossy();
    match extension.to_ascii_lowercase().as_str() {
        "html" => "text/html; charset=utf-8",
        "js" | "mjs" => "text/javascript; charset=utf-8",
        "css" => "text/css; charset=utf-8",
        "wasm" => "application/wasm",
        "json" => "application/json",
        "webmanifest" => "application/manifest+json",
        "svg" => "image/svg+xml",
        "png" => "image/png",
        "jpg" | "jpeg" => "image/jpeg",
        "webp" => "image/webp",
        "ico" => "image/x-icon",
        "woff2" => "font/woff2",
        "wav" => "audio/wav",
        "mp3" => "audio/mpeg",
        "pdf" => "application/pdf",
        "txt" | "ftl" => "text/plain; charset=utf-8",
        _ => "application/octet-stream",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn directive(name: &str) -> Vec<&'static str> {
        let found = CONTENT_SECURITY_POLICY
            .split("; ")
            .find_map(|directive| directive.strip_prefix(name));
        found.unwrap().split_whitespace().collect()
    }

    #[test]
    fn scripts_come_from_our_origin_and_wasm_may_compile() {
        assert_eq!(directive("script-src"), ["'self'", "'wasm-unsafe-eval'"]);
        assert_eq!(directive("style-src"), ["'self'"]);
    }

    #[test]
    fn nothing_talks_to_another_origin() {
        assert_eq!(directive("connect-src"), ["'self'"]);
        assert_eq!(directive("default-src"), ["'self'"]);
        assert_eq!(directive("frame-ancestors"), ["'none'"]);
        assert!(!CONTENT_SECURITY_POLICY.contains("unsafe-inline"));
        assert!(!CONTENT_SECURITY_POLICY.contains("'unsafe-eval'"));
        assert!(!CONTENT_SECURITY_POLICY.contains("http"));
    }

    #[test]
    fn the_sensors_are_ours_to_ask_for() {
        for device in ["accelerometer", "gyroscope", "camera", "microphone"] {
            assert!(PERMISSIONS_POLICY.contains(&format!("{device}=(self)")));
        }
    }

    #[test]
    fn wasm_and_manifest_have_their_own_types() {
        assert_eq!(mime(Path::new("/d/app_bg.wasm")), "application/wasm");
        assert_eq!(
            mime(Path::new("m.webmanifest")),
            "application/manifest+json"
        );
        assert_eq!(mime(Path::new("APP.JS")), "text/javascript; charset=utf-8");
        assert_eq!(mime(Path::new("LICENSE")), "application/octet-stream");
    }
}

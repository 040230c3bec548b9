//! How a phone's browser starts and what is heard of its errors.

use std::env;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex};
use std::time::Duration;

use chromiumoxide::cdp::IntoEventKind;
use chromiumoxide::cdp::browser_protocol::log::EventEntryAdded;
use chromiumoxide::cdp::js_protocol::runtime::{
    EventConsoleApiCalled, EventExceptionThrown, RemoteObject,
};
use chromiumoxide::{Browser, BrowserConfig, Page};
use futures_util::StreamExt;
use serde_json::json;

use super::cdp;
use super::sensors::{Attitude, SensorState};
use super::server::INSECURE_HOST;

/// How a phone is when its browser starts.
#[derive(Clone, Debug)]
pub struct PhoneSetup {
    /// Width of the screen, CSS px.
    pub width: u32,
    /// Height of the screen, CSS px.
    pub height: u32,
    /// Device px a CSS px.
    pub scale: f64,
    /// Its motion sensors.
    pub sensors: SensorState,
    /// How many times slower than this machine it computes.
    pub slower: f64,
    /// How long a target may take to appear and come to rest.
    pub patience: Duration,
    /// Script that runs before the page's own, on every page.
    pub before_page: Option<String>,
    /// Opens the server by a name that is no secure context.
    pub insecure: bool,
    /// Further flags of Chromium with their values, without dashes.
    pub flags: Vec<(String, String)>,
}

impl Default for PhoneSetup {
    fn default() -> Self {
        Self {
            width: 412,
            height: 915,
            scale: 2.6,
            sensors: SensorState::Held(Attitude::FACE_UP),
            slower: 1.0,
            patience: Duration::from_secs(5),
            before_page: None,
            insecure: false,
            flags: Vec::new(),
        }
    }
}

/// A running browser.
pub(super) struct Running {
    pub(super) browser: Browser,
    pub(super) page: Page,
}

/// `CHROME`, else the first Chromium on the path.
fn chrome() -> Result<PathBuf, String> {
    if let Some(chrome) = env::var_os("CHROME") {
        return Ok(chrome.into());
    }
    let path = env::var_os("PATH").unwrap_or_default();
    env::split_paths(&path)
        .flat_map(|folder| {
            ["chromium", "chromium-browser", "google-chrome"].map(|name| folder.join(name))
        })
        .find(|file| file.is_file())
        .ok_or_else(|| "no Chromium on the path: install `chromium` or set CHROME".to_owned())
}

pub(super) async fn start(
    setup: &PhoneSetup,
    profile: &Path,
    errors: &Arc<Mutex<Vec<String>>>,
) -> Result<Running, String> {
    let mut config = BrowserConfig::builder()
        .chrome_executable(chrome()?)
        .disable_default_args()
        .new_headless_mode()
        .no_sandbox()
        .viewport(None)
        .window_size(setup.width, setup.height)
        .user_data_dir(profile)
        .args([
            "disable-gpu",
            "disable-dev-shm-usage",
            "no-first-run",
            "disable-background-networking",
            "disable-component-update",
            "disable-sync",
            "disable-default-apps",
            "disable-background-timer-throttling",
            "disable-backgrounding-occluded-windows",
            "disable-renderer-backgrounding",
        ])
        .arg((
            "disable-features",
            "HttpsUpgrades,HttpsFirstBalancedModeAutoEnable,Translate",
        ))
        .arg((
            "host-resolver-rules",
            format!("MAP {INSECURE_HOST} 127.0.0.1").as_str(),
        ));
    for (flag, value) in &setup.flags {
        config = config.arg((flag.as_str(), value.as_str()));
    }
    let (browser, mut handler) = Browser::launch(config.build()?)
        .await
        .map_err(|error| format!("Chromium does not start: {error}"))?;
    tokio::spawn(async move { while handler.next().await.is_some() {} });
    let page = browser
        .new_page("about:blank")
        .await
        .map_err(|error| format!("no page opens: {error}"))?;
    // The crate halts each new worker for a debugger and does not let it go:
    // without this no service worker ever starts.
    let free = json!({ "autoAttach": false, "waitForDebuggerOnStart": false, "flatten": true });
    cdp::send(&page, "Target.setAutoAttach", free).await?;
    collect(&page, errors, |event: &EventExceptionThrown| {
        let details = &event.exception_details;
        let thrown = details
            .exception
            .as_ref()
            .and_then(|e| e.description.as_deref());
        Some(format!(
            "uncaught: {} {}",
            details.text,
            thrown.unwrap_or_default()
        ))
    })
    .await?;
    collect(&page, errors, |event: &EventConsoleApiCalled| {
        (event.r#type.as_ref() == "error" || event.r#type.as_ref() == "assert").then(|| {
            let said = |arg: &RemoteObject| {
                let value = arg.value.as_ref().map(ToString::to_string);
                value
                    .or_else(|| arg.description.clone())
                    .unwrap_or_default()
            };
            let words: Vec<String> = event.args.iter().map(said).collect();
            format!("console: {}", words.join(" "))
        })
    })
    .await?;
    collect(&page, errors, |event: &EventEntryAdded| {
        let entry = &event.entry;
        let url = entry.url.as_deref().unwrap_or_default();
        (entry.level.as_ref() == "error").then(|| format!("log: {} {url}", entry.text))
    })
    .await?;
    Ok(Running { browser, page })
}

/// Collects what `say` makes of the page's events of one kind.
async fn collect<E: IntoEventKind + Send + Sync + Unpin + 'static>(
    page: &Page,
    errors: &Arc<Mutex<Vec<String>>>,
    say: impl Fn(&E) -> Option<String> + Send + 'static,
) -> Result<(), String> {
    let mut events = page
        .event_listener::<E>()
        .await
        .map_err(|error| error.to_string())?;
    let errors = Arc::clone(errors);
    tokio::spawn(async move {
        while let Some(event) = events.next().await {
            if let (Some(error), Ok(mut errors)) = (say(&event), errors.lock()) {
                errors.push(error);
            }
        }
    });
    Ok(())
}

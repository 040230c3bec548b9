//! One phone: a Chromium of its own with a page at phone size.

use std::cell::{Cell, RefCell};
use std::path::PathBuf;
use std::sync::atomic::{AtomicU32, Ordering};
use std::sync::{Arc, Mutex};
use std::time::{Duration, Instant};
use std::{env, fs, process, thread};

use serde_json::{Value, json};
use tokio::runtime::Runtime;

use super::cdp;
use super::launch::{PhoneSetup, Running, start};
use super::sensors::SensorState;
use super::server::Server;

/// A phone with the app's page; see the module for what it checks.
pub struct Phone {
    pub(super) runtime: Runtime,
    pub(super) running: RefCell<Option<Running>>,
    setup: PhoneSetup,
    origin: String,
    profile: PathBuf,
    errors: Arc<Mutex<Vec<String>>>,
    sensors: Cell<SensorState>,
    taps: Cell<u32>,
}

impl Phone {
    /// Starts a browser with an empty profile; no page is open yet.
    ///
    /// # Panics
    /// If Chromium (`CHROME`, else `chromium` on the path) does not start.
    #[must_use]
    pub fn open(server: &Server, setup: PhoneSetup) -> Self {
        static COUNT: AtomicU32 = AtomicU32::new(0);
        let number = COUNT.fetch_add(1, Ordering::SeqCst);
        let profile = env::temp_dir().join(format!("rakeline-phone-{}-{number}", process::id()));
        let _ = fs::remove_dir_all(&profile);
        let phone = Self {
            runtime: tokio::runtime::Builder::new_multi_thread()
                .worker_threads(1)
                .enable_all()
                .build()
                .expect("a runtime starts"),
            running: RefCell::new(None),
            origin: if setup.insecure {
                server.insecure_origin()
            } else {
                server.origin()
            },
            sensors: Cell::new(setup.sensors),
            setup,
            profile,
            errors: Arc::default(),
            taps: Cell::new(0),
        };
        phone.launch();
        phone
    }

    fn launch(&self) {
        let running = self
            .runtime
            .block_on(start(&self.setup, &self.profile, &self.errors));
        *self.running.borrow_mut() = Some(running.unwrap_or_else(|error| panic!("{error}")));
        let (width, height) = self.screen();
        self.set_screen(width, height);
        self.cdp(
            "Emulation.setTouchEmulationEnabled",
            json!({ "enabled": true, "maxTouchPoints": 5 }),
        );
        self.cdp(
            "Emulation.setCPUThrottlingRate",
            json!({ "rate": self.setup.slower }),
        );
        if let Some(script) = &self.setup.before_page {
            self.cdp(
                "Page.addScriptToEvaluateOnNewDocument",
                json!({ "source": script }),
            );
        }
        self.set_sensors(self.sensors.get());
    }

    /// Width and height of the screen, CSS px.
    pub(super) fn screen(&self) -> (u32, u32) {
        (self.setup.width, self.setup.height)
    }

    pub(super) fn set_screen(&self, width: u32, height: u32) {
        self.cdp(
            "Emulation.setDeviceMetricsOverride",
            json!({
            "width": width, "height": height,
            "deviceScaleFactor": self.setup.scale, "mobile": true }),
        );
    }

    /// Closes the browser in order and starts it again with its profile.
    ///
    /// # Panics
    /// If it does not close or start.
    pub fn relaunch(&self) {
        if let Some(mut running) = self.running.take() {
            self.runtime.block_on(async {
                running.browser.close().await.expect("the browser closes");
                running.browser.wait().await.expect("the browser ends");
            });
        }
        self.launch();
    }

    /// Kills the browser without warning and starts it again with its
    /// profile, as when the battery dies.
    ///
    /// # Panics
    /// If it does not start again.
    pub fn kill(&self) {
        self.end();
        self.launch();
    }

    fn end(&self) {
        if let Some(mut running) = self.running.take() {
            self.runtime.block_on(async {
                if let Some(Err(error)) = running.browser.kill().await {
                    eprintln!("the browser was gone before: {error}");
                }
                let _ = running.browser.wait().await;
            });
        }
    }

    /// Opens a path of the app (`/`, `/?sample`) and waits until it is loaded.
    ///
    /// # Panics
    /// If it does not load within 20 s.
    pub fn goto(&self, path: &str) {
        let answer = self.cdp(
            "Page.navigate",
            json!({ "url": format!("{}{path}", self.origin) }),
        );
        if let Some(error) = answer["errorText"].as_str() {
            panic!("{path} does not open: {error}");
        }
        self.until(&format!("{path} is loaded"), || {
            self.try_eval("document.readyState") == Ok(json!("complete"))
        });
        self.hold_on();
    }

    /// Reloads the page and waits until it is loaded.
    ///
    /// # Panics
    /// If it does not load within 20 s.
    pub fn reload(&self) {
        // The mark tells the old document from the new one.
        self.eval("window.rakelineOld = true");
        self.cdp("Page.reload", json!({}));
        self.until("the page is loaded anew", || {
            self.try_eval("!window.rakelineOld && document.readyState") == Ok(json!("complete"))
        });
        self.hold_on();
    }

    /// Goes back by the browser's own history, as the phone's back button.
    ///
    /// # Panics
    /// If the page is gone.
    pub fn back(&self) {
        self.eval("history.back()");
        self.rest(Duration::from_millis(150));
    }

    /// A new document starts with the reading before last: say it again.
    fn hold_on(&self) {
        if let SensorState::Held(attitude) = self.sensors.get() {
            self.hold(attitude);
        }
    }

    pub(super) fn note_sensors(&self, state: SensorState) {
        self.sensors.set(state);
    }

    pub(super) fn patience(&self) -> Duration {
        self.setup.patience
    }

    /// Waits for a condition, up to 20 s.
    ///
    /// # Panics
    /// If it does not come true.
    pub fn until(&self, what: &str, condition: impl Fn() -> bool) {
        let started = Instant::now();
        while !condition() {
            assert!(
                started.elapsed() < Duration::from_secs(20),
                "waited 20 s in vain: {what}"
            );
            self.rest(Duration::from_millis(40));
        }
    }

    /// What the page shows as text.
    ///
    /// # Panics
    /// If there is no page.
    #[must_use]
    pub fn text(&self) -> String {
        let text = self.eval("document.body ? document.body.innerText : ''");
        text.as_str().unwrap_or_default().to_owned()
    }

    /// Whether the page shows this text now, white space folded.
    ///
    /// # Panics
    /// If there is no page.
    #[must_use]
    pub fn has(&self, text: &str) -> bool {
        folded(&self.text()).contains(&folded(text))
    }

    /// Waits until the page shows this text.
    ///
    /// # Panics
    /// If it does not come in time.
    pub fn wait_for(&self, text: &str, seconds: u64) {
        self.wait_until(text, seconds, true);
    }

    /// Waits until the page no longer shows this text.
    ///
    /// # Panics
    /// If it stays.
    pub fn wait_gone(&self, text: &str, seconds: u64) {
        self.wait_until(text, seconds, false);
    }

    fn wait_until(&self, text: &str, seconds: u64, shown: bool) {
        let started = Instant::now();
        let script = "document.body ? document.body.innerText : ''";
        loop {
            let now = self.try_eval(script).unwrap_or_default();
            let now = now.as_str().unwrap_or_default();
            if folded(now).contains(&folded(text)) == shown {
                return;
            }
            assert!(
                started.elapsed() < Duration::from_secs(seconds),
                "'{text}' {} within {seconds} s; on the screen:\n{now}\nerrors: {:#?}",
                if shown { "does not come" } else { "stays" },
                self.errors()
            );
            self.rest(Duration::from_millis(40));
        }
    }

    /// The value of a script, promises awaited.
    ///
    /// # Panics
    /// If the script throws.
    pub fn eval(&self, script: &str) -> Value {
        self.try_eval(script)
            .unwrap_or_else(|error| panic!("{error}"))
    }

    /// As [`Phone::eval`], with what it throws as an error.
    ///
    /// # Errors
    /// What the script throws, or that the page was changing.
    pub fn try_eval(&self, script: &str) -> Result<Value, String> {
        let answer = self.try_cdp(
            "Runtime.evaluate",
            json!({
            "expression": script, "awaitPromise": true, "returnByValue": true }),
        )?;
        match answer.get("exceptionDetails") {
            Some(details) => Err(format!("{script}: {details}")),
            None => Ok(answer["result"]["value"].clone()),
        }
    }

    /// Sends a DevTools command to the page.
    ///
    /// # Panics
    /// If the browser refuses it.
    pub fn cdp(&self, method: &'static str, params: Value) -> Value {
        self.try_cdp(method, params)
            .unwrap_or_else(|error| panic!("{error}"))
    }

    fn try_cdp(&self, method: &'static str, params: Value) -> Result<Value, String> {
        let running = self.running.borrow();
        let running = running.as_ref().expect("the browser runs");
        self.runtime
            .block_on(cdp::send(&running.page, method, params))
    }

    /// Sets a permission of the app: `granted`, `denied` or `prompt`.
    ///
    /// # Panics
    /// If Chromium does not know the permission.
    pub fn set_permission(&self, name: &str, setting: &str) {
        if self.setup.insecure {
            // Nothing can be granted there, Chromium refuses even to try.
            return;
        }
        self.cdp(
            "Browser.setPermission",
            json!({
            "permission": { "name": name }, "setting": setting, "origin": self.origin }),
        );
    }

    /// Taps since the phone was opened; typing is not counted.
    #[must_use]
    pub fn taps(&self) -> u32 {
        self.taps.get()
    }

    pub(super) fn count_tap(&self) {
        self.taps.set(self.taps.get() + 1);
    }

    /// Lets time pass while the page lives on.
    pub fn rest(&self, time: Duration) {
        thread::sleep(time);
    }

    /// Console errors and uncaught exceptions so far.
    ///
    /// # Panics
    /// If a listener panicked.
    #[must_use]
    pub fn errors(&self) -> Vec<String> {
        self.errors.lock().expect("no listener panicked").clone()
    }

    /// Forgets the errors that contain this text: the test expects them.
    ///
    /// # Panics
    /// If there is none.
    pub fn expect_error(&self, text: &str) {
        self.until(&format!("an error with '{text}'"), || {
            self.errors().iter().any(|error| error.contains(text))
        });
        self.forgive(text);
    }

    /// Forgets errors that contain this text, if any (a stopped server).
    ///
    /// # Panics
    /// If a listener panicked.
    pub fn forgive(&self, text: &str) {
        let mut errors = self.errors.lock().expect("no listener panicked");
        errors.retain(|error| !error.contains(text));
    }
}

impl Drop for Phone {
    fn drop(&mut self) {
        if !thread::panicking() {
            // Errors of the last moment are still on their way.
            self.rest(Duration::from_millis(100));
        }
        self.end();
        // Processes of a killed browser may write for a moment longer.
        for _ in 0..20 {
            if fs::remove_dir_all(&self.profile).is_ok() || !self.profile.exists() {
                break;
            }
            self.rest(Duration::from_millis(50));
        }
        if !thread::panicking() {
            let errors = self.errors();
            assert!(errors.is_empty(), "the page had errors: {errors:#?}");
        }
    }
}

fn folded(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

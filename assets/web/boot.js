// Opens the app, and says so when it cannot be opened: never a white page.

const WORDS = {
  old: "This browser is too old for Rakeline. Update it, or open Rakeline in another browser.",
  lost: "Rakeline could not be loaded. Check the connection and reload. Jobs on this phone are safe.",
  stopped: "Rakeline stopped. The job is safe up to the last 'saved'.",
  wrong: "Something in Rakeline went wrong. The job is safe up to the last 'saved'. If a screen does not answer, reload.",
  reload: "Reload",
};

// How long a new version may take to come in before the old one is started.
const TAKE_OVER_MS = 1500;

function part(tag, text) {
  const element = document.createElement(tag);
  element.textContent = text;
  return element;
}

/** Shows a message; the first one stays, since what follows are its consequences. */
function showTrouble(words, cause) {
  console.error(words, cause);
  const trouble = document.getElementById("trouble");
  if (!trouble || !trouble.hidden) return;
  const reload = part("a", WORDS.reload);
  reload.setAttribute("href", "");
  const detail = cause instanceof Error ? cause.message : String(cause ?? "");
  trouble.replaceChildren(part("p", words), reload, part("small", detail));
  trouble.hidden = false;
}

function showFault(cause) {
  const trap = globalThis.WebAssembly && cause instanceof WebAssembly.RuntimeError;
  showTrouble(trap ? WORDS.stopped : WORDS.wrong, cause);
}

window.addEventListener("error", (event) => {
  // Other errors on the window are none of the app's own work.
  if (event.error instanceof WebAssembly.RuntimeError) showFault(event.error);
});
window.addEventListener("unhandledrejection", (event) => showFault(event.reason));

/** A version that was fetched last time comes in now, before the app runs,
 *  unless the present one is still open elsewhere: the worker decides. */
async function takeOver() {
  const registration = await navigator.serviceWorker?.getRegistration();
  const waiting = registration?.waiting;
  if (!waiting) return false;
  const taken = new Promise((done) => {
    navigator.serviceWorker.addEventListener("controllerchange", () => done(true), { once: true });
    setTimeout(() => done(false), TAKE_OVER_MS);
  });
  const answer = new MessageChannel();
  const refused = new Promise((done) => {
    answer.port1.onmessage = () => done(false);
  });
  waiting.postMessage("take-over", [answer.port2]);
  return Promise.race([taken, refused]);
}

async function register() {
  try {
    await navigator.serviceWorker?.register("/sw.js");
  } catch (cause) {
    // Private windows refuse; the app then needs the connection at each start.
    console.warn("no offline start:", cause);
  }
}

/** Compiles while it loads; a server with another content type still works. */
async function compiled() {
  const response = await fetch("/app_bg.wasm");
  if (!response.ok) throw new Error(`app_bg.wasm: ${response.status}`);
  const type = response.headers.get("Content-Type") ?? "";
  if (WebAssembly.compileStreaming && type.startsWith("application/wasm")) {
    return WebAssembly.compileStreaming(response);
  }
  return WebAssembly.compile(await response.arrayBuffer());
}

async function start() {
  if (typeof WebAssembly !== "object") {
    showTrouble(WORDS.old);
    return;
  }
  if (await takeOver().catch(() => false)) {
    location.reload();
    return;
  }
  let init;
  let module;
  try {
    [{ default: init }, module] = await Promise.all([import("/app.js"), compiled()]);
  } catch (cause) {
    const old = cause instanceof WebAssembly.CompileError || cause instanceof SyntaxError;
    showTrouble(old ? WORDS.old : WORDS.lost, cause);
    return;
  }
  try {
    document.getElementById("opening")?.remove();
    await init({ module_or_path: module });
  } catch (cause) {
    showFault(cause);
  }
  await register();
}

start().catch(showFault);

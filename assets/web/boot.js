// Opens the app, and says so when it cannot be opened: never a white page.

const WORDS = {
  old: "This browser is too old for Rakeline. Update it, or open Rakeline in another browser.",
  lost: "Rakeline could not be loaded. Check the connection and reload. Jobs on this phone are safe.",
  stopped: "Rakeline stopped. The job is safe up to the last 'saved'.",
  wrong: "Something in Rakeline went wrong. The job is safe up to the last 'saved'. If a screen does not answer, reload.",
  reload: "Reload",
};

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

/** A new version is fetched now and comes in by itself at the next start,
 *  when no page of the present one is open: files of two never mix. */
async function register() {
  try {
    const registration = await navigator.serviceWorker?.register("/sw.js");
    await registration?.update();
  } catch (cause) {
    // Offline, or a private window, which refuses: nothing is lost but the new version.
    console.warn("no new version fetched:", cause);
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

// The worker: heavy work beside the page, in a module of its own.
// In: { number, task, file } (file: bytes, empty for most). Out: { number, share }, then one of
// { number, bytes }, { number, refused } (a message for the fitter) and
// { number, died } (the module is gone; the page starts another worker).

import init, { work } from "/worker.js";

const ready = init();
// Said at the task that waits for it, not as a fault of the worker itself.
ready.catch(() => {});

addEventListener("message", async ({ data: { number, task, file } }) => {
  try {
    await ready;
    const bytes = work(task, file, (share) => postMessage({ number, share }));
    postMessage({ number, bytes }, [bytes.buffer]);
  } catch (cause) {
    if (typeof cause === "string") postMessage({ number, refused: cause });
    else postMessage({ number, died: String(cause?.message ?? cause) });
  }
});

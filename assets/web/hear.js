// A worker of its own that listens, so that a PDF under way does not make it
// deaf. In: { port, rate, gate, origin } once, then { gate } or { own }.
// Out: what was heard as a Float64Array, or a string when it cannot listen.

import init, { Ear } from "/worker.js";

let ear;
let waiting = [];

function hear(origin, { first, channels, planar }) {
  // The page's clock: this worker's began later.
  const arrived = performance.timeOrigin + performance.now() - origin;
  postMessage(ear.hear(planar, channels, first, arrived));
}

function tell({ gate, own }) {
  if (gate !== undefined) ear.gate(gate);
  if (own) ear.own(own);
}

async function open({ port, rate, gate, origin }) {
  await init();
  ear = new Ear(rate);
  ear.gate(gate);
  waiting.forEach(tell);
  waiting = [];
  port.onmessage = ({ data }) => {
    try {
      hear(origin, data);
    } catch (cause) {
      port.onmessage = null;
      postMessage(String(cause?.message ?? cause));
    }
  };
}

addEventListener("message", ({ data }) => {
  if (data.port) open(data).catch((cause) => postMessage(String(cause?.message ?? cause)));
  else if (ear) tell(data);
  else waiting.push(data);
});

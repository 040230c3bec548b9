// On the audio thread: gathers the microphone's frames into batches of some
// 80 ms and hands them to the worker that listens. In: { port }. Out, on
// that port: { first, channels, planar }, one channel after the other.

const BATCH_SECONDS = 0.08;
const QUANTUM = 128;

class Ear extends AudioWorkletProcessor {
  constructor() {
    super();
    const quanta = Math.max(1, Math.round(BATCH_SECONDS * sampleRate / QUANTUM));
    this.length = quanta * QUANTUM;
    this.port.onmessage = ({ data }) => { this.listener = data.port; };
    this.begin(0);
  }

  begin(channels) {
    this.channels = channels;
    this.filled = 0;
    this.planar = new Float32Array(channels * this.length);
  }

  process([input]) {
    const quantum = input[0]?.length ?? 0;
    if (!this.listener || !quantum) return true;
    // The device may change its channels while it runs.
    if (input.length !== this.channels) this.begin(input.length);
    if (this.filled === 0) this.first = currentFrame;
    input.forEach((channel, at) => this.planar.set(channel, at * this.length + this.filled));
    this.filled += quantum;
    if (this.filled + quantum > this.length) {
      const { first, channels, planar } = this;
      this.listener.postMessage({ first, channels, planar }, [planar.buffer]);
      this.begin(channels);
    }
    return true;
  }
}

registerProcessor("ear", Ear);

// Called as hear(hertz) before the page's own scripts.
(hertz) => {
  navigator.mediaDevices.getUserMedia = async () => {
    const context = new AudioContext();
    await context.resume();
    const out = context.createMediaStreamDestination();
    const tone = new OscillatorNode(context, { frequency: hertz });
    const level = new GainNode(context, { gain: 0 });
    tone.connect(level).connect(out);
    tone.start();
    const second = context.createBuffer(1, context.sampleRate, context.sampleRate);
    const samples = second.getChannelData(0);
    for (let i = 0; i < samples.length; i += 1) samples[i] = (Math.random() - 0.5) * 0.004;
    const noise = new AudioBufferSourceNode(context, { buffer: second, loop: true });
    noise.connect(out);
    noise.start();
    window.playBeep = (seconds) => {
      const at = context.currentTime + 0.02;
      level.gain.setValueAtTime(0.28, at);
      level.gain.setValueAtTime(0, at + seconds);
    };
    return out.stream;
  };
}

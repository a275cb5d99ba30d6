/** Time from the button to the first frame. */
const aheadSeconds = 0.1;
/** Too short to be heard as a sound, long enough not to click. */
const hushSeconds = 0.005;

/** A tone that sounds. */
export interface PlayedTone {
  /** Ends it at once. */
  hush(): void;
}

/** Plays a tone on all outputs alike, once. `onEnded`: it has come to its end by itself. */
export function playTone(tone: Float32Array, rateHz: number, onEnded: () => void): PlayedTone {
  const context = new AudioContext({ sampleRate: rateHz });
  const buffer = new AudioBuffer({ length: tone.length, numberOfChannels: 1, sampleRate: rateHz });
  buffer.getChannelData(0).set(tone);
  const source = new AudioBufferSourceNode(context, { buffer });
  const level = context.createGain();
  source.connect(level).connect(context.destination);
  let isOver = false;
  const close = () => void context.close();
  source.onended = () => {
    if (isOver) return;
    isOver = true;
    close();
    onEnded();
  };
  source.start(context.currentTime + aheadSeconds);
  return {
    hush() {
      if (isOver) return;
      isOver = true;
      const now = context.currentTime;
      level.gain.setValueAtTime(1, now);
      level.gain.linearRampToValueAtTime(0, now + hushSeconds);
      source.stop(now + hushSeconds);
      setTimeout(close, 100);
    },
  };
}

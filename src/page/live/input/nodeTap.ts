import { type InputTap, silentDeviceMs, type TapOptions } from "./inputTap.js";
import { StreamClock } from "./streamClock.js";

/** The largest that there is: the page may be busy for so long, 0.34 s at 48 kHz, before sound is lost. */
const blockFrames = 16_384;
/** Of a stream whose width nobody tells. */
const usualChannels = 2;

/**
 * Taps a stream by a script node. It is the one way that every browser has and that needs no other script than the page's
 * own: a worklet is a script of its own, which the policy of the page does not let in, and which some browsers do not
 * load from a disk. A block that is handed over late may have been written over, and is told.
 * @throws DOMException when nothing comes
 */
export async function openNodeTap(
  stream: MediaStream,
  track: MediaStreamTrack,
  { onPiece, onEnd }: TapOptions,
): Promise<InputTap> {
  const { channelCount = usualChannels, sampleRate } = track.getSettings();
  const context = contextAt(sampleRate);
  const { sampleRate: rateHz } = context;
  const channels = Math.min(channelCount, usualChannels);
  const node = context.createScriptProcessor(blockFrames, channels, 1);
  const source = context.createMediaStreamSource(stream);
  const clock = new StreamClock(rateHz);
  const blockSeconds = blockFrames / rateHz;
  let lastMs: number | null = null;
  const first = new Promise<void>((resolve, reject) => {
    setTimeout(() => reject(new DOMException("nothing comes in", "NotReadableError")), silentDeviceMs);
    node.onaudioprocess = ({ inputBuffer }) => {
      const nowMs = performance.now();
      const lateSeconds = lastMs === null ? 0 : (nowMs - lastMs) / 1000 - blockSeconds;
      lastMs = nowMs;
      const isLate = lateSeconds > blockSeconds;
      const samples = Array.from({ length: channels }, (_, n) => inputBuffer.getChannelData(n).slice());
      onPiece({
        channels: samples,
        endMs: clock.add(blockFrames, nowMs),
        lostSeconds: isLate ? lateSeconds : 0,
      });
      resolve();
    };
  });
  // It runs only while it leads somewhere; it gives silence.
  source.connect(node).connect(context.destination);
  track.addEventListener("ended", onEnd, { once: true });
  const close = () => {
    node.onaudioprocess = null;
    track.removeEventListener("ended", onEnd);
    void context.close();
  };
  try {
    void context.resume();
    await first;
  } catch (error) {
    close();
    throw error;
  }
  return { rateHz, channels, close };
}

/** At the input's own rate, so that nothing is converted; at that of the browser where it does not tell, or refuses. */
function contextAt(sampleRate: number | undefined): AudioContext {
  try {
    return new AudioContext(sampleRate === undefined ? {} : { sampleRate });
  } catch {
    return new AudioContext();
  }
}

import { type InputTap, silentDeviceMs, type TapOptions } from "./inputTap.js";
import { LossWatch } from "./lossWatch.js";
import { StreamClock } from "./streamClock.js";

/** As far as it is used here. W3C, MediaStreamTrack Insertable Media Processing using Streams. */
interface TrackProcessor {
  readonly readable: ReadableStream<AudioData>;
}
type TrackProcessorKind = new (init: {
  readonly track: MediaStreamTrack;
  /** Pieces that wait, while the page is busy, before the browser drops one. */
  readonly maxBufferSize: number;
}) => TrackProcessor;

/** Of 10 ms as a rule: 20 s. */
const waitingPieces = 2000;

/** What hands out a track's pieces in this browser; null where it has none. */
export function trackProcessor(): TrackProcessorKind | null {
  const kind: unknown = Reflect.get(globalThis, "MediaStreamTrackProcessor");
  return typeof kind === "function" ? (kind as TrackProcessorKind) : null;
}

/**
 * Taps a track as the browser has it from the device: no audio context and no device for playing between, at the input's
 * own rate.
 * @throws DOMException when nothing comes
 */
export async function openTrackTap(
  Kind: TrackProcessorKind,
  track: MediaStreamTrack,
  { onPiece, onEnd }: TapOptions,
): Promise<InputTap> {
  const reader = new Kind({ track, maxBufferSize: waitingPieces }).readable.getReader();
  const first = await firstOf(reader);
  const { sampleRate: rateHz, numberOfChannels: channels } = first;
  const clock = new StreamClock(rateHz);
  const watch = new LossWatch(rateHz);
  const give = (data: AudioData) => {
    const frames = data.numberOfFrames;
    const lostSeconds = watch.add(frames, data.timestamp / 1e6);
    clock.skip(Math.round(lostSeconds * rateHz));
    const endMs = clock.add(frames, performance.now());
    const samples = samplesOf(data);
    data.close();
    onPiece({ channels: samples, endMs, lostSeconds });
  };
  const readOn = async () => {
    for (;;) {
      const { value, done } = await reader.read();
      if (done) return onEnd();
      give(value);
    }
  };
  give(first);
  void readOn().catch(onEnd);
  return { rateHz, channels, close: () => void reader.cancel().catch(() => {}) };
}

async function firstOf(reader: ReadableStreamDefaultReader<AudioData>): Promise<AudioData> {
  const nothing = new Promise<never>((_, reject) =>
    setTimeout(() => reject(new DOMException("nothing comes in", "NotReadableError")), silentDeviceMs),
  );
  const { value } = await Promise.race([reader.read(), nothing]);
  if (!value) throw new DOMException("the device gave nothing", "NotReadableError");
  return value;
}

function samplesOf(data: AudioData): readonly Float32Array[] {
  return Array.from({ length: data.numberOfChannels }, (_, planeIndex) => {
    const samples = new Float32Array(data.numberOfFrames);
    data.copyTo(samples, { planeIndex, format: "f32-planar" });
    return samples;
  });
}

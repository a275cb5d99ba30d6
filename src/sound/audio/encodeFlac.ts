import type { AudioSampleSource } from "mediabunny";
import { secondsToFrames } from "../dsp/units.js";

/** Sample rates that the encoder knows. */
const knownRatesHz = [8, 16, 22.05, 24, 32, 44.1, 48, 88.2, 96, 176.4, 192].map((kHz) => kHz * 1000);

/** Frames given to the encoder at a time. */
const pieceSeconds = 2;

/** Whether `encodeFlac` takes sound of this rate. */
export const flacTakesRate = (rateHz: number): boolean => knownRatesHz.includes(rateHz);

/**
 * One channel or two as a whole 24-bit FLAC file in memory, by the libraries `mediabunny` and `@mediabunny/flac-encoder`
 * (libFLAC). Samples are rounded to 24 bits, values over full scale are held at it.
 *
 * The libraries are loaded only now: they are heavy.
 *
 * @throws RangeError for a rate that the encoder does not know; `signal.reason` when told to stop
 */
export async function encodeFlac(
  channels: readonly Float32Array[],
  rateHz: number,
  signal?: AbortSignal,
): Promise<Uint8Array> {
  if (!flacTakesRate(rateHz)) {
    throw new RangeError(`encodeFlac: rate is ${rateHz} Hz; it must be one of ${knownRatesHz.join(", ")}`);
  }
  const { AudioSampleSource, BufferTarget, canEncodeAudio, FlacOutputFormat, Output } = await import(
    "mediabunny"
  );
  if (!(await canEncodeAudio("flac"))) (await import("@mediabunny/flac-encoder")).registerFlacEncoder();
  const target = new BufferTarget();
  const output = new Output({ format: new FlacOutputFormat(), target });
  const source = new AudioSampleSource({ codec: "flac" });
  output.addAudioTrack(source);
  await output.start();
  try {
    await encodeInto(source, channels, rateHz, signal);
    await output.finalize();
  } catch (error) {
    // The encoder has a thread, which would keep the program.
    await output.cancel();
    throw error;
  }
  if (!target.buffer) throw new Error("encodeFlac: the encoder gave no file");
  return new Uint8Array(target.buffer);
}

async function encodeInto(
  source: AudioSampleSource,
  channels: readonly Float32Array[],
  rateHz: number,
  signal: AbortSignal | undefined,
): Promise<void> {
  const { AudioSample } = await import("mediabunny");
  const pieceFrames = secondsToFrames(pieceSeconds, rateHz);
  for (let from = 0; from < channels[0].length; from += pieceFrames) {
    const data = toTopOf32Bits(channels.map((samples) => samples.subarray(from, from + pieceFrames)));
    const timestamp = from / rateHz;
    const piece = new AudioSample({
      data,
      format: "s32",
      numberOfChannels: channels.length,
      sampleRate: rateHz,
      timestamp,
    });
    await source.add(piece);
    piece.close();
    signal?.throwIfAborted();
  }
}

/** 24-bit integers in the upper bits of 32, channels frame by frame, as the encoder takes them. */
function toTopOf32Bits(channels: readonly Float32Array[]): Int32Array {
  const half = 2 ** 23;
  const whole = new Int32Array(channels.length * channels[0].length);
  channels.forEach((samples, k) => {
    for (let n = 0; n < samples.length; n++) {
      const value = Math.max(-half, Math.min(half - 1, Math.round(samples[n] * half)));
      whole[n * channels.length + k] = value * 256;
    }
  });
  return whole;
}

import { registerFlacEncoder } from "@mediabunny/flac-encoder";
import { AudioSample, AudioSampleSource, BufferTarget, FlacOutputFormat, Output } from "mediabunny";

registerFlacEncoder();

/** A mono FLAC file of 16 or 24 bits (libFLAC), as a recorder writes it. */
export async function flacOf(samples: Float32Array, rateHz: number, bits: 16 | 24): Promise<Uint8Array> {
  const target = new BufferTarget();
  const output = new Output({ format: new FlacOutputFormat(), target });
  const source = new AudioSampleSource({ codec: "flac" });
  output.addAudioTrack(source);
  await output.start();
  const common = { numberOfChannels: 1, sampleRate: rateHz, timestamp: 0 };
  const data =
    bits === 16 ? Int16Array.from(samples, (x) => x * 2 ** 15) : Int32Array.from(samples, (x) => x * 2 ** 31);
  await source.add(new AudioSample({ ...common, data, format: bits === 16 ? "s16" : "s32" }));
  await output.finalize();
  return new Uint8Array(target.buffer ?? new ArrayBuffer(0));
}

import { type Clip, framesOf } from "../../sound/audio/clip.js";

/**
 * A clip at another sample rate, by libsamplerate's best sinc filter: flat to 20 kHz, no delay; the library drops its
 * own tail, so silence is put behind and the result cut to round(frames * toRateHz / rateHz). For impulse responses
 * and captures; a take is rendered at its own rate.
 *
 * An impulse response keeps its gain at each frequency only if it is also multiplied by rateHz / toRateHz, since a
 * sum over samples has taken the place of an integral over time; see `resampleResponse`.
 *
 * @param toRateHz  8000 to 192 000
 */
export async function resample(clip: Clip, toRateHz: number): Promise<Clip> {
  const frames = framesOf(clip);
  if (toRateHz === clip.rateHz || frames === 0) return { rateHz: toRateHz, channels: clip.channels };
  const wanted = Math.round((frames * toRateHz) / clip.rateHz);
  // Heavy: loaded only now.
  const { default: libsamplerate } = await import("@alexanderolsen/libsamplerate-js");
  const converter = await libsamplerate.create(1, clip.rateHz, toRateHz, {
    converterType: libsamplerate.ConverterType.SRC_SINC_BEST_QUALITY,
  });
  try {
    const channels = clip.channels.map((samples) => {
      const padded = new Float32Array(frames + tailFrames(clip.rateHz, toRateHz));
      padded.set(samples);
      const converted = converter.simple(padded);
      if (converted.length < wanted)
        throw new Error(`resample: ${converted.length} of ${wanted} frames came back`);
      return converted.slice(0, wanted);
    });
    return { rateHz: toRateHz, channels };
  } finally {
    converter.destroy();
  }
}

/**
 * An impulse response at another sample rate, of the same gain at every frequency that both rates hold: `resample`,
 * times rateHz / toRateHz.
 *
 * Source: closed form; the response of a sampled system is T h(nT), with T = 1 / rate (Oppenheim and Schafer,
 *   Discrete-Time Signal Processing, impulse invariance; from memory).
 */
export async function resampleResponse(response: Clip, toRateHz: number): Promise<Clip> {
  const { channels } = await resample(response, toRateHz);
  const gain = response.rateHz / toRateHz;
  return { rateHz: toRateHz, channels: channels.map((samples) => samples.map((x) => x * gain)) };
}

/** The filter reaches further at the lower of the two rates. Found by trial: 64 do between 8 and 192 kHz. */
const tailFrames = (fromHz: number, toHz: number): number => Math.ceil(512 * Math.max(1, fromHz / toHz));

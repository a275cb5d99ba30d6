import { fftSizeFor } from "../../sound/dsp/analysisFft.js";
import { realFftOf } from "../../sound/dsp/realAnalysisFft.js";
import { readStretched } from "./fractionalRead.js";
import { mostDrift } from "./locate.js";
import { fitPhaseSlope } from "./phaseSlope.js";
import type { SweepInverse } from "./sweepInverse.js";
import { crossSpectrum, highestLag, spectrumOf } from "./sweepSpectrum.js";
import { markBandHz, type ToneLayout } from "./toneLayout.js";

/** How a recording's frames follow the tone's: recorded frame = origin + stretch * tone frame. */
export interface Clock {
  /** Where the tone's frame 0 arrives, by the loudest arrival; not whole in general. */
  readonly origin: number;
  /** 1 when player and recorder agree; 1.00005 when the recorder is 50 ppm fast. */
  readonly stretch: number;
}

export const driftPpm = ({ stretch }: Clock): number => (stretch - 1) * 1e6;

/**
 * The recorder's clock, first from the marks, then from whole responses: what the first and the last sweep gave must
 * stand the same distance apart as the sweeps were played. With one sweep the marks have the last word.
 */
export function settledClock(signal: Float32Array, inverse: SweepInverse, sweeps: readonly number[]): Clock {
  const { layout, fft } = inverse;
  const { repeats, rateHz } = layout.settings;
  let clock = clockOf(signal, layout, sweeps);
  if (repeats === 1) return clock;
  const apart = layout.sweepStarts[repeats - 1] - layout.sweepStarts[0];
  for (let round = 0; round < 2; round++) {
    const straight = readStretched(signal, clock.origin, clock.stretch, layout.frames);
    const [first, last] = [0, repeats - 1].map((n) => inverse.repeat(straight, n));
    const cross = crossSpectrum(first, last, rateHz, layout.bandHz);
    const most = Math.round(0.0005 * rateHz);
    const start = round === 0 ? highestLag(cross, fft, most) : 0;
    const { delayFrames, agreement } = fitPhaseSlope(cross, start);
    if (agreement < 0.3) return clock;
    const stretch = clock.stretch * (1 + delayFrames / apart);
    if (Math.abs(stretch - 1) > mostDrift) return clock;
    const sweepStart = layout.sweepStarts[0];
    clock = { origin: clock.origin + (clock.stretch - stretch) * sweepStart, stretch };
  }
  return clock;
}

/**
 * The clock from the first and the last sync mark as they came through the unit. What the unit does to a mark it does to
 * both, so that their distance holds the drift alone.
 */
function clockOf(signal: Float32Array, layout: ToneLayout, sweeps: readonly number[]): Clock {
  const { rateHz, repeats, gapSeconds } = layout.settings;
  const [firstMark, lastMark] = [layout.markStarts[0], layout.markStarts[repeats]];
  const ahead = Math.round(0.02 * rateHz);
  const count = layout.markFrames + 2 * ahead + Math.round(Math.min(0.5, gapSeconds / 2) * rateHz);
  const first = sweeps[0] + firstMark - layout.sweepStarts[0] - ahead;
  const last = sweeps[repeats - 1] + lastMark - layout.sweepStarts[repeats - 1] - ahead;
  const fft = realFftOf(fftSizeFor(2 * count));
  const cross = crossSpectrum(
    spectrumOf(signal, fft, first, count),
    spectrumOf(signal, fft, last, count),
    rateHz,
    markBandHz(layout),
  );
  const most = Math.ceil(mostDrift * layout.sweepFrames + 0.005 * rateHz);
  const { delayFrames, agreement } = fitPhaseSlope(cross, highestLag(cross, fft, most));
  const stretch = (last + delayFrames - first) / (lastMark - firstMark);
  const trusted = agreement > 0.3 && Math.abs(stretch - 1) < mostDrift;
  const used = trusted ? stretch : 1;
  return { origin: sweeps[0] - used * layout.sweepStarts[0], stretch: used };
}

import { allPassEnergy } from "./allPassEnergy.js";
import { decayGain } from "./decayGain.js";

/**
 * The published constants of a spring's low-frequency chirps.
 * Source: V. Valimaki, J. S. Parker and J. S. Abel, "Parametric spring reverberation effect", J. Audio Eng. Soc. 58(7/8),
 * 2010, section 4: 100 all-passes of coefficient 0.75; pre-echo at a fifth of the delay with gain 0.1; negative loop.
 */
const springSections = 100;
export const springCoefficient = 0.75;
export const preEchoGain = 0.1;
const preEchoShare = 1 / 5;
/** Round trip for which those sections are meant; a longer spring disperses more. */
const publishedEchoMs = 56;

export interface SpringSettings {
  readonly decaySeconds: number;
  /** Round trip of the slowest waves. */
  readonly echoSeconds: number;
  /** Rate at which the spring is computed: twice the transition frequency. */
  readonly rateHz: number;
  /** Delay that the caller adds to the first arrival, in samples. */
  readonly lagSamples: number;
}
export interface SpringDesign {
  readonly sections: number;
  /** Factor of one sample's loss. */
  readonly gain: number;
  readonly preEchoSamples: number;
  /** The delay line: where the first arrival is heard, and where the wave turns back. */
  readonly heardSamples: number;
  readonly lineSamples: number;
  /** Energy of the response to an impulse of 1, echoes taken as unrelated. */
  readonly energy: number;
}

/**
 * A spring as a loop: chirp, pre-echo, delay line, back with a minus sign. A wave of low frequency comes back after
 * `echoSeconds`, all delays counted; it is first heard at half of that, having crossed the spring once.
 * The pre-echo is an all-pass (0.1 a fifth of the delay ahead of the echo itself), and every delay loses by its length,
 * so that each frequency decays in exactly `decaySeconds`; with the published loop gain of -0.8 and lossless sections
 * high frequencies, which take longer round, would ring twice as long as low ones.
 */
export function springDesign({
  decaySeconds,
  echoSeconds,
  rateHz,
  lagSamples,
}: SpringSettings): SpringDesign {
  const echoSamples = echoSeconds * rateHz;
  const sections = 4 * Math.round((springSections * echoSeconds) / (publishedEchoMs / 1000) / 4);
  const chirpSamples = (sections * (1 - springCoefficient)) / (1 + springCoefficient);
  const lineAndPreEcho = echoSamples - chirpSamples;
  const preEchoSamples = Math.max(1, Math.round(lineAndPreEcho * preEchoShare));
  const lineSamples = Math.max(1, Math.round(lineAndPreEcho) - preEchoSamples);
  const heardSamples = Math.max(0, Math.round(echoSamples / 2 - chirpSamples - preEchoSamples - lagSamples));
  const loss = (samples: number) => decayGain(samples, decaySeconds, rateHz);
  const chirpAndPreEcho =
    allPassEnergy(springCoefficient, loss(1)) ** sections * allPassEnergy(preEchoGain, loss(preEchoSamples));
  return {
    sections,
    gain: loss(1),
    preEchoSamples,
    heardSamples,
    lineSamples,
    energy: (chirpAndPreEcho * loss(heardSamples) ** 2) / (1 - chirpAndPreEcho * loss(lineSamples) ** 2),
  };
}

import { bandReasons, needsReference } from "./bandReasons.js";
import type { Measures } from "./measures.js";
import type { StereoEnergies } from "./stereoSums.js";

type Known = Omit<Measures, "reasons">;
interface Facts {
  readonly energies: StereoEnergies;
  readonly rateHz: number;
  readonly integratedLufs: number | null;
}

const needsWiring = "needs a wiring; only a comparison of routings knows one";

/**
 * Why each field of `measures` that is null is so, in plain words, by its name; a field of bands as `bands.levelDb`,
 * with the bands' centres.
 */
export function reasonsOf(
  measures: Known,
  energies: StereoEnergies,
  rateHz: number,
): Readonly<Record<string, string>> {
  const facts = { energies, rateHz, integratedLufs: measures.integratedLufs };
  const whole = wholeFields
    .filter(([field]) => measures[field] === null)
    .map(([field, why]) => [field, silenceOf(energies) ?? why(facts)]);
  return Object.fromEntries([...whole, ...bandReasons(measures, rateHz)]);
}

const wholeFields: readonly (readonly [keyof Known, (facts: Facts) => string])[] = [
  ["correlation", sideSilent],
  ["correlationOverTime", (facts) => shorterThan(0.4, facts) ?? "no 400 ms have sound in both channels"],
  ["iacc", sideSilent],
  ["sideShare", sideSilent],
  ["sideToMidDb", ({ energies }) => (energies.side > 0 ? "there is no middle" : "there is no side: mono")],
  ["widthKept", () => needsReference],
  ["balanceDb", sideSilent],
  [
    "foldDownLossDb",
    (facts) => (facts.integratedLufs === null ? notLoud(facts) : "left and right cancel entirely in mono"),
  ],
  ["worstFoldDownHz", () => "no band loses anything in mono"],
  ["integratedLufs", notLoud],
  ["shortTermMaxLufs", (facts) => shorterThan(3, facts) ?? "no 3 s have sound"],
  ["momentaryMaxLufs", (facts) => shorterThan(0.4, facts) ?? "no 400 ms have sound"],
  ["loudnessRangeLu", (facts) => shorterThan(3, facts) ?? "no 3 s reach -70 LUFS"],
  ["truePeakDbtp", () => "silent"],
  ["samplePeakDbfs", () => "silent"],
  ["centroidHz", () => "nothing sounds between 50 Hz and 16 kHz"],
  ["tiltDbPerOctave", () => "fewer than three third octaves hold sound"],
  ["decay", () => needsWiring],
  ["wetToDryDb", () => needsWiring],
  ["comb", () => needsWiring],
];

function silenceOf({ frames, left, right }: StereoEnergies): string | null {
  if (frames === 0) return "there is no sound: 0 frames";
  return left + right > 0 ? null : "the sound is silent";
}

function sideSilent({ energies }: Facts): string {
  return `the ${energies.left > 0 ? "right" : "left"} channel is silent`;
}

function notLoud(facts: Facts): string {
  return shorterThan(0.4, facts) ?? "never above -70 LUFS, where measuring loudness starts";
}

function shorterThan(leastSeconds: number, { energies, rateHz }: Facts): string | null {
  const seconds = energies.frames / rateHz;
  if (seconds >= leastSeconds) return null;
  return `the sound lasts ${seconds.toFixed(3)} s; this takes ${leastSeconds} s`;
}

import type { Measures } from "./measures.js";
import type { StereoEnergies } from "./stereoSums.js";

type Known = Omit<Measures, "reasons">;
interface Facts {
  readonly energies: StereoEnergies;
  readonly rateHz: number;
  readonly integratedLufs: number | null;
}

const needsWiring = "needs a wiring; only a comparison of routings knows one";
const needsReference = "needs a reference to compare with";

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
  return Object.fromEntries([...whole, ...bandReasons(measures, facts)]);
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

function bandReasons({ bands, thirds }: Known, facts: Facts): string[][] {
  const reasons: string[][] = [
    ["bands.toDryDb", needsReference],
    ["bands.toReferenceDb", needsReference],
    ["thirds.toDryDb", needsReference],
    ["thirds.toReferenceDb", needsReference],
  ];
  const note = (field: string, why: string, centresHz: readonly number[]) => {
    if (centresHz.length > 0)
      reasons.push([field, `${centresHz.join(", ")} Hz: ${silenceOf(facts.energies) ?? why}`]);
  };
  const halfHz = facts.rateHz / 2;
  const past = `not below half the rate, ${halfHz} Hz, or silent`;
  const empty = (field: "correlation" | "sideShare" | "foldDownLossDb") =>
    bands.filter((band) => band.levelDb !== null && band[field] === null).map(({ centreHz }) => centreHz);
  note(
    "bands.levelDb",
    past,
    bands.filter(({ levelDb }) => levelDb === null).map(({ centreHz }) => centreHz),
  );
  note(
    "thirds.levelDb",
    past,
    thirds.filter(({ levelDb }) => levelDb === null).map(({ centreHz }) => centreHz),
  );
  note("bands.correlation", "over 100 dB below the loudest band, or one side silent", empty("correlation"));
  note("bands.sideShare", "over 100 dB below the loudest band", empty("sideShare"));
  note(
    "bands.foldDownLossDb",
    "cancels in mono, or over 100 dB below the loudest band",
    empty("foldDownLossDb"),
  );
  return reasons;
}

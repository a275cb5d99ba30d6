import type { CorrelationSummary } from "../../sound/measure/correlationOverTime.js";
import { octaveBands, thirdOctaveBands } from "../../sound/measure/isoBands.js";
import type { BandMeasures, Comb, Decay, Measures } from "../../sound/measure/measures.js";

/** A measure of one setting; null where it is undefined, or not known. */
export type Figure = number | null;

/** What figures are taken from: all of a render's measures, or those that a mix has without its sound. */
export type Measured = Omit<Measures, "reasons" | "widthKept" | "decay" | "comb" | "correlationOverTime"> & {
  readonly correlationOverTime: CorrelationSummary | null;
  readonly decay?: Decay | null;
  readonly comb?: Comb | null;
  readonly truePeakAtMostDbtp?: number | null;
};

type Reader = readonly [name: string, read: (measures: Measured) => Figure];

const octaveFigures = ["levelDb", "correlation", "sideShare", "foldDownLossDb"] as const;

/** Every figure, by the name of its column in report.csv, and how it is read off. */
const readers: readonly Reader[] = [
  ["correlation", (m) => m.correlation],
  ["correlationMedian", (m) => m.correlationOverTime?.median ?? null],
  ["correlationPercentile5", (m) => m.correlationOverTime?.percentile5 ?? null],
  ["correlationShareBelowZero", (m) => m.correlationOverTime?.shareBelowZero ?? null],
  ["iacc", (m) => m.iacc],
  ["sideShare", (m) => m.sideShare],
  ["sideToMidDb", (m) => m.sideToMidDb],
  ["balanceDb", (m) => m.balanceDb],
  ["foldDownLossDb", (m) => m.foldDownLossDb],
  ["worstFoldDownHz", (m) => m.worstFoldDownHz],
  ["integratedLufs", (m) => m.integratedLufs],
  ["shortTermMaxLufs", (m) => m.shortTermMaxLufs],
  ["momentaryMaxLufs", (m) => m.momentaryMaxLufs],
  ["loudnessRangeLu", (m) => m.loudnessRangeLu],
  ["truePeakDbtp", (m) => m.truePeakDbtp],
  ["truePeakAtMostDbtp", (m) => m.truePeakAtMostDbtp ?? m.truePeakDbtp],
  ["samplePeakDbfs", (m) => m.samplePeakDbfs],
  ["centroidHz", (m) => m.centroidHz],
  ["tiltDbPerOctave", (m) => m.tiltDbPerOctave],
  ["wetToDryDb", (m) => m.wetToDryDb],
  ["edtSeconds", (m) => m.decay?.edtSeconds ?? null],
  ["t20Seconds", (m) => m.decay?.t20Seconds ?? null],
  ["t30Seconds", (m) => m.decay?.t30Seconds ?? null],
  ["combDelayMs", (m) => m.comb?.delayMs ?? null],
  ["combLevelDb", (m) => m.comb?.levelDb ?? null],
  ["combFirstNotchHz", (m) => m.comb?.notchesHz[0] ?? null],
  ...octaveBands.flatMap(({ centreHz }, k) =>
    octaveFigures.map(
      (figure): Reader => [bandFigure("octave", centreHz, figure), (m) => m.bands[k][figure]],
    ),
  ),
  ...thirdOctaveBands.map(
    ({ centreHz }, k): Reader => [bandFigure("third", centreHz, "levelDb"), (m) => m.thirds[k].levelDb],
  ),
];

export const figureNames: readonly string[] = readers.map(([name]) => name);

/** Side share over that of the reference routing at the same setting: known once both are. */
export const widthKept = "widthKept";

/** Every name that a wish may use. */
export const wishNames: readonly string[] = [...figureNames, widthKept];

/** Figures that take a render: mixing stems tells no more of them than a bound of the true peak. */
export const renderedFigures: ReadonlySet<string> = new Set([
  "truePeakDbtp",
  "samplePeakDbfs",
  "edtSeconds",
  "t20Seconds",
  "t30Seconds",
]);

/** In the order of `figureNames`. */
export const figuresOf = (measures: Measured): Figure[] => readers.map(([, read]) => read(measures));

function bandFigure(prefix: string, centreHz: number, figure: keyof BandMeasures): string {
  return `${prefix}${centreHz}Hz${figure.charAt(0).toUpperCase()}${figure.slice(1)}`;
}

export const namedFigures = (figures: readonly Figure[]): Record<string, Figure> =>
  Object.fromEntries(figureNames.map((name, k) => [name, figures[k] ?? null]));

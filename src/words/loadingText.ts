import type { Peak } from "../rig/wiring/pickupCircuit.js";
import { columnsText, widest, wrapped } from "../text/columns.js";
import { fixed, frequency, noFigure, signed, trimmed } from "../text/numbers.js";
import { sentence } from "../text/words.js";
import type { Load, Loading, SourceLoss, SplitLoad } from "../work/levels/loading.js";

/**
 * Common practice, no source: an input of ten times the source or more is the rule (20 log10(10 / 11) is -0.83 dB), and
 * treble is missed once the corner comes under 10 kHz.
 */
const worth = { lossDb: -0.83, cornerHz: 10_000 };

/** Every output that drives something, with what it loses, and what a pickup does; empty when the rig gives no impedance. */
export function loadingTable({ loads }: Loading, columns: number): string {
  return [ohmsTable(loads, columns), pickupTable(loads, columns)].filter((table) => table !== "").join("\n");
}

/** A pickup's treble against its low frequencies. */
function pickupTable(loads: readonly Load[], columns: number): string {
  const rows = loads
    .filter(
      ({ source, sourceOhms, loadOhms }) => source === "pickup" && sourceOhms !== null && loadOhms !== null,
    )
    .map((load) => [
      "",
      wayText(load),
      load.resonance ? cornerText(load.resonance.hz) : noFigure,
      signed(load.resonance?.db ?? null, 1),
      cornerText(load.cornerHz),
    ]);
  if (rows.length === 0) return "";
  return columnsText(
    [
      { heading: ["", ""], align: "left" },
      {
        heading: ["pickup", ""],
        align: "left",
        width: Math.min(columns - 44, widest(rows.map((row) => row[1]))),
      },
      { heading: ["resonance", "at"], align: "right" },
      { heading: ["height", "dB"], align: "right" },
      { heading: ["upper", "-3 dB"], align: "right" },
    ],
    rows,
  );
}

function ohmsTable(loads: readonly Load[], columns: number): string {
  const known = loads.filter(({ sourceOhms, loadOhms }) => sourceOhms !== null || loadOhms !== null);
  if (known.length === 0) return "";
  const figures = 49;
  const rows = known.map((load) => [
    "",
    wayText(load),
    ohmsText(load.sourceOhms),
    ohmsText(load.loadOhms),
    fixed(load.lossDb, 2),
    fixed(load.cablePicofarads, 0),
    cornerText(load.cornerHz),
  ]);
  return columnsText(
    [
      { heading: ["", ""], align: "left" },
      {
        heading: ["loading", ""],
        align: "left",
        width: Math.min(columns - figures, Math.max(...rows.map((row) => row[1].length))),
      },
      { heading: ["source", "ohms"], align: "right" },
      { heading: ["load", "ohms"], align: "right" },
      { heading: ["loss", "dB"], align: "right" },
      { heading: ["cable", "pF"], align: "right" },
      { heading: ["corner", "-3 dB"], align: "right" },
    ],
    rows,
  );
}

/** What is worth a word about loading: too much loss, too low a corner, what the splitter's buffer saves. */
export function loadingRemarks(loading: Loading): readonly string[] {
  return [
    ...loading.loads.flatMap((load) => [
      ...((load.lossDb ?? 0) < worth.lossDb
        ? [`${wayText(load)}: loading takes ${fixed(-(load.lossDb ?? 0), 1)} dB`]
        : []),
      ...(load.source === "pickup" && load.cornerHz !== null
        ? [`${wayText(load)}: with this cable and load the pickup has ${trebleText(load)}`]
        : (load.cornerHz ?? Number.POSITIVE_INFINITY) < worth.cornerHz
          ? [`${wayText(load)}: the cable takes treble from ${frequency(load.cornerHz ?? 0)} up`]
          : []),
    ]),
    ...loading.splits.flatMap((split) => splitText(split) ?? []),
  ];
}

/** For a build sheet: what is worst, and what the splitters' buffers are worth; null without impedances. */
export function loadingSummary(loading: Loading): string | null {
  const most = worst(loading.loads, ({ lossDb }) => lossDb);
  const lowest = worst(loading.loads, ({ cornerHz, source }) => (source === "pickup" ? null : cornerHz));
  if (!most && !lowest) return null;
  const parts = [
    ...(most ? [`at most ${fixed(-(most.lossDb ?? 0), 2)} dB lost, ${wayText(most)}`] : []),
    ...(lowest ? [`lowest corner ${cornerText(lowest.cornerHz)}, ${wayText(lowest)}`] : []),
    ...loading.loads.flatMap((load) =>
      load.source === "pickup" && load.cornerHz !== null
        ? [`the pickup has ${trebleText(load)}, ${wayText(load)}`]
        : [],
    ),
    ...loading.splits.flatMap((split) => splitText(split) ?? []),
    ...resistanceNote([loading]),
  ];
  return [`${parts.join("; ")}.`, ...loading.usualCoil].join(" ");
}

/** What the rig leaves out, each once, in a paragraph; none where nothing is missing. */
export function notGiven(loadings: readonly Loading[], columns: number): readonly string[] {
  const missing = [...new Set(loadings.flatMap((loading) => loading.missing))];
  const usual = [...new Set(loadings.flatMap(({ usualCoil }) => usualCoil))];
  const notes = missing.length === 0 ? [] : [`not given for loading: ${missing.join("; ")}`];
  const sentences = [...usual, ...[...notes, ...resistanceNote(loadings)].map(sentence)];
  return sentences.length === 0 ? [] : [wrapped(sentences.join(" "), columns, 2)];
}

/** An instrument of whose coil nothing is known: nothing is told of its treble then, and why. */
function resistanceNote(loadings: readonly Loading[]): readonly string[] {
  const taken = loadings
    .flatMap(({ loads }) => loads)
    .find(({ source, sourceOhms }) => source === "unknown" && sourceOhms !== null);
  return taken
    ? [
        `${taken.from} is taken as a resistance: the rig gives no henries; a pickup's own resonance is not in this`,
      ]
    : [];
}

function splitText({ box, buffered, withBuffer, without, mostApart }: SplitLoad): string | null {
  if (withBuffer.lossDb === null || without.lossDb === null) return null;
  const words = (kind: string, loss: SourceLoss) =>
    `${kind} takes ${fixed(-(loss.lossDb ?? 0), 2)} dB${trebleIn(loss)}`;
  const both = buffered
    ? [words("a buffered splitter", withBuffer), words("a passive one", without)]
    : [words("a passive splitter", without), words("a buffered one", withBuffer)];
  return `ahead of ${box} ${both.join(", ")}${mostApart ? apartText(mostApart) : ""}`;
}

function trebleIn(loss: SourceLoss): string {
  if (loss.source === "unknown") return "";
  return loss.source === "pickup" ? ` (${trebleText(loss)})` : ` (corner ${cornerText(loss.cornerHz)})`;
}

/** `a resonance of +12.1 dB at 3.5 kHz and -3 dB at 5.4 kHz`, against low frequencies. */
function trebleText({ resonance, cornerHz }: SourceLoss): string {
  const peak =
    resonance && resonance.db >= leastPeakDb
      ? `a resonance of ${signed(resonance.db, 1)} dB at ${cornerText(resonance.hz)}`
      : "no resonance left";
  return `${peak} and -3 dB at ${cornerText(cornerHz)}`;
}

/** What one decimal shows. */
const leastPeakDb = 0.05;

const apartText = ({ hz, db }: Peak): string =>
  `; by the passive one ${cornerText(hz)} is ${fixed(Math.abs(db), 1)} dB ${db < 0 ? "softer" : "louder"}, where the two are most apart`;

function worst(loads: readonly Load[], figure: (load: Load) => number | null): Load | null {
  return loads.reduce<Load | null>(
    (found, load) =>
      figure(load) !== null && (found === null || figure(load)! < figure(found)!) ? load : found,
    null,
  );
}

/** `Instrument > Splitter`, `Ledger, out left > Mixer`. */
function wayText({ from, fromJack, to, through }: Load): string {
  const jack = / (left|right|\d+)$/.test(fromJack) ? `, ${fromJack}` : "";
  const by = through.length > 0 ? ` by ${through.join(", ")}` : "";
  const ends = [...new Set(to.map(({ box }) => box))];
  return `${from}${jack}${by} > ${ends.join(" and ")}`;
}

/** Beyond this no treble is lost, and no cable is that exact. */
const highestCornerHz = 200_000;

function cornerText(hz: number | null): string {
  if (hz === null) return noFigure;
  return hz > highestCornerHz ? `over ${frequency(highestCornerHz)}` : frequency(Math.round(hz / 100) * 100);
}

/** `150`, `10 k`, `1 M`. */
function ohmsText(ohms: number | null): string {
  if (ohms === null) return noFigure;
  if (ohms >= 1e6) return `${trimmed(ohms / 1e6, 2)} M`;
  return ohms >= 1e3 ? `${trimmed(ohms / 1e3, 1)} k` : trimmed(ohms, 0);
}

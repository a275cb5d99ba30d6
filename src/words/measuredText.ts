import { type Measures, measures } from "../sound/measure/measures.js";
import { type Column, columnsText, gap, widest, wrapped } from "../text/columns.js";
import { fixed, trimmed } from "../text/numbers.js";
import type { MeasuredFile, MeasuredReport } from "../work/recordings/measured.js";
import { csvText, measureCells } from "./csv.js";
import { formatted } from "./figureText.js";

/** Recordings as a person reads them: a row each, the reference marked by a star, then what should be known of them. */
export function measuredText(measured: MeasuredReport, columns: number): string {
  const { recordings, reference } = measured;
  const all = figuresFor(reference !== null).map((figure) => ({
    ...figure,
    cells: recordings.map((recording) => figure.of(recording.measures, recording)),
  }));
  const figures = all.slice(0, fitting(all, columns));
  const room = columns - widthOf(figures);
  const layout: Column[] = [
    { heading: ["", ""], align: "left" },
    {
      heading: ["recording", ""],
      align: "left",
      width: Math.max(leastNameWidth, Math.min(room, widest(recordings.map(({ file }) => file)))),
    },
    ...figures.map(({ heading }): Column => ({ heading, align: "right" })),
  ];
  const rows = recordings.map(({ file }, n) => [
    file === reference ? "*" : "",
    file,
    ...figures.map(({ cells }) => cells[n]),
  ]);
  const left = all.slice(figures.length).map(({ name }) => name);
  const notes = [
    ...(left.length > 0 ? [`Left out for want of room: ${left.join(", ")}; see --csv.`] : []),
    ...notesOf(measured),
  ].map((note) => wrapped(note, columns, 2));
  return `${columnsText(layout, rows)}\n\n${notes.join("\n")}`;
}

/** Room for a name, which is wrapped. */
const leastNameWidth = 9;

type Filled = Figure & { readonly cells: readonly string[] };

/** The mark, the gaps and the figures. */
const widthOf = (figures: readonly Filled[]): number =>
  figures.reduce((sum, { heading, cells }) => sum + widest([...heading, ...cells]) + gap, 1 + gap);

/** How many of the figures there is room for beside a name, from the first on. */
function fitting(figures: readonly Filled[], columns: number): number {
  let count = figures.length;
  while (count > 1 && widthOf(figures.slice(0, count)) + leastNameWidth > columns) count--;
  return count;
}

/** Recordings as CSV: a row each, every measure, full precision. */
export function measuredCsv({ recordings, reference, schemaVersion }: MeasuredReport): string {
  return csvText(
    recordings.map(({ file, sha256, rateHz, frames, channels, measures }) => ({
      schemaVersion,
      file,
      sha256,
      rateHz,
      frames,
      channels,
      isReference: file === reference,
      ...measureCells(measures),
    })),
  );
}

interface Figure {
  readonly name: string;
  readonly heading: readonly [string, string];
  readonly of: (measures: Measures, recording: MeasuredFile) => string;
}

function figuresFor(hasReference: boolean): readonly Figure[] {
  return [
    {
      name: "length",
      heading: ["length", "s"],
      of: (_measures, { frames, rateHz }) => fixed(frames / rateHz, 1),
    },
    ...shown.flatMap(({ id, from, name, unit, heading = [name, unit], format, tables }): Figure[] =>
      from === "reference" && !hasReference
        ? []
        : [
            {
              name,
              heading: tables.recordings?.heading ?? heading,
              of: (found) => formatted(found[id], format),
            },
          ],
    ),
  ];
}

const shown = measures.flatMap((measure) =>
  measure.shape === "number" && measure.tables.recordings ? [measure] : [],
);

function notesOf({ recordings, reference }: MeasuredReport): readonly string[] {
  const rates = new Set(recordings.map(({ rateHz }) => `${trimmed(rateHz / 1000, 3)} kHz`));
  const remarks = new Map<string, string[]>();
  for (const { file, channels, notices, measures } of recordings) {
    const mono = channels === 1 ? ["one channel, so there is no width to measure"] : [];
    for (const remark of [...mono, ...notices, ...whyEmpty(measures)]) {
      remarks.set(remark, [...(remarks.get(remark) ?? []), file]);
    }
  }
  return [
    ...(reference === null ? [] : ["* the reference: width kept and tone are compared with it"]),
    ...[...remarks].map(([remark, files]) => `${files.join(", ")}: ${remark}.`),
    ...(rates.size > 1 ? [`The sample rates differ: ${[...rates].join(", ")}.`] : []),
    "Spectra, bands, loudness range and the rest: --json or --csv.",
  ];
}

/** Why figures of the table are missing, each reason once. */
function whyEmpty({ reasons }: Measures): readonly string[] {
  const own = shown.filter(({ from }) => from === "sound");
  return [...new Set(own.flatMap(({ id }) => reasons[id] ?? []))];
}

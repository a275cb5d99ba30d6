import { wrapped } from "../text/columns.js";
import { duration } from "../text/numbers.js";
import { andList, capital, ended } from "../text/words.js";
import type { PlannedTones } from "../work/proof/plannedTones.js";
import type { AskedRecording } from "../work/proof/recordingList.js";
import { benchCautions } from "./benchCautions.js";
import { recordingWords } from "./recordingWords.js";

/** What to record of a board, in order, and what to mind before a tone sounds. */
export function plannedTonesText(planned: PlannedTones, columns: number): string {
  const { rig, plan, outputs, list, lengthSeconds, rateHz, tones } = planned;
  const files = Object.entries(tones).map(([feed, file]) =>
    feed === "both" ? file : `${file} (${feed} alone)`,
  );
  return [
    wrapped(`${rig}, ${plan.id}: what to record to prove it`, columns),
    wrapped(
      `The tone: ${andList(files)}, ${duration(lengthSeconds)} at ${rateHz} Hz. Play it from one output of the interface into the board where the instrument goes in; record ${outputs === 2 ? "both outputs of the board at once, left and right of one stereo file, both inputs at one gain" : "the board's output in mono"}. Touch no level from the first recording to the last. Start each recording ahead of the tone.`,
      columns,
    ),
    [
      "Record, in this order:",
      ...list.map((asked, n) => wrapped(lineOf(asked, tones), columns, 6, `${String(n + 1).padStart(4)}  `)),
    ].join("\n"),
    ...(planned.hasBuffer
      ? [
          wrapped(
            "To have a Y told from a buffered splitter, play through a resistor of 10 kilohms or so in series, soldered into a plug, and say --source-ohms 10000: to an interface by itself they are alike.",
            columns,
          ),
        ]
      : []),
    ...notes(list).map((note) => wrapped(note, columns)),
    ["Mind:", ...benchCautions.map((caution) => wrapped(caution, columns, 4, "  - "))].join("\n"),
  ].join("\n\n");
}

function lineOf(asked: AskedRecording, tones: PlannedTones["tones"]): string {
  const tone = asked.feed === "both" ? "" : ` (${tones[asked.feed]})`;
  const says = asked.offLabels.length === 0 ? "everything on, as in the plan" : recordingWords(asked);
  return ended(`${capital(says)}${tone}`);
}

function notes(list: readonly AskedRecording[]): readonly string[] {
  const [first] = list;
  const swinging = first.swinging.length > 0 ? andList(first.swinging) : null;
  const driven = first.driven.length > 0 ? andList(first.driven) : null;
  return [
    ...(swinging
      ? [
          `${swinging} may swing as set where on: only averages are read then. Switched off in the others, exact figures come of those.`,
        ]
      : []),
    ...(driven ? [`${driven}: the gain hangs on the level, so only what does not is read where on.`] : []),
  ];
}

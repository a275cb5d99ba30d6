import { capturedEdits } from "../../../rig/file/capturedEdits.js";
import { ended } from "../../../text/words.js";
import { captureRows, driftWords, verdictWords, withoutOptions } from "../../../words/captureWords.js";
import type { CapturedResponse } from "../../../work/capture/captured.js";
import { button } from "../../widgets/button.js";
import { scroller, table } from "../../widgets/dataTable.js";
import { type Child, el, fill, setText } from "../../widgets/dom.js";
import { download } from "../../widgets/download.js";
import type { View } from "../view.js";

/** What a measurement found, and the way into the rig. */
export function captureResult(view: View) {
  const { bench, say } = view;
  const node = el("section", { class: "capture-result", "aria-label": "What was found" });
  const fault = el("p", { class: "fault", role: "alert" });
  let shown: CapturedResponse | null = null;

  const put = async (unit: string, captured: CapturedResponse) => {
    setText(fault, "");
    try {
      const { desk } = bench;
      const edits = capturedEdits(desk.data, unit, captured.rigLines, keepsLatency(captured));
      if (edits.length === 0)
        return setText(
          fault,
          `There is no ${unit} in the rig any more. Give a pedal that name, and try again.`,
        );
      await bench.loadSoundFile(bench.capture.response());
      desk.edit(`${unit}, as measured`, edits);
      say(`${unit} is in the rig as it was measured.`);
    } catch (error) {
      setText(fault, error instanceof Error ? error.message : String(error));
    }
  };

  const contents = (unit: string, captured: CapturedResponse): readonly Child[] => [
    el("h3", {}, `What was found of ${unit}`),
    scroller("Figures of the unit", facts(captured)),
    el("p", { class: "small" }, driftWords(captured)),
    el("p", {}, verdictWords(captured)),
    el(
      "ul",
      { class: "notices" },
      ...[...captured.statements, ...captured.recording.notices.map(ended)].map((words) =>
        el("li", {}, withoutOptions(words)),
      ),
    ),
    el("p", {}, "For the rig file:"),
    el(
      "pre",
      { class: "rig-lines", tabindex: 0, "aria-label": "Lines for the rig file" },
      captured.rigLines.join("\n"),
    ),
    el("p", { class: "hint" }, keepsLatency(captured) ? `${putHint} ${latencyHint}` : putHint),
    el(
      "p",
      { class: "actions" },
      button(`Put it into the rig as ${unit}`, () => void put(unit, captured), "strong"),
      saveButton("Save the response", () => bench.capture.response()),
      saveButton("Save the recording", () => bench.capture.recording()),
    ),
    fault,
  ];

  return {
    node,
    update() {
      const { state } = bench.capture;
      if (state.kind !== "found" || state.captured === shown) return;
      shown = state.captured;
      fill(node, ...contents(state.unit, state.captured));
    },
  };
}

function facts(captured: CapturedResponse): HTMLTableElement {
  const [channel] = captured.channels;
  const heading = captured.channels.length === 1 ? "found" : channel.channel;
  return table(
    "Left is the unit, right the plain cable, where there is one.",
    [{ heading: "what" }, { heading, text: true }],
    captureRows(captured),
  );
}

/** Hands a file to the person. */
export function saveButton(words: string, file: () => File | null): HTMLButtonElement {
  return button(words, () => {
    const made = file();
    if (made) download(made, made.name);
  });
}

/** Without a cable the time ahead of the first sound is not in the response: what the pedal said of it still holds. */
const keepsLatency = ({ latencyAgainst, unit }: CapturedResponse): boolean =>
  latencyAgainst !== "reference" && unit.latencyFrames === null;

const latencyHint = "No latency was found: the one that the rig has for it stays.";
const putHint =
  "These lines take the place of the pedal's model and settings; its mix stays as you play it. What it said of polarity, level and dry sound gives way to them. Undo brings it back. For a rig file on disk, save the response beside it.";

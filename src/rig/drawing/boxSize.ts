import { wetWords } from "../wiring/wetWords.js";
import { type Box, inputJacks, outputJacks } from "../wiring/wiring.js";

/** A box as it will be drawn, before it has a place: its text in lines, its size, its jacks on its left and right edge. */
export interface SizedBox {
  readonly lines: readonly string[];
  readonly note: string;
  readonly width: number;
  readonly height: number;
  readonly jacks: readonly SizedJack[];
}
interface SizedJack {
  readonly name: string;
  readonly side: "in" | "out";
  /** From the box's own corner. */
  readonly x: number;
  readonly y: number;
}

/** Measures of the drawing, px. Text is set at 13 px (names), 11 px (note and jacks). */
export const drawing = {
  lineHeight: 17,
  rowHeight: 18,
  padding: 8,
  nameCharWidth: 8.6,
  jackCharWidth: 6.1,
  /** A name longer than this is broken; one longer than three lines ends in an ellipsis. */
  lineChars: 18,
  mostLines: 3,
} as const;

/**
 * The size that a box needs for its name, its note and one row a jack. There are no font metrics here, so widths are
 * counted by characters, generously; a wide (East Asian) one counts double.
 * @param rowHeight  of a jack, px
 */
export function sizeBox(box: Box, rowHeight: number = drawing.rowHeight): SizedBox {
  const { lineHeight, padding, nameCharWidth, jackCharWidth } = drawing;
  const lines = brokenLines(box.label);
  const note = noteOf(box);
  const ins = inputJacks(box);
  const outs = outputJacks(box);
  const head = padding + lineHeight * (lines.length + (note ? 1 : 0)) + 4;
  const width = Math.ceil(
    2 * padding +
      Math.max(
        widest(lines) * nameCharWidth,
        columns(note) * jackCharWidth,
        (widest(ins) + widest(outs) + (ins.length && outs.length ? 3 : 0)) * jackCharWidth,
      ),
  );
  const row = (side: "in" | "out", x: number) => (name: string, n: number) => ({
    name,
    side,
    x,
    y: head + rowHeight * (n + 0.5),
  });
  return {
    lines,
    note,
    width,
    height: head + rowHeight * Math.max(ins.length, outs.length) + padding / 2,
    jacks: [...ins.map(row("in", 0)), ...outs.map(row("out", width))],
  };
}

function noteOf(box: Box): string {
  switch (box.kind) {
    case "pedal":
      return box.fullyWet ? `${box.pedal.model}, ${wetWords(box.pedal)}` : box.pedal.model;
    case "splitter":
      return box.buffered ? "buffered" : "passive";
    case "summing-box":
      return `mean of ${box.inputs}`;
    case "mixer":
      return box.outputs === 2 ? "stereo" : "mono";
    case "take":
    case "destination":
      return "";
  }
}

/** Words into lines of at most `lineChars`; a word that is longer is cut where the line ends. */
function brokenLines(text: string): readonly string[] {
  const { lineChars, mostLines } = drawing;
  const lines: string[] = [];
  let line = "";
  for (const word of text.split(/\s+/).flatMap(pieces)) {
    if (line && columns(`${line} ${word}`) > lineChars) {
      lines.push(line);
      line = word;
    } else line = line ? `${line} ${word}` : word;
  }
  lines.push(line);
  if (lines.length <= mostLines) return lines;
  return [...lines.slice(0, mostLines - 1), `${lines[mostLines - 1]}\u2026`];
}

function pieces(word: string): string[] {
  const cut: string[] = [];
  let piece = "";
  for (const char of word) {
    if (columns(piece + char) > drawing.lineChars) {
      cut.push(piece);
      piece = "";
    }
    piece += char;
  }
  return [...cut, piece];
}

const wide =
  /[\u1100-\u115f\u2e80-\ua4cf\uac00-\ud7a3\uf900-\ufaff\ufe30-\ufe6f\uff00-\uff60\u{1f300}-\u{1faff}]/u;
const columns = (text: string): number => [...text].reduce((sum, char) => sum + (wide.test(char) ? 2 : 1), 0);
const widest = (texts: readonly string[]): number => Math.max(0, ...texts.map(columns));

import Table from "cli-table3";

export interface Column {
  /** Lines of the heading: name above, unit below. */
  readonly heading: readonly string[];
  readonly align: "left" | "right";
  /** Wrap the cells at this width; unless given, a column is as wide as its widest cell. */
  readonly width?: number;
}

/** Space between two columns. */
export const gap = 2;

/** Characters of the longest text; 1 when there is none. */
export const widest = (texts: readonly string[]): number => Math.max(1, ...texts.map((text) => text.length));

/** Columns of text without lines around them; nothing is cut: what is wider than its column is wrapped. */
export function columnsText(columns: readonly Column[], rows: readonly (readonly string[])[]): string {
  const table = new Table({
    chars: noLines,
    style: { head: [], border: [], "padding-left": 0, "padding-right": 0, compact: true },
    colAligns: columns.map(({ align }) => align),
    colWidths: columns.map(({ width }) => width ?? null),
    wordWrap: true,
    wrapOnWordBoundary: true,
  });
  const headingLines = Math.max(...columns.map(({ heading }) => heading.length));
  for (let line = 0; line < headingLines; line++) {
    table.push(columns.map(({ heading }) => heading[line] ?? ""));
  }
  table.push(...rows.map((row) => row.map((cell, n) => broken(cell, columns[n].width))));
  return trimEnds(table.toString());
}

/** Words longer than a column in pieces that fit: the library would cut them off. */
function broken(cell: string, width: number | undefined): string {
  if (width === undefined) return cell;
  return cell
    .split(" ")
    .map((word) => pieces(word, width).join("\n"))
    .join(" ");
}

/** Cut behind a dot or a hyphen where one is in the second half of the line, else where the line is full. */
function pieces(word: string, width: number): string[] {
  const made: string[] = [];
  let line = "";
  for (const character of word) {
    if (line !== "" && widthOf(line) + cells(character) > width) {
      const joint = Math.max(line.lastIndexOf("."), line.lastIndexOf("-")) + 1;
      const end = joint > line.length / 2 ? joint : line.length;
      made.push(line.slice(0, end));
      line = line.slice(end);
    }
    line += character;
  }
  return [...made, line];
}

const widthOf = (text: string): number =>
  Array.from(text).reduce((sum, character) => sum + cells(character), 0);

/** Cells that a character takes on a terminal, at the most: those of East Asia and pictures take two (UAX #11). */
const cells = (character: string): number => (character.codePointAt(0)! < 0x1100 ? 1 : 2);

/**
 * A paragraph wrapped at `width`; the first line begins with `lead`, the others with `indent` spaces. A number stays
 * with its unit.
 */
export function wrapped(text: string, width: number, indent = 0, lead = ""): string {
  const lines: string[] = [];
  let line = lead;
  let isEmpty = true;
  for (const word of text.replace(unitBehind, "\u00a0").split(" ")) {
    const longer = isEmpty ? line + word : `${line} ${word}`;
    if (!isEmpty && Array.from(longer).length > width) {
      lines.push(line);
      line = " ".repeat(indent) + word;
    } else line = longer;
    isEmpty = false;
  }
  return [...lines, line].join("\n").replaceAll("\u00a0", " ");
}

const unitBehind = /(?<=\d) (?=(?:Hz|kHz|dB|ms|s|mA|V|mm|cm2|MB|%|LUFS)(?![a-z]))/g;

const trimEnds = (text: string): string => text.replace(/[ \t]+$/gm, "");

const noLines = {
  top: "",
  "top-mid": "",
  "top-left": "",
  "top-right": "",
  bottom: "",
  "bottom-mid": "",
  "bottom-left": "",
  "bottom-right": "",
  left: "",
  "left-mid": "",
  mid: "",
  "mid-mid": "",
  right: "",
  "right-mid": "",
  middle: " ".repeat(gap),
};

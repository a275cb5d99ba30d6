import fc from "fast-check";
import { expect, test } from "vitest";
import { csvOf, csvText } from "../../src/words/csv.js";
import { measures, monoMeasures, reportOf } from "./reports.js";

/** A reader by the grammar of RFC 4180, section 2: records end in CRLF, quoted fields double their quotes. */
function readCsv(text: string): string[][] {
  const records: string[][] = [];
  let at = 0;
  while (at < text.length) {
    const record: string[] = [];
    for (;;) {
      const field = /"(?:[^"]|"")*"|[^",\r\n]*/y;
      field.lastIndex = at;
      const found = field.exec(text)![0];
      record.push(found.startsWith('"') ? found.slice(1, -1).replaceAll('""', '"') : found);
      at += found.length;
      if (text.startsWith("\r\n", at)) break;
      if (text[at] !== ",") throw new Error(`neither comma nor CRLF at ${at}`);
      at++;
    }
    records.push(record);
    at += 2;
  }
  return records;
}

/** An apostrophe before what a spreadsheet computes (OWASP, CSV Injection, from memory); numbers are no formulas. */
const guarded = (text: string): string =>
  /^[=+\-@\t\r]/.test(text) && !/^[-+]?[\d.]+(e[-+]?\d+)?$/i.test(text) ? `'${text}` : text;

test("text that a spreadsheet would compute is guarded, numbers are kept", () => {
  const cells = ["=1+1", "+cmd", "-2+3", "@SUM(A1)", "\t=1", "-12", "+1.5e-3", "a=b", "plain"];
  const rows = readCsv(csvText([{ ...Object.fromEntries(cells.entries()), n: -12.5 }]));
  expect(rows[1]).toEqual([
    "'=1+1",
    "'+cmd",
    "'-2+3",
    "'@SUM(A1)",
    "'\t=1",
    "-12",
    "+1.5e-3",
    "a=b",
    "plain",
    "-12.5",
  ]);
  expect(csvText([{ "=knob": 1 }])).toBe("'=knob\r\n1\r\n");
});

test("any text and number comes back through a reader of RFC 4180", () => {
  const row = fc.record({
    "a,b": fc.string({ unit: "grapheme" }),
    n: fc.double({ noNaN: true, noDefaultInfinity: true }),
  });
  fc.assert(
    fc.property(fc.array(row, { minLength: 1, maxLength: 5 }), (rows) => {
      const [heading, ...records] = readCsv(csvText(rows));
      expect(heading).toEqual(["a,b", "n"]);
      expect(records.map(([text, n]) => [text, Number(n)])).toEqual(
        rows.map((r) => [guarded(r["a,b"]), r.n === 0 ? 0 : r.n]),
      );
    }),
  );
});

test("a report: the dry take, then a row a routing, all of one length, nothing for what does not exist", () => {
  const report = reportOf({
    "series-mono": monoMeasures,
    "stereo-unit": measures({
      correlation: 1 / 3,
      integratedLufs: null,
      correlationOverTime: null,
      decay: null,
    }),
  });
  const [heading, ...rows] = readCsv(csvOf(report));
  expect(new Set(rows.map((row) => row.length))).toEqual(new Set([heading.length]));
  const cell = (row: number, key: string) => rows[row][heading.indexOf(key)];
  expect(rows.map((row) => row[heading.indexOf("routing")])).toEqual(["dry", "series-mono", "stereo-unit"]);
  expect(heading[0]).toBe("schemaVersion");
  expect(cell(2, "correlation")).toBe("0.3333333333333333");
  expect(cell(2, "isReference")).toBe("true");
  expect(cell(2, "integratedLufs")).toBe("");
  expect(cell(2, "t30Seconds")).toBe("");
  expect(cell(1, "t30Seconds")).toBe("2.2");
  expect(cell(1, "octave500HzLevelDb")).toBe("-20");
  expect(cell(1, "third500HzToDryDb")).toBe("0.5");
  expect(cell(1, "reasons")).toBe("comb: no late copy of the dry signal meets it");
  expect(new Set(heading).size).toBe(heading.length);
});

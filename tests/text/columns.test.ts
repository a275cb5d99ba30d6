import fc from "fast-check";
import { expect, test } from "vitest";
import { columnsText, wrapped } from "../../src/text/columns.js";

test("no word is lost, no line is too long but for a word of its own, units stay with their numbers", () => {
  const word = fc.stringMatching(/^[a-z]{1,12}$/);
  fc.assert(
    fc.property(
      fc.array(word, { minLength: 1, maxLength: 40 }),
      fc.integer({ min: 20, max: 60 }),
      (words, width) => {
        const lines = wrapped(words.join(" "), width, 4, "  ").split("\n");
        expect(lines.join(" ").split(/ +/).filter(Boolean)).toEqual(words);
        for (const line of lines) expect(line.length).toBeLessThanOrEqual(width);
      },
    ),
  );
  expect(wrapped("at 1.07 kHz", 9)).toBe("at\n1.07 kHz");
  expect(wrapped("12 dozen", 4)).toBe("12\ndozen");
  expect(wrapped("a/path/longer/than/the/line", 10)).toBe("a/path/longer/than/the/line");
});

test("numbers stand right, words left, wide cells are wrapped and never cut", () => {
  const text = columnsText(
    [
      { heading: ["name", ""], align: "left", width: 8 },
      { heading: ["level", "dB"], align: "right" },
    ],
    [
      ["short", "-1.0"],
      ["a name of five words", "-12.5"],
    ],
  );
  expect(text).toBe(
    ["name      level", "             dB", "short      -1.0", "a name    -12.5", "of five", "words"].join(
      "\n",
    ),
  );
});

test("a word longer than its column goes on in the next line, wide characters too", () => {
  const word = "a/very/long/path/without/a/space.wav";
  const wide = "\u97f3\u697d\u97f3\u697d\u97f3\u697d.wav";
  for (const cell of [word, `two ${word}`, wide]) {
    const text = columnsText([{ heading: [], align: "left", width: 9 }], [[cell]]);
    expect(text.replaceAll("\n", "")).toBe(cell.replaceAll(" ", ""));
  }
});

import fc from "fast-check";
import { expect, test } from "vitest";
import { markFront, onFront } from "../../../src/work/sweep/front.js";
import { gridSize, placesOf, settingsAt } from "../../../src/work/sweep/grid.js";
import { readWishes } from "../../../src/work/sweep/wishes.js";

/** The definition, pair by pair; Kung, Luccio and Preparata 1975. */
test("the front holds exactly those that no other is better than", () => {
  const rows = fc.integer({ min: 1, max: 4 }).chain((aims) =>
    fc.array(
      fc.array(fc.oneof(fc.integer({ min: -3, max: 3 }), fc.constant(Number.NEGATIVE_INFINITY)), {
        minLength: aims,
        maxLength: aims,
      }),
      { minLength: 1, maxLength: 40 },
    ),
  );
  fc.assert(
    fc.property(rows, (table) => {
      const aims = table[0].length;
      const beatenBy = new Int32Array(table.length).fill(-9);
      markFront([...table.keys()], Float64Array.from(table.flat()), aims, beatenBy);
      table.forEach((row, n) => {
        const isBetter = (other: readonly number[]) =>
          other.every((x, k) => x >= row[k]) && other.some((x, k) => x > row[k]);
        if (table.some(isBetter)) {
          expect(isBetter(table[beatenBy[n]])).toBe(true);
          expect(beatenBy[beatenBy[n]]).toBe(onFront);
        } else expect(beatenBy[n]).toBe(onFront);
      });
    }),
  );
});

const axis = (path: string, count: number) => ({ path, values: Array.from({ length: count }, (_, n) => n) });

test("groups are crossed, knobs of one group step together, the last group turns fastest", () => {
  const groups = [[axis("a", 2)], [axis("b", 3), { path: "c", values: [5, 6, 7] }]];
  expect(gridSize(groups)).toBe(6);
  expect(Array.from(placesOf(groups, null, 1), (place) => settingsAt(groups, place))).toEqual([
    { a: 0, b: 0, c: 5 },
    { a: 0, b: 1, c: 6 },
    { a: 0, b: 2, c: 7 },
    { a: 1, b: 0, c: 5 },
    { a: 1, b: 1, c: 6 },
    { a: 1, b: 2, c: 7 },
  ]);
});

test("a sample has different places, in order, the same for a seed, also of a huge grid", () => {
  const groups = Array.from({ length: 5 }, (_, n) => [axis(String(n), 1000)]);
  const sample = placesOf(groups, 500, 3);
  expect(gridSize(groups)).toBe(1e15);
  expect(new Set(sample).size).toBe(500);
  expect(sample).toEqual(Float64Array.from(sample).sort());
  expect(sample[499]).toBeLessThan(1e15);
  expect(placesOf(groups, 500, 3)).toEqual(sample);
  expect(placesOf(groups, 500, 4)).not.toEqual(sample);
});

/** Evenly: each place has the same chance. Chi-squared with 19 degrees of freedom is under 43.8 in 99.9 % (table). */
test("every place has the same chance", () => {
  const groups = [[axis("a", 20)]];
  const hits = new Float64Array(20);
  const seeds = 2000;
  for (let seed = 0; seed < seeds; seed++) for (const place of placesOf(groups, 5, seed)) hits[place]++;
  const expected = (seeds * 5) / 20;
  expect(hits.reduce((sum, count) => sum + (count - expected) ** 2 / expected, 0)).toBeLessThan(43.8);
});

test("wishes give aims, each in the direction that is wished for", () => {
  const wishes = readWishes({
    want: ["sideShare>=0.2", " foldDownLossDb <= 2 ", "balanceDb>=-1", "balanceDb<=1", "truePeakDbtp<=-1"],
    most: ["octave4000HzLevelDb"],
    least: [],
  });
  expect(wishes.want[1]).toEqual({ measure: "foldDownLossDb", is: "<=", limit: 2 });
  expect(wishes.aims).toEqual([
    { measure: "octave4000HzLevelDb", better: "more" },
    { measure: "sideShare", better: "more" },
    { measure: "foldDownLossDb", better: "less" },
  ]);
  expect(readWishes({ want: [], most: [], least: [] }).aims.map(({ measure }) => measure)).toEqual([
    "sideShare",
    "foldDownLossDb",
  ]);
});

test.each([
  [
    { want: ["sideshare>=0.2"] },
    /"sideshare" is no measure; there are correlation, .* Did you mean sideShare\?/,
  ],
  [{ want: ["sideShare=0.2"] }, /"sideShare=0\.2": "=" is no comparison; write one of >= <= > <\.$/],
  [{ want: ["sideShare>=wide"] }, /"wide" is no number\. Write one as in "sideShare>=0\.2"\.$/],
  [{ want: ["sideShare>=0,2"] }, /"0,2" is no number\. Write "sideShare>=0\.2"\.$/],
  [{ want: ["sideShare >= 20%"] }, /"20%" is no number\. Write "sideShare>=0\.2"\.$/],
  [
    { want: ["foldDownLossDb<=1 dB"] },
    /"1 dB" is no number\. Write "foldDownLossDb<=1", without the unit\.$/,
  ],
  [{ want: ["sideShare"] }, /is no wish; write a measure, one of >= <= > <, and a number/],
  [{ most: ["truePeakDbtp"] }, /takes a render of each setting.* Rank by truePeakAtMostDbtp/],
  [{ least: ["t30seconds"] }, /Did you mean t30Seconds\?/],
])("%j is told", (words, says) => {
  expect(() => readWishes({ want: [], most: [], least: [], ...words })).toThrow(says);
});

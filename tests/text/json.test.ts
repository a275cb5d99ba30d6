import fc from "fast-check";
import { expect, test } from "vitest";
import { jsonOf } from "../../src/text/json.js";

/** Any JSON reader gives the value back: the platform's parser (ECMA-404) is the judge. */
test("what is written is JSON, whatever its strings hold", () => {
  fc.assert(
    fc.property(fc.jsonValue(), (value) => {
      expect(JSON.parse(jsonOf(value))).toEqual(JSON.parse(JSON.stringify(value)));
    }),
  );
  const tricky = { "[ 1,\n 2 ]": "[\n  1,\n  2\n]", list: [1, -2.5e-7, null] };
  expect(JSON.parse(jsonOf(tricky))).toEqual(tricky);
});

test("numbers keep every bit, lists of them one line, and what is no number is null", () => {
  expect(jsonOf({ curveDb: [0, -1 / 3, 1e21, null], more: [[1], ["a"]] })).toBe(`{
  "curveDb": [ 0, -0.3333333333333333, 1e+21, null ],
  "more": [
    [ 1 ],
    [
      "a"
    ]
  ]
}
`);
  expect(jsonOf([Number.NaN, Number.NEGATIVE_INFINITY, 1])).toBe("[ null, null, 1 ]\n");
});

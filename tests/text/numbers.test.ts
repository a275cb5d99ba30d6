import { expect, test } from "vitest";
import {
  count,
  duration,
  fixed,
  frequency,
  money,
  percent,
  signed,
  trimmed,
} from "../../src/text/numbers.js";

test("figures have a point, no thousands marks, no minus before nothing, and - where there are none", () => {
  expect([fixed(1234.56, 1), fixed(-0.04, 1), fixed(-12.35, 1), fixed(null, 2)]).toEqual([
    "1234.6",
    "0.0",
    "-12.4",
    "-",
  ]);
  expect([signed(1.26, 1), signed(-0.04, 1), signed(-3, 1), signed(null, 1)]).toEqual([
    "+1.3",
    "0.0",
    "-3.0",
    "-",
  ]);
  expect([trimmed(1.2, 2), trimmed(9, 2), trimmed(0.333, 2)]).toEqual(["1.2", "9", "0.33"]);
});

test("small shares keep a decimal, so that little is not nothing", () => {
  expect([0, 0.0034, 0.0994, 0.0996, 0.5, 1, 3.4, null].map(percent)).toEqual([
    "0",
    "0.3",
    "9.9",
    "10",
    "50",
    "100",
    "340",
    "-",
  ]);
});

test("frequencies, prices, lengths and counts have their units", () => {
  expect([31.5, 417.3, 1250, 16_000].map(frequency)).toEqual(["31.5 Hz", "417 Hz", "1.25 kHz", "16 kHz"]);
  expect([money(175, "EUR"), money(64.5, "SEK"), money(null, "EUR")]).toEqual(["EUR 175", "SEK 64.50", "-"]);
  expect([0, 12.04, 59.94, 59.96, 200, 3661].map(duration)).toEqual([
    "0.0 s",
    "12.0 s",
    "59.9 s",
    "1 min 0 s",
    "3 min 20 s",
    "1 h 1 min",
  ]);
  expect([count(1, "file"), count(0, "file"), count(2, "box", "boxes")]).toEqual([
    "1 file",
    "0 files",
    "2 boxes",
  ]);
});

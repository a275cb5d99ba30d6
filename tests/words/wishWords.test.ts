import { expect, test } from "vitest";
import { wishWords } from "../../src/words/wishWords.js";

test("wishes are told in words, with the unit that people read: shares in per cent, ranges without one", () => {
  const want = [
    "sideShare>=0.2",
    "foldDownLossDb<=1.5",
    "correlation>-0.25",
    "integratedLufs<-18",
    "sideShare>=0.205",
  ];
  expect(wishWords(want)).toEqual([
    "side share at least 20 % of the energy",
    "loss in mono at most 1.5 dB",
    "correlation above -0.25",
    "loudness below -18 LUFS",
    "side share at least 20.5 % of the energy",
  ]);
});

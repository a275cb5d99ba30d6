import { expect, test } from "vitest";
import { didYouMean, nearest } from "../../src/text/nearest.js";

/** Levenshtein 1966; kitten to sitting is the textbook's 3 edits, and a third of 7 letters allows 2 of them. */
test("a word is near when at most a third of its letters differ", () => {
  expect(nearest("sitting", ["kitten"])).toBeNull();
  expect(nearest("sittin", ["sitten"])).toBe("sitten");
  expect(nearest("tremelo", ["tone", "tremolo", "vibrato"])).toBe("tremolo");
});

test("the nearest of several near ones is taken, the first of equals", () => {
  expect(nearest("splitters", ["splitter", "splinters"])).toBe("splitter");
  expect(nearest("cat", ["bat", "hat"])).toBe("bat");
});

test("capitals, hyphens, spaces and underscores do not count", () => {
  expect(nearest("Stereo_Desk", ["stereo-desk"])).toBe("stereo-desk");
  expect(nearest("monotostereo", ["mono", "mono-to-stereo"])).toBe("mono-to-stereo");
});

test("the beginning of a word is near it, and an edit is nearer", () => {
  expect(nearest("delay", ["mix", "delayMs"])).toBe("delayMs");
  expect(nearest("decay", ["decaySeconds", "delay"])).toBe("delay");
});

test("nothing near is null, as are nothing and novels", () => {
  expect(nearest("xyz", ["tremolo"])).toBeNull();
  expect(nearest("C", ["A", "B"])).toBeNull();
  expect(nearest("", ["a"])).toBeNull();
  expect(nearest("a".repeat(10_000), ["a".repeat(9_999)])).toBeNull();
  expect(didYouMean("xyz", ["tremolo"])).toBe("");
});

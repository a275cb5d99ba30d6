import { expect, test } from "vitest";
import type { Rig } from "../../src/rig/model/rig.js";
import { routingsOf } from "../../src/rig/routings/routingsOf.js";
import { buildSheet } from "../../src/rig/wiring/buildSheet.js";
import { priceInShort } from "../../src/words/priceWords.js";
import { simpleRig, soldBox } from "../rigs.js";

const priceOf = (id: string, boxes: Rig["boxes"]): string => {
  const rig = simpleRig({ boxes });
  const routing = routingsOf(rig).find((each) => each.id === id);
  return priceInShort(buildSheet(rig, { wiring: routing!.wiring!, cautions: [] }));
};
const none: Rig["boxes"] = { splitter: [], "summing-box": [], mixer: [] };
const splitter = [soldBox({ price: 50 })];

test("a price in short: nothing, not known, more than what is known of it, or the sum", () => {
  expect(priceOf("series-mono", none)).toBe("nothing");
  expect(priceOf("parallel", none)).toBe("not known");
  expect(priceOf("parallel", { ...none, splitter })).toBe("over EUR 50");
  expect(priceOf("parallel", { ...none, splitter, mixer: [soldBox({ price: 125.5 })] })).toBe("EUR 175.50");
});

import { createHash } from "node:crypto";
import { expect, test } from "vitest";
import { type Routing, routingIds } from "../../../src/rig/routings/routing.js";
import { routingsOf } from "../../../src/rig/routings/routingsOf.js";
import { type Box, inputJacks, outputJacks } from "../../../src/rig/wiring/wiring.js";
import { randomRig } from "./randomRigs.js";

/** Everything of a box that can be heard or built. */
function drawnBox(box: Box): unknown {
  const jacks = { kind: box.kind, id: box.id, label: box.label, in: inputJacks(box), out: outputJacks(box) };
  if (box.kind === "mixer")
    return {
      ...jacks,
      inputs: box.inputs.map(({ jack, gainDb, pan }) => [gainDb, pan, jack.endsWith("(mono)")]),
    };
  if (box.kind !== "pedal") return jacks;
  const { fullyWet, isUnit, pedal } = box;
  return { ...jacks, fullyWet, isUnit, pedal: [pedal.name, pedal.jacks, pedal.settings, pedal.price] };
}

function drawn({ id, says, reason, cautions, wiring }: Routing): string {
  const { boxes = [], cables = [] } = wiring ?? {};
  const others = cautions.filter((caution) => !caution.startsWith("The return of"));
  return JSON.stringify([id, says, reason, others, boxes.map(drawnBox), cables]);
}

/**
 * SHA-256, first 16 digits, over 400 random rigs: sentences, cautions, boxes and cables of each routing as the
 * eight separate recipes drew them (they had no caution on levels), before one function drew every plan. A stored copy: it proves that nothing changed.
 */
const asRecipesDrew: Readonly<Record<string, string>> = {
  "as-given": "090a849c92ebdb39",
  "dual-mono": "fe1fa9ebad077a15",
  "one-side": "76942c7f54db5507",
  parallel: "ba2ab23c570054a3",
  "parallel-after": "1257422c9044977a",
  "series-mono": "788e2f8700e965de",
  "stereo-unit": "67e93182e723a5eb",
  summed: "56921fdbb2daa748",
  "unit-first": "98277aab4724f875",
};

test("the eight routings are drawn as their recipes drew them", () => {
  const hashes = new Map([...routingIds, "as-given"].map((id) => [id as string, createHash("sha256")]));
  for (let seed = 1; seed <= 400; seed++)
    for (const routing of routingsOf(randomRig(seed))) hashes.get(routing.id)?.update(drawn(routing));
  const digests = [...hashes].map(([id, hash]) => [id, hash.digest("hex").slice(0, 16)]);
  expect(Object.fromEntries(digests)).toEqual(asRecipesDrew);
});

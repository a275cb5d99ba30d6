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

function drawn({ id, label, says, reason, cautions, wiring }: Routing): string {
  const { boxes = [], cables = [] } = wiring ?? {};
  const others = cautions.filter((caution) => !caution.startsWith("The return of"));
  return JSON.stringify([id, label, says, reason, others, boxes.map(drawnBox), cables]);
}

/**
 * SHA-256, first 16 digits, over 400 random rigs: labels, sentences, cautions, boxes and cables of each routing as the
 * eight separate recipes drew them (they had no caution on levels), before one function drew every plan. A stored copy: it proves that nothing changed.
 */
const asRecipesDrew: Readonly<Record<string, string>> = {
  "as-given": "0533207f65d6626b",
  "dual-mono": "75d995fa7a33fb39",
  "one-side": "b7e1423dfa49e536",
  parallel: "950f62fb66b5f7a9",
  "parallel-after": "624cb37514b9e9a5",
  "series-mono": "2a61b6d94d2b0264",
  "stereo-unit": "07a149e4873ea331",
  summed: "56f1cc23d4a75070",
  "unit-first": "5a9275f36088ccf5",
};

test("the eight routings are drawn as their recipes drew them", () => {
  const hashes = new Map([...routingIds, "as-given"].map((id) => [id as string, createHash("sha256")]));
  for (let seed = 1; seed <= 400; seed++)
    for (const routing of routingsOf(randomRig(seed))) hashes.get(routing.id)?.update(drawn(routing));
  const digests = [...hashes].map(([id, hash]) => [id, hash.digest("hex").slice(0, 16)]);
  expect(Object.fromEntries(digests)).toEqual(asRecipesDrew);
});

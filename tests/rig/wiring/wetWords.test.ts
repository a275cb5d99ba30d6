import { expect, test } from "vitest";
import { layoutWiring } from "../../../src/rig/drawing/layout.js";
import type { Pedal, Rig } from "../../../src/rig/model/rig.js";
import { routingNamed } from "../../../src/rig/routings/routingsOf.js";
import { buildSheet } from "../../../src/rig/wiring/buildSheet.js";
import { pedal, rigOf } from "../../rigs.js";

const swing = pedal("Weir", "vibrato", "mono-to-stereo");
const tank = (rest: Partial<Pedal> = {}) => pedal("Tank", "spring", "mono", {}, rest);

/** All that is said of the units beside: the sentence, the notes in the drawing, cautions and settings of the sheet. */
function toldOf(rig: Rig, id: string) {
  const routing = routingNamed(rig, id);
  if (typeof routing === "string" || !routing.wiring) throw new Error(`${id} is not possible`);
  const { boxes } = layoutWiring(routing.wiring);
  const { cautions, settings } = buildSheet(rig, { wiring: routing.wiring, cautions: routing.cautions });
  return { says: routing.says, notes: boxes.map(({ note }) => note), cautions: cautions.join(" "), settings };
}

test.each([
  [{}, "fully wet"],
  [{ canGoFullyWet: false, dryLeakDb: -12 }, "wet with dry at -12 dB"],
  [{ canGoFullyWet: false, dryLeakDb: -12, dryPath: "unity" }, "wet with dry at 0 dB"],
] as const)("text and drawing say alike what a unit gives beside: %j is %s", (rest, words) => {
  for (const id of ["parallel", "parallel-after"]) {
    const { says, notes, cautions } = toldOf(rigOf([swing, tank(rest)]), id);
    expect(says).toContain(words);
    expect(notes).toContain(`spring, ${words}`);
    const claims = [says, ...notes, cautions].filter((text) => /(?<!cannot go )fully wet/.test(text));
    expect(claims.length > 0).toBe(words === "fully wet");
  }
});

test("several that differ are told by name", () => {
  const rig = rigOf([
    swing,
    tank(),
    pedal("Hall", "hall", "mono", {}, { canGoFullyWet: false, dryLeakDb: -9 }),
  ]);
  const { says } = toldOf(rig, "parallel");
  expect(says).toContain("fully wet (Tank) and wet with dry at -9 dB (Hall)");
});

test("a unit that shapes its whole input is never said to be wet, nor to be set so", () => {
  const rig = rigOf([swing, pedal("Grip", "compressor", "mono")]);
  const { says, settings } = toldOf(rig, "parallel");
  expect(says).not.toContain("wet");
  expect(settings.filter(({ box }) => box === "Grip")).toEqual([]);
});

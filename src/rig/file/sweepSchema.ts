import { quoted } from "../../text/words.js";
import { knobsOf } from "../knobs/knobs.js";
import { readAxis } from "../knobs/vary.js";
import type { AxisGroup } from "../model/axis.js";
import type { Rig, SweepWords } from "../model/rig.js";
import type { PathFault } from "./faults.js";
import { listField, mapField, message, numberField, textField } from "./fields.js";
import { z } from "./zod.js";

/** The `sweep` block as it is written: what each knob is turned to is still in words. */
export function sweepSchema() {
  const words = (key: string) => listField({ owner, key }, textField({ owner, key }, 200)).default([]);
  const scalar = z.union([z.number(), z.string(), z.boolean()]);
  const entry = z.record(z.string(), z.union([scalar, z.array(scalar)], { error: () => valueHint }), {
    error: ({ input }) => message({ owner, key: "vary" }, input, "is a list of maps", varyHint),
  });
  return mapField(
    { owner: "a rig", key: "sweep" },
    {
      vary: listField({ owner, key: "vary" }, entry, varyHint)
        .default([])
        .describe("knobs and what they are turned to; those in one entry step together, entries are crossed"),
      want: words("want").describe('wishes, as in "sideShare>=0.2"'),
      most: words("most").describe("measures that are better the more, the most important first"),
      least: words("least").describe("measures that are better the less"),
      routings: listField({ owner, key: "routings" }, textField({ owner, key: "routings" }, 60)).optional(),
      sample: whole("sample", 1, 1e6).optional().describe("so many settings of the grid, by chance"),
      seed: whole("seed", 0, 2 ** 31 - 1).default(1),
      tolerancePercent: numberField({ owner, key: "tolerancePercent" }, { min: 0, max: 50 })
        .optional()
        .describe("how far the knobs of a second unit may be off"),
      draws: whole("draws", 1, 1000).default(20).describe("second units drawn within the tolerance"),
    },
  ).describe("what splitsum sweep varies, and what is wished for");
}

const owner = "a sweep";
const varyHint = ' Write entries like "- { mixer.returnDb: -30..6/37 }".';
const valueHint = "a knob is turned to a range FROM..TO/STEPS, a value, or a list of values.";
const whole = (key: string, min: number, max: number) =>
  numberField({ owner, key }, { min, max, whole: true });

export type RawSweep = z.infer<ReturnType<typeof sweepSchema>>;

/** The block with its knobs found and their values read; or what is wrong with them, each at its place. */
export function readSweep(raw: RawSweep, rig: Rig): SweepWords | readonly PathFault[] {
  const knobs = knobsOf(rig);
  const faults: PathFault[] = [];
  const seen = new Set<string>();
  const vary = raw.vary.map((entry, n): AxisGroup => {
    const path = ["sweep", "vary", n];
    const axes = Object.entries(entry).flatMap(([name, words]) => {
      const axis = readAxis(knobs, name, words);
      if (typeof axis === "string")
        faults.push({
          path: [...path, name],
          message: axis,
          atKey: !knobs.some((knob) => knob.path === name),
        });
      if (seen.has(name))
        faults.push({ path: [...path, name], message: `${quoted(name)} is varied twice.`, atKey: true });
      seen.add(name);
      return typeof axis === "string" ? [] : [axis];
    });
    const uneven = unevenAxes(axes);
    if (uneven !== null) faults.push({ path, message: uneven });
    return axes;
  });
  if (faults.length > 0) return faults;
  const { routings = null, sample = null, tolerancePercent = null } = raw;
  return { ...raw, vary, routings, sample, tolerancePercent };
}

/** What is wrong when knobs that step together have not as many values each; null when nothing is. */
export function unevenAxes(axes: AxisGroup): string | null {
  const [first, ...rest] = axes;
  const other = rest.find(({ values }) => values.length !== first.values.length);
  if (!other) return null;
  const [many, few] = [first, other].map(({ path, values }) => `${quoted(path)} ${values.length}`);
  return `knobs that step together need as many values each: ${many}, ${few}.`;
}

import { knobsOf } from "../../rig/knobs/knobs.js";
import type { AxisGroup } from "../../rig/model/axis.js";
import type { Rig } from "../../rig/model/rig.js";
import { loadClips } from "../rig/rigClips.js";

/** Sound files that a rig names, and those that its knobs are turned to in a sweep, at the rate of the take. */
export async function loadSweepClips(
  rig: Rig,
  rigFile: string | null,
  groups: readonly AxisGroup[],
  rateHz: number,
): Promise<Map<string, readonly Float32Array[]>> {
  const knobs = new Map(knobsOf(rig).map((knob) => [knob.path, knob]));
  const turned = groups.flat().flatMap(({ path, values }) => {
    const knob = knobs.get(path);
    return knob && "file" in knob.setting ? values.map((value) => knob.turn(rig, value)) : [];
  });
  const clips = new Map<string, readonly Float32Array[]>();
  for (const each of [rig, ...turned]) {
    for (const [name, channels] of await loadClips(each, rigFile, rateHz)) clips.set(name, channels);
  }
  return clips;
}

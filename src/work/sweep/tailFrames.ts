import type { Rig } from "../../rig/model/rig.js";
import type { SettingValue } from "../../sound/dsp/kernel.js";
import { singleImpulse } from "../compare/renderPart.js";
import { type CompileOptions, compile } from "../render/compile.js";
import { render } from "../render/render.js";
import { tailRule } from "../render/tail.js";
import { GridRigs, wiringFor } from "./gridRigs.js";
import { type SweepPlan, variantsOf } from "./plan.js";

/** A knob with no more values than this is tried at each; others at both ends. */
const mostTried = 8;

/**
 * How long the sound of a sweep rings on, in frames: the longest fall by 60 dB of an impulse through any routing, with
 * the rig as it is and with each group of knobs at its ends. All settings are rendered for so long behind the take, so
 * that their levels compare.
 * @param capSeconds  no longer than this
 */
export function tailFrames(
  rig: Rig,
  plan: Omit<SweepPlan, "frames">,
  capSeconds: number,
  options: CompileOptions,
): number {
  const gridRigs = new GridRigs(rig, plan);
  const rigs = [gridRigs.turned({}), ...trials(plan).map((settings) => gridRigs.turned(settings))];
  const wirings = rigs.flatMap((tried) =>
    plan.routings.flatMap((routing) =>
      // Every draw is near the rig as it is: one stands for all.
      Array.from({ length: Math.min(2, variantsOf(plan, routing)) }, (_, variant) =>
        wiringFor(gridRigs.withVariant(tried, variant), routing),
      ),
    ),
  );
  const rules = rigs.map((tried) => tailRule(tried, capSeconds));
  const longest = rules.reduce((most, rule) => (rule.silenceSeconds > most.silenceSeconds ? rule : most));
  const frames = render(compile(wirings, options), {
    take: singleImpulse,
    rateHz: options.rateHz,
    tail: longest,
    sink: () => {},
  });
  return Math.max(0, frames - singleImpulse.length);
}

/** One group of knobs at one of its ends, the rest as the rig has them. */
function trials({ groups }: Pick<SweepPlan, "groups">): Record<string, SettingValue>[] {
  return groups.flatMap((group) => {
    const steps = group[0]?.values.length ?? 0;
    const tried = steps <= mostTried ? [...Array(steps).keys()] : [0, steps - 1];
    return tried.map((step) => Object.fromEntries(group.map(({ path, values }) => [path, values[step]])));
  });
}

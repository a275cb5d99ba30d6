import { parseRig } from "../../../src/rig/file/parseRig.js";
import { routingsOf } from "../../../src/rig/routings/routingsOf.js";
import type { Wiring } from "../../../src/rig/wiring/wiring.js";

/**
 * Diamonds in a row, each a split and a sum with one way straight and one through a pedal that is late:
 *
 *     take > split > ------------ > sum > split > ------------ > sum > ... > destination
 *                  > late pedal 0 >             > late pedal 1 >
 *
 * @param latenessMs  of each pedal
 * @param levelDb     of the late ways
 */
export function diamonds(latenessMs: readonly number[], levelDb = 0): Wiring {
  const each = <T>(line: (n: number) => T) => latenessMs.map((_, n) => line(n));
  const last = latenessMs.length - 1;
  const text = [
    "name: Diamonds",
    "pedals:",
    "  - { name: Swing, model: chorus, jacks: mono-to-stereo }",
    ...each(
      (n) =>
        `  - { name: P${n}, model: boost, jacks: mono, settings: { gainDb: 0 }, latencyMs: ${latenessMs[n]}, levelDb: ${levelDb} }`,
    ),
    "wirings:",
    "  row:",
    "    boxes:",
    ...each(
      (n) =>
        `      s${n}: { box: splitter }\n      p${n}: { box: pedal, pedal: P${n} }\n      m${n}: { box: summing-box }`,
    ),
    "    cables:",
    "      - take:out > s0:in",
    ...each((n) => {
      const on = n < last ? `m${n}:out > s${n + 1}:in` : `m${n}:out > destination:in`;
      return [`s${n}:out 1 > m${n}:in 1`, `s${n}:out 2 > p${n}:in`, `p${n}:out > m${n}:in 2`, on]
        .map((cable) => `      - ${cable}`)
        .join("\n");
    }),
  ].join("\n");
  const routing = routingsOf(parseRig(text, "diamonds.yaml")).find(({ id }) => id === "row");
  if (!routing?.wiring) throw new Error("the diamonds are no wiring");
  return routing.wiring;
}

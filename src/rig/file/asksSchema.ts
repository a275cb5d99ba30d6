import { type Asks, type Decider, deciderChoices } from "../model/rig.js";
import { choiceField, listField, mapField, message, numberField, switchField, textField } from "./fields.js";
import { z } from "./zod.js";

/** Width that `stereo: true` asks for, as a share of the reference's (common practice, no source). */
const usualWidth = 0.4;

/** The `asks` block as it is written; `unitNames` in `references.ts` checks its names, `readAsks` fills it in. */
export function asksSchema() {
  const names = (key: string) =>
    z.union([z.literal(true), listField({ owner, key }, textField({ owner, key }, 300))], {
      error: ({ input }) => message({ owner, key }, input, "is a list of mono units, or true for all"),
    });
  const most = (key: string, max: number, whole = false) =>
    numberField({ owner, key }, { min: 0, max, whole }).nullish();
  return mapField(
    { owner: "a rig", key: "asks" },
    {
      stereo: stereoField().describe(
        `width that must stay: a share of the reference's, true for ${usualWidth}`,
      ),
      order: names("order").default([]).describe("mono units that stay behind what they follow"),
      sameUnit: names("sameUnit").default([]).describe("mono units that no other stands in for"),
      oneOfEach: switchField({ owner, key: "oneOfEach" }).default(false).describe("no second unit"),
      bothSides: switchField({ owner, key: "bothSides" })
        .default(false)
        .describe("no unit on one side alone"),
      spendAtMost: most("spendAtMost", 1e6).describe("in the rig's currency"),
      extraBoxesAtMost: most("extraBoxesAtMost", 1000, true),
      outletsAtMost: most("outletsAtMost", 1000, true).describe("of the power supply"),
      milliampsAtMost: most("milliampsAtMost", 1e6),
      boardCm2AtMost: most("boardCm2AtMost", 1e6),
      monoLossDbAtMost: most("monoLossDbAtMost", 60),
      first: listField({ owner, key: "first" }, choiceField({ owner, key: "first" }, deciderChoices))
        .default([])
        .describe("what decides among plans that keep all of these"),
    },
  ).prefault({});
}

const owner = "an ask";

const stereoField = () =>
  z
    .union([z.boolean(), numberField({ owner, key: "stereo" }, { min: 0, max: 1 })], {
      error: ({ input }) =>
        message({ owner, key: "stereo" }, input, "is true, false or a share of the width from 0 to 1"),
    })
    .default(false);

export type RawAsks = z.infer<ReturnType<typeof asksSchema>>;

/** What is asked, with every default. @param units  names of the rig's mono units, which `true` stands for */
export function readAsks(raw: RawAsks, units: readonly string[]): Asks {
  const { stereo, order, sameUnit } = raw;
  const first = [...new Set<Decider>([...raw.first, ...deciderChoices])];
  return {
    stereo: stereo === true ? usualWidth : stereo === false ? null : stereo,
    order: order === true ? units : order,
    sameUnit: sameUnit === true ? units : sameUnit,
    oneOfEach: raw.oneOfEach,
    bothSides: raw.bothSides,
    spendAtMost: raw.spendAtMost ?? null,
    extraBoxesAtMost: raw.extraBoxesAtMost ?? null,
    outletsAtMost: raw.outletsAtMost ?? null,
    milliampsAtMost: raw.milliampsAtMost ?? null,
    boardCm2AtMost: raw.boardCm2AtMost ?? null,
    monoLossDbAtMost: raw.monoLossDbAtMost ?? null,
    first,
  };
}

import { mixerBounds, mostJacks } from "../model/bounds.js";
import { boxChoices, type HandBox, type OnHand } from "../model/rig.js";
import {
  choiceMessage,
  listField,
  mapField,
  numberField,
  switchField,
  textField,
  thingField,
} from "./fields.js";
import { z } from "./zod.js";

export const jackCount = (owner: string, key: string, min = 2) =>
  numberField({ owner, key }, { min, max: mostJacks, whole: true });
const boxWordError =
  (owner: string, words: readonly string[]) =>
  ({ input }: { input?: unknown }) =>
    choiceMessage({ owner, key: "box" }, words, boxWord(input));

/** A box in the drawer. What does not go with its kind is 0. */
export function onHandSchema(): z.ZodType<OnHand> {
  const owner = "a box on hand";
  const common = { count: jackCount(owner, "count", 1).default(1) };
  const mutes = (kind: string) => ({ mutes: mutesField(kind).default(false) });
  return z
    .discriminatedUnion(
      "box",
      [
        thingField("a splitter on hand", {
          box: z.literal("splitter"),
          ...common,
          ...mutes("a splitter"),
          outputs: jackCount("a splitter", "outputs").default(2),
          buffered: switchField({ owner: "a splitter", key: "buffered" }).default(true),
        }),
        thingField("a summing box on hand", {
          box: z.literal("summing-box"),
          ...common,
          inputs: jackCount("a summing box", "inputs").default(2),
        }),
        thingField("a mixer on hand", {
          box: z.literal("mixer"),
          ...common,
          ...mutes("a mixer"),
          pairs: jackCount("a mixer", "pairs", 1).default(2).describe("stereo inputs"),
        }),
      ],
      { error: boxWordError(owner, boxChoices) },
    )
    .transform((item) => ({ outputs: 0, inputs: 0, pairs: 0, buffered: false, mutes: false, ...item }));
}

/** A box of a hand-drawn wiring. Settings of its pedals are checked by model in `references.ts`. */
export function handBoxSchema(): z.ZodType<HandBox> {
  const input = mapField(
    { owner: "a mixer", key: "inputs" },
    {
      gainDb: numberField({ owner: "a mixer input", key: "gainDb" }, mixerBounds.gainDb).default(0),
      pan: numberField({ owner: "a mixer input", key: "pan" }, mixerBounds.pan).default(0),
      mute: switchField({ owner: "a mixer input", key: "mute" })
        .optional()
        .describe("it has a mute, a footswitch like any other"),
    },
  );
  return z.discriminatedUnion(
    "box",
    [
      thingField("a pedal in a wiring", {
        box: z.literal("pedal"),
        pedal: textField({ owner: "a pedal in a wiring", key: "pedal" }, 300).describe(
          "of the rig, or one of its alternatives",
        ),
        stereo: switchField({ owner: "a pedal in a wiring", key: "stereo" })
          .optional()
          .describe("a stereo unit of the same kind as this mono pedal"),
        fullyWet: switchField({ owner: "a pedal in a wiring", key: "fullyWet" }).default(false),
        settings: z.record(z.string(), z.union([z.number(), z.string(), z.boolean()])).default({}),
      }),
      thingField("a splitter", {
        box: z.literal("splitter"),
        mutes: mutesField("a splitter").optional(),
        outputs: jackCount("a splitter", "outputs").default(2),
        buffered: switchField({ owner: "a splitter", key: "buffered" }).default(true),
      }),
      thingField("a summing box", {
        box: z.literal("summing-box"),
        inputs: jackCount("a summing box", "inputs").default(2),
      }),
      thingField("a mixer", {
        box: z.literal("mixer"),
        mutes: mutesField("a mixer").optional(),
        inputs: listField({ owner: "a mixer", key: "inputs" }, input)
          .min(1, "a mixer needs an input. Add one.")
          .max(mostJacks),
        outputs: z
          .union([z.literal(1), z.literal(2)], { error: () => "a mixer's outputs is 1 or 2." })
          .default(2),
      }).transform(({ mutes, inputs, ...rest }) => ({
        ...rest,
        inputs: mutes ? inputs.map((each) => ({ ...each, mute: true })) : inputs,
      })),
    ],
    { error: boxWordError("a box", ["pedal", ...boxChoices]) },
  );
}

export const mutesField = (owner: string) =>
  switchField({ owner, key: "mutes" }).describe("a footswitch a channel or output that silences it");

const boxWord = (input: unknown): unknown =>
  typeof input === "object" && input !== null && "box" in input ? input.box : undefined;

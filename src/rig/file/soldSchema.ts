import { found } from "../../text/words.js";
import type { BuyableBox, SizeMm, SoldBox } from "../model/rig.js";
import { jackCount, mutesField } from "./boxSchema.js";
import { listField, mapField, thingField } from "./fields.js";
import { jackFactFields } from "./levelSchema.js";
import { priceField, sizeField, supplyField } from "./pedalSchema.js";
import { z } from "./zod.js";

/** What each kind of box costs when it must be bought: one map for whatever size, or a list of the sizes sold. */
export function boxesSchema() {
  return mapField(
    { owner: "the rig", key: "boxes" },
    {
      splitter: sizesField(splitter, "outputs", 2, (outputs) =>
        thingField(splitter, { outputs, ...factFields(splitter) }).transform((box) => sold(box, box.outputs)),
      ),
      "summing-box": sizesField(summingBox, "inputs", 2, (inputs) =>
        thingField(summingBox, { inputs, ...factFields(summingBox) }).transform((box) =>
          sold(box, box.inputs),
        ),
      ),
      mixer: sizesField(mixer, "pairs", 1, (pairs) =>
        thingField(mixer, { pairs, ...factFields(mixer) }).transform((box) => sold(box, box.pairs)),
      ),
    },
  )
    .transform((boxes): Record<BuyableBox, readonly SoldBox[]> => boxes)
    .prefault({});
}

const [splitter, summingBox, mixer] = ["a splitter", "a summing box", "a mixer"] as const;

type Size = z.ZodType<number | undefined>;

/** One map, whose size may be left out, or a list of maps of which each tells its own under `key`. */
function sizesField(
  owner: string,
  key: string,
  least: number,
  sizeSchema: (size: Size) => z.ZodType<SoldBox>,
) {
  const size = jackCount(owner, key, least).describe("what it is sold with");
  const empty = `the list of sizes of ${owner} is empty. Add one, or take the list out.`;
  const several = listField({ owner: "the boxes", key: owner.slice(2) }, sizeSchema(size)).min(1, {
    error: empty,
  });
  const only = sizeSchema(size.optional()).transform((box): SoldBox[] => [box]);
  const error = ({ input }: { input?: unknown }) =>
    `${owner} is told by a map of what it costs, or by a list of such maps with their ${key}; this is ${found(input)}.`;
  return z
    .union([only, several], { error })
    .optional()
    .transform((sizes): readonly SoldBox[] => sizes ?? [unknownSize]);
}

/** Of whatever size, for whatever price. */
const unknownSize: SoldBox = {
  jacks: null,
  mutes: false,
  price: null,
  supply: null,
  size: null,
  inputOhms: null,
  outputOhms: null,
  maxInputDbu: null,
  maxOutputDbu: null,
};

const factFields = (owner: string) => ({
  price: priceField(owner),
  supply: supplyField(owner),
  sizeMm: sizeField(owner),
  mutes: mutesField(owner).default(false),
  ...jackFactFields(owner),
});

interface Written extends Omit<SoldBox, "size" | "jacks"> {
  readonly sizeMm: SizeMm | null;
}

const sold = (written: Written, jacks: number | undefined): SoldBox => ({
  jacks: jacks ?? null,
  mutes: written.mutes,
  price: written.price,
  supply: written.supply,
  size: written.sizeMm,
  inputOhms: written.inputOhms,
  outputOhms: written.outputOhms,
  maxInputDbu: written.maxInputDbu,
  maxOutputDbu: written.maxOutputDbu,
});

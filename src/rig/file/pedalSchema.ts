import { andList } from "../../text/words.js";
import { pedalBounds } from "../model/bounds.js";
import {
  dryPathChoices,
  type Jacks,
  jackChoices,
  type SizeMm,
  type Supply,
  whenOffChoices,
} from "../model/rig.js";
import { modelsCalled } from "../pedals/otherWords.js";
import type { PedalModel } from "../pedals/pedalModel.js";
import {
  choiceField,
  choiceMessage,
  listField,
  mapField,
  message,
  numberField,
  switchField,
  textField,
  thingField,
} from "./fields.js";
import { jackFactFields } from "./levelSchema.js";
import { settingsSchema } from "./settingsSchema.js";
import { z } from "./zod.js";

export type Models = Readonly<Record<string, PedalModel>>;

/** A pedal of one model, as it stands in a rig file; `alternative` is the schema of one of its alternatives. */
export function pedalSchema<A extends z.ZodType>(model: string, models: Models, alternative: A) {
  return thingField(pedal, {
    ...modelFields(model, models, jackChoices),
    alternatives: alternativesField(alternative),
  }).transform(toPedal);
}

/** What could stand in the place of a mono unit: a pedal like it, or a stereo one. */
export function alternativeSchema(model: string, models: Models) {
  return thingField("an alternative", modelFields(model, models, alternativeJacks)).transform(toPedal);
}

/** A pedal whose model is not one of `models`: finds that, and every other fault but those of settings. */
export function unknownPedalSchema(models: Models) {
  const settings = z.record(z.string(), z.unknown()).optional();
  const common = commonFields(modelField(models), jackChoices);
  return thingField(pedal, { ...common, settings, alternatives: alternativesField(z.unknown()) });
}

/** The same of an alternative. */
export function unknownAlternativeSchema(models: Models) {
  const settings = z.record(z.string(), z.unknown()).optional();
  return thingField("an alternative", { ...commonFields(modelField(models), alternativeJacks), settings });
}

/** Any pedal, for the JSON Schema: settings go by model. */
export function anyPedalSchema(models: Models) {
  const words = Object.keys(models);
  const error = ({ input }: { input?: unknown }) => choiceMessage(named("model"), words, input);
  const [first, ...rest] = words.map((model) => alternativeSchema(model, models).in);
  const alternative = z.discriminatedUnion("model", [first!, ...rest], { error });
  const [firstPedal, ...otherPedals] = words.map((model) => pedalSchema(model, models, alternative).in);
  return z.discriminatedUnion("model", [firstPedal!, ...otherPedals], { error });
}

const alternativeJacks = ["mono", "stereo"] as const satisfies readonly Jacks[];
const mostAlternatives = 8;

function alternativesField<A extends z.ZodType>(alternative: A) {
  return listField(named("alternatives"), alternative, " Start each with a dash.")
    .max(mostAlternatives, {
      error: `a pedal has at most ${mostAlternatives} alternatives. Take out those that you would not buy.`,
    })
    .default([])
    .describe("others that could stand in this mono unit's place");
}

function modelField(models: Models) {
  const words = Object.keys(models);
  return z.enum(words, { error: ({ input }) => modelMessage(words, input) });
}

/** Tells also which models a player's own word means: "reverb" is none of theirs, and three of them. */
function modelMessage(words: readonly string[], input: unknown): string {
  const meant = typeof input === "string" ? modelsCalled(input) : [];
  if (meant.length === 0) return choiceMessage(named("model"), words, input);
  return message(named("model"), input, `is one of ${words.join(", ")}`, ` Write ${andList(meant, "or")}.`);
}

function modelFields(model: string, models: Models, jacks: readonly Jacks[]) {
  const table = models[model]!.settings;
  const settings = settingsSchema(model, table);
  // A file has no default: a model that needs one needs its settings written.
  const needsFile = Object.values(table).some((setting) => "file" in setting);
  return { ...commonFields(z.literal(model), jacks), settings: needsFile ? settings : settings.prefault({}) };
}

/** What a pedal or a box draws from its supply; left out or empty: not known. */
export function supplyField(owner: string) {
  const name = { owner, key: "supply" };
  return mapField(name, {
    volts: numberField({ owner: "a supply", key: "volts" }, { min: 1, max: 60 }),
    milliamps: numberField({ owner: "a supply", key: "milliamps" }, { min: 0, max: 10_000 }),
  })
    .nullish()
    .transform((supply): Supply | null => supply ?? null)
    .describe("what it draws; the sheet adds currents by voltage");
}

/** Width and depth of the box as it lies on the board; left out or empty: not known. */
export function sizeField(owner: string) {
  const side = { min: 1, max: 2000 };
  return mapField(
    { owner, key: "sizeMm" },
    {
      width: numberField({ owner: "a size in mm,", key: "width" }, side),
      depth: numberField({ owner: "a size in mm,", key: "depth" }, side),
    },
  )
    .nullish()
    .transform((size): SizeMm | null => (size ? { widthMm: size.width, depthMm: size.depth } : null))
    .describe("as it lies on the board");
}

export function priceField(owner: string) {
  return numberField({ owner, key: "price" }, { min: 0, max: 1_000_000 })
    .nullish()
    .transform((price): number | null => price ?? null)
    .describe("in the rig's currency");
}

const pedal = "a pedal";
const named = (key: string) => ({ owner: pedal, key });

function commonFields<M extends z.ZodType<string>>(model: M, jacks: readonly Jacks[]) {
  return {
    name: textField(named("name"), 300).describe("what you call it; it stands in the patch list"),
    model,
    jacks: choiceField(named("jacks"), jacks).describe(
      "how it is built: one in and one out, one in and two out, or two and two",
    ),
    supply: supplyField(pedal),
    sizeMm: sizeField(pedal),
    price: priceField(pedal),
    latencyMs: numberField(named("latencyMs"), pedalBounds.latencyMs)
      .default(0)
      .describe("delay of all that goes through it, from its converters"),
    levelDb: numberField(named("levelDb"), pedalBounds.levelDb).default(0).describe("trim of its output"),
    invertsPolarity: switchField(named("invertsPolarity")).default(false),
    canGoFullyWet: switchField(named("canGoFullyWet"))
      .default(true)
      .describe("by a kill-dry setting or its mix at maximum"),
    dryPath: choiceField(named("dryPath"), dryPathChoices)
      .default("crossfade")
      .describe("what a mix does to the dry sound: it makes room for the effect, or stays at unity"),
    dryLeakDb: numberField(named("dryLeakDb"), pedalBounds.dryLeakDb)
      .default(-6)
      .describe("dry sound that stays at full mix, where it cannot go fully wet"),
    whenOff: choiceField(named("whenOff"), whenOffChoices)
      .default("true-bypass")
      .describe("what its footswitch does when off"),
    hasFootswitch: switchField(named("hasFootswitch")).default(true),
    ...jackFactFields(pedal),
  };
}

function toPedal<T extends { readonly sizeMm: SizeMm | null }>({ sizeMm, ...rest }: T) {
  return { ...rest, size: sizeMm };
}

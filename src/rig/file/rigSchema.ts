import { quoted } from "../../text/words.js";
import { longestLabel, mixerBounds } from "../model/bounds.js";
import { type HandWiring, type MixerSettings, placeChoices, playsIntoChoices } from "../model/rig.js";
import { asksSchema } from "./asksSchema.js";
import { handBoxSchema, onHandSchema } from "./boxSchema.js";
import { cableEnds } from "./cableText.js";
import {
  choiceField,
  idPattern,
  listField,
  mapField,
  message,
  numberField,
  textField,
  thingField,
} from "./fields.js";
import { cablesSchema, destinationSchema, instrumentSchema, referenceSchema } from "./levelSchema.js";
import { boxesSchema } from "./soldSchema.js";
import { sweepSchema } from "./sweepSchema.js";
import { takeSchema } from "./takeSchema.js";
import { z } from "./zod.js";

/** More than this is a mistake: no board carries it, and no person can judge it. */
export const mostPedals = 64;

/**
 * Four times the most pedals: each may stand between a splitter and a mixer. The ways through a wiring are followed box
 * by box, so that this bounds how deep.
 */
const mostBoxes = 4 * mostPedals;
const mostWirings = 64;

/** The whole file; `pedal` is the schema of one entry of `pedals`. */
export function rigSchema<P extends z.ZodType>(pedal: P) {
  return thingField("a rig", rigFields(pedal));
}

/** Everything a rig file may hold, by key. */
export function rigFields<P extends z.ZodType>(pedal: P) {
  return {
    name: textField(named("name"), 300).describe("what you call the rig; it names the folder of the renders"),
    take: takeSchema().describe("the dry recording, beside the rig file, and what it was played into"),
    playsInto: choiceField(named("playsInto"), playsIntoChoices).default("stereo-desk"),
    pedals: listField(named("pedals"), pedal, " Start each pedal with a dash.")
      .min(1, {
        error: "pedals is an empty list; a rig has 1 to 64 pedals, in the order of the signal. Add one.",
      })
      .max(mostPedals, {
        error: ({ input }) =>
          `pedals lists ${lengthOf(input)}; a rig has 1 to ${mostPedals} pedals. Take out those that stay off.`,
      })
      .describe("in the order of the signal"),
    onHand: listField(named("onHand"), onHandSchema())
      .default([])
      .describe("boxes that are in the drawer already"),
    boxes: boxesSchema().describe("what boxes cost when they must be bought"),
    currency: z
      .string({ error: ({ input }) => currencyMessage(input) })
      .regex(/^[A-Z]{3}$/, { error: ({ input }) => currencyMessage(input) })
      .default("EUR")
      .describe("ISO 4217 code of every price"),
    mixer: mixerSchema().describe("the mixer of the parallel routings"),
    reference: referenceSchema().describe("how full scale of the take stands to volts on the cables"),
    instrument: instrumentSchema().describe("what plays into the first box"),
    destination: destinationSchema().describe("the inputs of desk or amps"),
    cables: cablesSchema().describe("lengths and capacitance of the cables, for loading"),
    stereoUnit: differencesSchema("stereoUnit").describe(
      "how a stereo unit differs from the mono unit in whose place it stands",
    ),
    secondUnit: differencesSchema("secondUnit").describe(
      "how the second of two units differs from the first",
    ),
    wirings: wiringsSchema().describe("wirings of your own, by id"),
    places: placesSchema().describe("where mono units go in the routing as-placed, by name"),
    asks: asksSchema().describe("what you will not give up"),
    sweep: sweepSchema().optional(),
  };
}

const named = (key: string) => ({ owner: "a rig", key });

function mixerSchema() {
  const level = (key: string) => numberField({ owner: "the mixer", key }, mixerBounds.gainDb);
  return mapField(named("mixer"), {
    dryDb: level("dryDb").default(0).describe("gain of the stereo pedals' pair"),
    returnDb: level("returnDb")
      .nullish()
      .transform((db): number | null => db ?? null)
      .describe("gain of each return; left out: wet to dry as the unit's own mix has it"),
    returnPan: numberField({ owner: "the mixer", key: "returnPan" }, mixerBounds.pan)
      .default(0)
      .describe("-1 left to 1 right, equal power"),
  })
    .transform((mixer): MixerSettings => mixer)
    .prefault({});
}

function placesSchema() {
  const error = ({ input }: { input?: unknown }) =>
    message(
      named("places"),
      input,
      "is a map of places by mono unit",
      ' Write it like "Boiler tank: beside".',
    );
  return z
    .record(z.string(), choiceField({ owner: "a mono unit", key: "place" }, placeChoices), { error })
    .default({});
}

/** `{ settings: {...} }` for all units, `{ "Boiler tank": {...} }` for one; kept under `"*"` and the pedal's name. */
function differencesSchema(key: string) {
  const error = ({ input }: { input?: unknown }) =>
    message(named(key), input, "is a map of settings (for all units) or of settings by pedal name");
  const scalar = z.union([z.number(), z.string(), z.boolean()], {
    error: () => "a setting is a number, a word, or true or false.",
  });
  return z
    .record(z.string(), z.record(z.string(), scalar, { error }), { error })
    .default({})
    .transform(({ settings, ...byName }) => (settings === undefined ? byName : { "*": settings, ...byName }));
}

function wiringsSchema() {
  const owner = "a wiring";
  const wiring = thingField(owner, {
    label: textField({ owner, key: "label" }, longestLabel).optional().describe("its name in tables"),
    boxes: z
      .record(idField("a box"), handBoxSchema(), {
        error: ({ input }) => message({ owner, key: "boxes" }, input, "is a map of boxes by id"),
      })
      .refine((boxes) => Object.keys(boxes).length <= mostBoxes, {
        error: `a wiring has at most ${mostBoxes} boxes. Take out what it can do without.`,
        abort: true,
      })
      .describe("take and destination are there already"),
    cables: listField({ owner, key: "cables" }, cableSchema(), cableHint).describe(
      'each one "box:jack > box:jack"',
    ),
  });
  return z
    .record(idField("a wiring"), wiring, {
      error: ({ input }) => message(named("wirings"), input, "is a map of wirings by id"),
    })
    .refine((wirings) => Object.keys(wirings).length <= mostWirings, {
      error: `a rig has at most ${mostWirings} wirings. Take out those that you would not build.`,
      abort: true,
    })
    .default({})
    .transform((wirings) => {
      const entries = Object.entries(wirings).map(([id, { label, boxes, cables }]): [string, HandWiring] => [
        id,
        { label: label ?? id, boxes, cables },
      ]);
      return Object.fromEntries(entries);
    });
}

function idField(owner: string) {
  const error = ({ input }: { input?: unknown }) =>
    `${quoted(String(input))} is no id; the id of ${owner} has 1 to 40 small letters, digits and hyphens, as in "split-1".`;
  return z.string({ error }).regex(idPattern, { error });
}

function cableSchema() {
  const error = ({ input }: { input?: unknown }) =>
    `cable is ${cableWords(input)}; a cable is "box:jack > box:jack".${cableHint}`;
  return z
    .string({ error })
    .max(mostCableCharacters, { error, abort: true })
    .regex(cablePattern, { error })
    .transform(cableEnds);
}

/** Two ids and two jacks, with room to spare. */
const mostCableCharacters = 200;
const cablePattern = /^[^:>]+:[^:>]+>[^:>]+:[^:>]+$/;
const cableHint = ' Write it like "take:out > split:in".';
const cableWords = (input: unknown): string => (typeof input === "string" ? quoted(input) : "no text");

const currencyMessage = (input: unknown): string =>
  message(named("currency"), input, "is a code of three capitals (ISO 4217)", ' Write it like "EUR".');

const lengthOf = (input: unknown): number => (Array.isArray(input) ? input.length : 0);

import { pickupKindNames, pickupKinds } from "../model/pickupKinds.js";
import type { CableFacts, Instrument, LevelReference } from "../model/rig.js";
import { choiceField, mapField, message, numberField } from "./fields.js";
import { z } from "./zod.js";

/** Impedances and largest levels of a box's jacks, each left out where its maker does not state it. */
export function jackFactFields(owner: string) {
  return {
    inputOhms: ohmsField(owner, "inputOhms").describe("impedance of its inputs"),
    outputOhms: ohmsField(owner, "outputOhms").describe("impedance of its outputs"),
    maxInputDbu: maximumField(owner, "maxInputDbu").describe("the largest sine that its inputs take, RMS"),
    maxOutputDbu: maximumField(owner, "maxOutputDbu").describe("the largest sine that its outputs give, RMS"),
  };
}

export function referenceSchema() {
  const owner = "a reference";
  return mapField(named("reference"), {
    dbfs: numberField({ owner, key: "dbfs" }, { min: -60, max: 0 }).describe("peak of a sine in the take"),
    dbu: numberField({ owner, key: "dbu" }, { min: -60, max: 30 }).describe("RMS of that sine on the cable"),
  })
    .nullish()
    .transform((reference): LevelReference | null => reference ?? null);
}

export function instrumentSchema() {
  return mapField(named("instrument"), {
    pickup: optional(choiceField(onIt("pickup"), pickupKindNames)).describe(
      "kind of a magnetic pickup: a usual coil of it, where its values are not given",
    ),
    outputOhms: ohmsField("an instrument", "outputOhms").describe("of its pickup or output stage"),
    henries: optional(numberField(onIt("henries"), { min: 0, max: 100 })).describe(
      "inductance of its pickup; 0 for an output without a coil",
    ),
    picofarads: optional(numberField(onIt("picofarads"), { min: 0, max: 1e5 })).describe(
      "of the pickup itself, without cable",
    ),
    volume: optional(mapField(onIt("volume"), trackFields("a volume control"))),
    tone: optional(
      mapField(onIt("tone"), {
        ...trackFields("a tone control"),
        nanofarads: numberField({ owner: "a tone control", key: "nanofarads" }, { min: 0.01, max: 1000 }),
      }),
    ).describe("ahead of the volume control"),
    outputs: z
      .union([z.literal(1), z.literal(2)], {
        error: ({ input }) =>
          message({ owner: "an instrument", key: "outputs" }, input, "is 1, or 2 for left and right"),
      })
      .default(1)
      .describe("2: the split is at the instrument, and a stereo take feeds both"),
  })
    .transform(withUsualCoil)
    .prefault({});
}

/** With what its kind of pickup usually has, where the rig gives nothing of its own. */
function withUsualCoil(instrument: Instrument): Instrument {
  if (instrument.pickup === null) return instrument;
  const usual = pickupKinds[instrument.pickup];
  return {
    ...instrument,
    outputOhms: instrument.outputOhms ?? usual.outputOhms,
    henries: instrument.henries ?? usual.henries,
    picofarads: instrument.picofarads ?? usual.picofarads,
  };
}

export function destinationSchema() {
  const owner = "a destination";
  return mapField(named("destination"), {
    inputOhms: ohmsField(owner, "inputOhms"),
    maxInputDbu: maximumField(owner, "maxInputDbu"),
  }).prefault({});
}

/**
 * Lengths of cables where a rig does not tell: common practice, no source. 100 pF/m lies within the 80 to 150 pF/m of
 * instrument cable (from memory).
 */
export function cablesSchema() {
  const owner = "a cable";
  const metres = (key: string) => numberField({ owner, key }, { min: 0, max: 200 });
  return mapField(named("cables"), {
    instrumentMetres: metres("instrumentMetres").default(6).describe("instrument to board"),
    patchMetres: metres("patchMetres").default(0.3).describe("box to box"),
    outputMetres: metres("outputMetres").default(6).describe("board to desk or amps"),
    picofaradsPerMetre: numberField({ owner, key: "picofaradsPerMetre" }, { min: 1, max: 1000 }).default(100),
  })
    .transform((cables): CableFacts => cables)
    .prefault({});
}

const named = (key: string) => ({ owner: "a rig", key });
const onIt = (key: string) => ({ owner: "an instrument", key });

/** A variable resistor with a wiper. */
const trackFields = (owner: string) => ({
  ohms: numberField({ owner, key: "ohms" }, ohmsBounds).describe("of the whole track"),
  trackShare: numberField({ owner, key: "trackShare" }, { min: 0.001, max: 1 })
    .default(1)
    .describe("of the track's resistance, from the wiper down; 1 full up"),
});

export const ohmsBounds = { min: 1, max: 1e8 };

/** What may be left out, null then. */
const optional = <T extends z.ZodType>(field: T) =>
  field.nullish().transform((value): z.output<T> | null => value ?? null);

const ohmsField = (owner: string, key: string) => optional(numberField({ owner, key }, ohmsBounds));

const maximumField = (owner: string, key: string) =>
  optional(numberField({ owner, key }, { min: -60, max: 40 }));

import { mixerBounds } from "../../rig/model/bounds.js";
import type { ReturnTrim } from "../../rig/model/rig.js";
import { hasWetAlone } from "../../rig/routings/sense.js";
import { blendOf } from "../../rig/wiring/blend.js";
import { pedalBoxes } from "../../rig/wiring/parts.js";
import type { MixerBox, MixerInput, PedalBox, Wiring } from "../../rig/wiring/wiring.js";
import type { TakeSource } from "../../sound/audio/takeSource.js";
import type { Block } from "../../sound/dsp/kernel.js";
import { powerToDb } from "../../sound/dsp/units.js";
import { type CompileOptions, compile } from "../render/compile.js";
import { render, type TailRule } from "../render/render.js";

/** Wirings whose returns the rig leaves open, and what they are set by. */
export interface ReturnsJob {
  readonly wirings: readonly Wiring[];
  /** The rig in one line: what each unit gives there is what its return is to give. */
  readonly inLine: Wiring;
  readonly take: TakeSource;
  readonly rateHz: number;
  readonly clips: NonNullable<CompileOptions["clips"]>;
  readonly tail: TailRule;
  readonly interpolation?: CompileOptions["interpolation"];
  readonly onFrames?: (frames: number) => void;
}

/** The level that a return was set to, and why; `trimDb` is onto the level that it was drawn with. */
export interface ReturnLevel extends ReturnTrim {
  readonly mixer: string;
  readonly jack: string;
  readonly unit: string;
  readonly gainDb: number;
}

/** A wiring with its returns set. */
export interface WithReturns {
  readonly wiring: Wiring;
  readonly returns: readonly ReturnLevel[];
}

/** What is taken where a unit has no dry sound in line to be equal to. */
const withoutDryDb = 0;
/** Returns are set so near: a tenth is as fine as anyone sets a mixer. */
const stepDb = 0.1;
/** Where wet to dry does not go by the return's level decibel by decibel, setting is repeated, so often at the most. */
const mostRounds = 3;

/**
 * Sets every return so that the wet sound of its unit stands to the dry sound
 * at the buses as it does in line, on this take: E(with the unit) - E(without any), against E(without any), over both
 * sides. Of several units each is measured by itself, the others' effects silenced and their dry paths kept. One that
 * shapes its whole input has no effect to silence, and stays; so does one in line at mix 1, for behind it its wet sound
 * is all that there is, and is what another unit's stands to.
 */
export function equalWet(job: ReturnsJob): readonly WithReturns[] {
  const open = job.wirings.map(openReturns);
  if (open.every((returns) => returns.length === 0))
    return job.wirings.map((wiring) => ({ wiring, returns: [] }));
  const units = [...new Set(open.flat().map(({ unit }) => unit))];
  const inLine = wetToDry(
    job,
    units.map((unit) => ({ wiring: job.inLine, unit })),
  );
  const target = new Map(units.map((unit, n) => [unit, inLine[n]]));
  let found = job.wirings.map((wiring): WithReturns => ({ wiring, returns: [] }));
  for (let round = 0; round < mostRounds; round++) {
    const asked = found.flatMap(({ wiring }, n) => open[n].map(({ unit }) => ({ wiring, unit })));
    const measured = wetToDry(job, asked);
    let at = 0;
    const before = found;
    found = found.map(({ wiring }, n) => {
      const returns = open[n].map((place) =>
        levelFor(wiring, place, target.get(place.unit)!, measured[at++]),
      );
      return { wiring: withGains(wiring, returns), returns };
    });
    const isToRepeat = ({ wiring }: WithReturns, n: number) =>
      open[n].some(
        (place) =>
          isShapedBehind(wiring, place.mixer) ||
          (carriesDry(wiring, place.unit) && hasMoved(before[n].wiring, wiring, place)),
      );
    if (!found.some(isToRepeat)) break;
  }
  return found;
}

interface OpenReturn {
  readonly mixer: string;
  readonly jack: string;
  /** Name of the unit that plays into it, fully wet. */
  readonly unit: string;
  /** As it was drawn. */
  readonly drawnDb: number;
}

const isMixer = (box: { readonly kind: string }): box is MixerBox => box.kind === "mixer";

function openReturns(wiring: Wiring): readonly OpenReturn[] {
  return wiring.boxes.filter(isMixer).flatMap(({ id, inputs }) =>
    inputs.flatMap(({ jack, gainDb }) => {
      const cable = wiring.cables.find(({ to }) => to.box === id && to.jack === jack);
      const unit = cable ? wetUnitAt(wiring, cable.from.box) : null;
      return unit === null ? [] : [{ mixer: id, jack, unit, drawnDb: gainDb }];
    }),
  );
}

/** The unit that a box gives, fully wet, be it by way of splitters and inverters; null where it gives anything else. */
function wetUnitAt({ boxes, cables }: Wiring, id: string): string | null {
  const box = boxes.find((each) => each.id === id);
  if (box?.kind === "pedal" && box.fullyWet) return box.pedal.name;
  const [into, ...others] = cables.filter(({ to }) => to.box === id);
  return into && others.length === 0 ? wetUnitAt({ boxes, cables }, into.from.box) : null;
}

/** Energies of the wet and the dry sound; their ratio in dB, infinite where there is no dry sound. */
interface Weighed {
  wet: number;
  dry: number;
}

/** Wet to dry of one unit of each wiring, all in one pass over the take; null where nothing of it arrives. */
function wetToDry(
  { take, rateHz, clips, tail, interpolation = "cubic", onFrames }: ReturnsJob,
  asked: readonly { readonly wiring: Wiring; readonly unit: string }[],
): readonly (number | null)[] {
  const pairs = asked.flatMap(({ wiring, unit }) => [withOnlyUnit(wiring, unit), withOnlyUnit(wiring, null)]);
  const graph = compile(pairs, { rateHz, clips, interpolation });
  const weighed = asked.map((): Weighed => ({ wet: 0, dry: 0 }));
  render(graph, {
    take,
    rateHz,
    tail,
    ...(onFrames ? { onFrames } : {}),
    sink: (outputs, frames) => {
      for (const [n, sum] of weighed.entries()) weigh(sum, outputs, 4 * n, frames);
    },
  });
  return weighed.map(({ wet, dry }) =>
    wet === 0 ? null : dry === 0 ? Number.POSITIVE_INFINITY : powerToDb(wet / dry),
  );
}

function weigh(sum: Weighed, outputs: Block, first: number, frames: number): void {
  for (let side = 0; side < 2; side++) {
    const wet = outputs[first + side];
    const dry = outputs[first + 2 + side];
    for (let n = 0; n < frames; n++) {
      sum.wet += (wet[n] - dry[n]) ** 2;
      sum.dry += dry[n] ** 2;
    }
  }
}

/** True where silencing the effect leaves the way through: in a branch of its own, or beside a dry path. */
const canBeSilenced = (box: PedalBox): boolean =>
  hasWetAlone(box.pedal) && (box.fullyWet || blendOf(box).dry.some((gain) => gain !== 0));

/** The wiring with the effects of all mono units silenced where that can be done, but for those of one; null: of all. */
export const withOnlyUnit = (wiring: Wiring, unit: string | null): Wiring => ({
  cables: wiring.cables,
  boxes: wiring.boxes.map((box) =>
    box.kind === "pedal" && box.isUnit && canBeSilenced(box) && box.pedal.name !== unit
      ? { ...box, wetMuted: true }
      : box,
  ),
});

function levelFor(
  wiring: Wiring,
  { mixer, jack, unit, drawnDb }: OpenReturn,
  inLineDb: number | null,
  measuredDb: number | null,
): ReturnLevel {
  const now = inputOf(wiring, mixer, jack).gainDb;
  const isDry = inLineDb !== null && Number.isFinite(inLineDb);
  const wantedDb = isDry ? inLineDb : withoutDryDb;
  const measured = measuredDb !== null && Number.isFinite(measuredDb) ? measuredDb : wantedDb;
  const exact = now + wantedDb - measured;
  const { min, max } = mixerBounds.gainDb;
  const gainDb = Math.max(min, Math.min(max, Math.round(exact / stepDb) * stepDb));
  const isBound = Math.abs(gainDb - exact) > stepDb;
  const by = isBound ? "bound" : isDry ? "in-line" : "no-dry";
  const wetToDryDb = measured + gainDb - now;
  return { mixer, jack, unit, gainDb: Number(gainDb.toFixed(1)), trimDb: gainDb - drawnDb, wetToDryDb, by };
}

function inputOf(wiring: Wiring, mixer: string, jack: string): MixerInput {
  const box = wiring.boxes.filter(isMixer).find(({ id }) => id === mixer);
  const input = box?.inputs.find((candidate) => candidate.jack === jack);
  if (!input) throw new Error(`no input "${jack}" at "${mixer}"`);
  return input;
}

const withGains = (wiring: Wiring, returns: readonly ReturnLevel[]): Wiring => ({
  cables: wiring.cables,
  boxes: wiring.boxes.map((box) =>
    isMixer(box)
      ? {
          ...box,
          inputs: box.inputs.map((input) => {
            const set = returns.find(({ mixer, jack }) => mixer === box.id && jack === input.jack);
            return set ? { ...input, gainDb: set.gainDb } : input;
          }),
        }
      : box,
  ),
});

/** A unit that cannot go fully wet: its return moves dry sound too. */
const carriesDry = (wiring: Wiring, unit: string): boolean =>
  pedalBoxes(wiring).some(
    (box) => box.pedal.name === unit && box.fullyWet && blendOf(box).dry.some((gain) => gain !== 0),
  );

const hasMoved = (before: Wiring, now: Wiring, { mixer, jack }: OpenReturn): boolean =>
  Math.abs(inputOf(now, mixer, jack).gainDb - inputOf(before, mixer, jack).gainDb) > 1.5 * stepDb;

/** Something behind a mixer shapes its whole input, so that a level is not passed on as it comes. */
function isShapedBehind(wiring: Wiring, mixer: string): boolean {
  const waiting = [mixer];
  const seen = new Set(waiting);
  for (let id = waiting.pop(); id !== undefined; id = waiting.pop()) {
    for (const { from, to } of wiring.cables) {
      if (from.box !== id || seen.has(to.box)) continue;
      seen.add(to.box);
      waiting.push(to.box);
    }
  }
  return pedalBoxes(wiring).some(({ id, pedal }) => seen.has(id) && !hasWetAlone(pedal));
}

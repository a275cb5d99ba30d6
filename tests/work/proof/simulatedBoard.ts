import type { Pedal } from "../../../src/rig/model/rig.js";
import { pedalModels } from "../../../src/rig/pedals/models.js";
import type { Cable, Wiring } from "../../../src/rig/wiring/wiring.js";
import type { Clip } from "../../../src/sound/audio/clip.js";
import { fftSizeFor } from "../../../src/sound/dsp/analysisFft.js";
import { RealAnalysisFft } from "../../../src/sound/dsp/realAnalysisFft.js";
import { makeTone } from "../../../src/work/capture/makeTone.js";
import type { ToneSettings } from "../../../src/work/capture/toneSettings.js";
import { noise } from "../../signals.js";
import { playThrough } from "../capture/simulatedLoop.js";

/**
 * A board on a bench, by other means than the code under test: sound along cables in the time domain, with what boxes do
 * to it written down here a second time. Of the project it takes the kernels alone: the sound of an effect by itself.
 */
export interface BuiltBoard {
  readonly wiring: Wiring;
  /** What somebody did to it; see `Mishap`. */
  readonly mishap?: Mishap;
}

/** What is not in a drawing. */
export interface Mishap {
  /** Cables, by their number, that turn the polarity over. */
  readonly inverted?: readonly number[];
  /** Boxes whose footswitch does nothing: they stay off. */
  readonly stuckOff?: readonly string[];
  /** Splitters that are a plain Y. */
  readonly passive?: readonly string[];
}

/** What is known of jacks, by box: of boxes that are no pedals. */
export interface BenchOhms {
  readonly source: number;
  readonly boxes: Readonly<
    Record<string, { readonly inputOhms: number | null; readonly outputOhms: number | null }>
  >;
}

export interface BenchOptions {
  readonly tone: ToneSettings;
  readonly off: readonly string[];
  readonly feed: "both" | "left" | "right";
  readonly gainDb?: number;
  readonly driftPpm?: number;
  readonly noiseDbfs?: number;
  readonly earlyFrames?: number;
  readonly seed?: number;
  /** Left out: nothing loads anything. */
  readonly ohms?: BenchOhms;
}

const tones = new Map<string, Float32Array>();
/** The tone as a recorder hears it whose clock runs fast: what the board does is far slower than the difference. */
function driftedTone(tone: ToneSettings, driftPpm: number): Float32Array {
  const key = JSON.stringify([tone, driftPpm]);
  const known = tones.get(key);
  if (known) return known;
  const [samples] = makeTone(tone).clip.channels;
  const made = playThrough(samples, { driftPpm, lateFrames: tone.rateHz >> 1 }, tone.rateHz).channels[0];
  tones.set(key, made);
  return made;
}

/** What the recorder gets: a side an input of the destination. */
export function recordBoard(board: BuiltBoard, bench: BenchOptions): Clip {
  const { tone, gainDb = 0, noiseDbfs, earlyFrames = 0, seed = 1 } = bench;
  const sides = playedOnce(board, bench);
  const gain = 10 ** (gainDb / 20);
  const channels = sides.map((side, n) => {
    const frames = earlyFrames + side.length;
    const hiss =
      noiseDbfs === undefined ? null : noise({ seed: 2 * seed + n, frames, rms: 10 ** (noiseDbfs / 20) });
    const recorded = hiss ?? new Float32Array(frames);
    for (let k = 0; k < side.length; k++) recorded[earlyFrames + k] += gain * side[k];
    return recorded;
  });
  return { rateHz: tone.rateHz, channels };
}

type Sound = Float32Array;

const played = new WeakMap<BuiltBoard, Map<string, readonly Sound[]>>();
/** What a board gives, without noise and gain: often recorded anew. */
function playedOnce(board: BuiltBoard, bench: BenchOptions): readonly Sound[] {
  const { tone, off, feed, driftPpm = 0, ohms } = bench;
  const known = played.get(board) ?? new Map<string, readonly Sound[]>();
  played.set(board, known);
  const key = JSON.stringify([tone, off, feed, driftPpm, ohms]);
  const sides =
    known.get(key) ?? playBoard(board.wiring, board.mishap ?? {}, driftedTone(tone, driftPpm), bench);
  known.set(key, sides);
  return sides;
}

function playBoard(
  wiring: Wiring,
  mishap: Mishap,
  dry: Sound,
  { off, feed, tone, ohms }: BenchOptions,
): readonly Sound[] {
  const { rateHz } = tone;
  const silence = new Float32Array(dry.length);
  const made = new Map<string, Sound>();
  const feeder = (box: string, jack: string): Cable | undefined =>
    wiring.cables.find(({ to }) => to.box === box && to.jack === jack);
  const heard = (box: string, jack: string): Sound => {
    const cable = feeder(box, jack);
    if (!cable) return silence;
    const isInverted = mishap.inverted?.includes(wiring.cables.indexOf(cable)) ?? false;
    const gain = lossAt(cable.from) * (isInverted ? -1 : 1);
    return outputOf(cable.from.box, cable.from.jack).map((x) => gain * x);
  };
  const isOff = (id: string) => (mishap.stuckOff ?? []).includes(id) || off.includes(id);
  /** A box that is a bare wire: what hangs behind it hangs on what is ahead of it. */
  const isWire = (id: string): boolean => {
    const box = wiring.boxes.find((each) => each.id === id);
    if (box?.kind === "splitter") return mishap.passive?.includes(id) ?? !box.buffered;
    return (
      box?.kind === "pedal" && isOff(id) && box.pedal.hasFootswitch && box.pedal.whenOff === "true-bypass"
    );
  };
  const loadsOn = (from: Cable["from"]): readonly (number | null)[] => {
    const cable = wiring.cables.find((each) => each.from.box === from.box && each.from.jack === from.jack);
    if (!cable) return [];
    const next = wiring.boxes.find(({ id }) => id === cable.to.box);
    if (next && isWire(next.id)) {
      const jacks = wiring.cables.filter((each) => each.from.box === next.id).map((each) => each.from);
      const isSided = next.kind === "pedal" && next.inputs === 2 && next.outputs === 2;
      const side = cable.to.jack.replace("in", "out");
      return jacks.filter(({ jack }) => !isSided || jack === side).flatMap(loadsOn);
    }
    return [next?.kind === "pedal" ? next.pedal.inputOhms : (ohms?.boxes[cable.to.box]?.inputOhms ?? null)];
  };
  /** Level lost into what hangs on a driving jack, by Ohm's law. */
  const lossAt = (from: Cable["from"]): number => {
    if (!ohms || isWire(from.box)) return 1;
    const box = wiring.boxes.find(({ id }) => id === from.box);
    const isSource = box?.kind === "take";
    const own = isSource
      ? ohms.source
      : box?.kind === "pedal"
        ? box.pedal.outputOhms
        : (ohms.boxes[from.box]?.outputOhms ?? null);
    const loads = loadsOn(from).map((load) => load ?? (isSource ? 1e6 : null));
    if (own === null || loads.length === 0 || loads.includes(null)) return 1;
    const siemens = loads.reduce<number>((sum, load) => sum + 1 / (load ?? 1), 0);
    return 1 / (1 + own * siemens);
  };
  const outputOf = (id: string, jack: string): Sound => {
    if (!made.has(`${id}|${jack}`)) play(id);
    return made.get(`${id}|${jack}`) ?? silence;
  };
  const set = (id: string, jack: string, sound: Sound): void => {
    made.set(`${id}|${jack}`, sound);
  };
  const lr = ["left", "right"];

  function play(id: string): void {
    const box = wiring.boxes.find((each) => each.id === id);
    if (!box) throw new Error(id);
    if (box.kind === "take") {
      const left = feed === "right" ? silence : dry;
      const right = feed === "left" ? silence : dry;
      if (box.channels === 1) set(id, "out", dry);
      else if (box.outputs === 1) set(id, "out", weighted([left, right], [0.5, 0.5]));
      else for (const [n, sound] of [left, right].entries()) set(id, `out ${lr[n]}`, sound);
    } else if (box.kind === "splitter") {
      for (let n = 1; n <= box.outputs; n++) set(id, `out ${n}`, heard(id, "in"));
    } else if (box.kind === "summing-box") {
      const all = Array.from({ length: box.inputs }, (_, n) => heard(id, `in ${n + 1}`));
      set(
        id,
        "out",
        weighted(
          all,
          all.map(() => 1 / box.inputs),
        ),
      );
    } else if (box.kind === "mixer") {
      const all = box.inputs.map(({ jack }) => heard(id, jack));
      const bus = (side: number) =>
        weighted(
          all,
          box.inputs.map(({ gainDb, pan }) => {
            const angle = ((pan + 1) * Math.PI) / 4;
            return 10 ** (gainDb / 20) * (side === 0 ? Math.cos(angle) : Math.sin(angle));
          }),
        );
      if (box.outputs === 2) for (const [n, word] of lr.entries()) set(id, `out ${word}`, bus(n));
      else set(id, "out", weighted([bus(0), bus(1)], [0.5, 0.5]));
    } else if (box.kind === "pedal") {
      const ins = box.inputs === 1 ? [heard(id, "in")] : lr.map((word) => heard(id, `in ${word}`));
      const isOn = !mishap.stuckOff?.includes(id) && !(box.pedal.hasFootswitch && off.includes(id));
      const outs = playPedal(box.pedal, ins, { outputs: box.outputs, isOn, fullyWet: box.fullyWet, rateHz });
      for (const [n, sound] of outs.entries()) set(id, box.outputs === 1 ? "out" : `out ${lr[n]}`, sound);
    }
  }

  const destination = wiring.boxes.find((box) => box.kind === "destination");
  if (destination?.kind !== "destination") throw new Error("no destination");
  return destination.inputs === 1
    ? [heard(destination.id, "in")]
    : lr.map((word) => heard(destination.id, `in ${word}`));
}

interface PedalState {
  readonly outputs: 1 | 2;
  readonly isOn: boolean;
  readonly fullyWet: boolean;
  readonly rateHz: number;
}

/** A pedal: converters, then dry and wet, trim and polarity. */
function playPedal(
  pedal: Pedal,
  ins: readonly Sound[],
  { outputs, isOn, fullyWet, rateHz }: PedalState,
): readonly Sound[] {
  const model = pedalModels[pedal.model];
  const isLate = isOn || pedal.whenOff === "buffered";
  const frames = isLate ? (pedal.latencyMs * rateHz) / 1000 : 0;
  const fed = (outputs === 1 && ins.length === 2 ? [weighted(ins, [0.5, 0.5])] : ins).map((x) =>
    later(x, frames),
  );
  const dryOf = (n: number): Sound => fed[Math.min(n, fed.length - 1)];
  const all = Array.from({ length: outputs }, (_, n) => n);
  if (!isOn) return all.map((n) => (pedal.whenOff === "muted" ? new Float32Array(fed[0].length) : dryOf(n)));
  const use = {
    rateHz,
    inputs: fed.length === 2 ? 2 : 1,
    outputs,
    interpolation: "cubic",
    clips: new Map(),
  } as const;
  const wet = all.map(() => new Float32Array(fed[0].length));
  model.kernel(pedal.settings, use).process(fed, wet, fed[0].length);
  const trim = 10 ** (pedal.levelDb / 20) * (pedal.invertsPolarity ? -1 : 1);
  return all.map((n) => {
    const { dry, effect } = shares(pedal, { fullyWet, side: n, outputs });
    return weighted([dryOf(n), wet[n]], [trim * dry, trim * effect]);
  });
}

/** What the page of each model says of its mix. */
function shares(
  pedal: Pedal,
  { fullyWet, side, outputs }: { fullyWet: boolean; side: number; outputs: 1 | 2 },
) {
  const { mix, secondOutput } = pedal.settings;
  const isWhole = typeof mix !== "number";
  if (outputs === 2 && secondOutput === "wet-dry")
    return side === 0 ? { dry: 0, effect: 1 } : { dry: 1, effect: 0 };
  if (isWhole) return { dry: 0, effect: 1 };
  const wet = fullyWet ? 1 : mix;
  const sign = outputs === 2 && side === 1 && secondOutput === "inverted-wet" ? -1 : 1;
  const leak =
    fullyWet && !pedal.canGoFullyWet ? 10 ** ((pedal.dryPath === "unity" ? 0 : pedal.dryLeakDb) / 20) : 0;
  const dry = pedal.dryPath === "unity" && !fullyWet ? 1 : 1 - wet;
  return { dry: dry + leak, effect: sign * wet };
}

function weighted(sounds: readonly Sound[], gains: readonly number[]): Sound {
  const out = new Float32Array(sounds[0].length);
  for (const [n, sound] of sounds.entries())
    for (let k = 0; k < out.length; k++) out[k] += gains[n] * sound[k];
  return out;
}

/** By any fraction of a frame: a turn of the phase. */
function later(sound: Sound, frames: number): Sound {
  if (frames === 0) return sound;
  const fft = new RealAnalysisFft(fftSizeFor(sound.length + Math.ceil(frames)));
  const { size } = fft;
  const padded = new Float64Array(size);
  padded.set(sound);
  const [re, im] = [new Float64Array(size / 2 + 1), new Float64Array(size / 2 + 1)];
  fft.forward(padded, re, im);
  for (let k = 0; k < re.length; k++) {
    const angle = (-2 * Math.PI * k * frames) / size;
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    [re[k], im[k]] = [re[k] * c - im[k] * s, re[k] * s + im[k] * c];
  }
  fft.inverse(re, im, padded);
  return Float32Array.from(padded.subarray(0, sound.length));
}

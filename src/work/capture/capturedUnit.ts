import { dbToGain, gainToDb } from "../../sound/dsp/units.js";
import type { CaptureFacts } from "./captureFacts.js";
import { spikeFrames } from "./firstArrival.js";

/** A captured unit as a rig has it: what the file holds, and what stands beside it. */
export interface CapturedUnit {
  /** `effect`: the dry sound is taken out. `all`: everything that came back, so that its mix is 1 in a rig. */
  readonly holds: "effect" | "all";
  /** How late all that goes through the unit is; null where nothing tells. */
  readonly latencyFrames: number | null;
  readonly latencyBy: "direct sound" | "given" | null;
  /** As it was set when it was recorded; null where nobody told. */
  readonly mix: number | null;
  /** Dry sound that is left at the wettest; null where there is none, or it was not set so. */
  readonly dryLeakDb: number | null;
  /** By the direct sound; it is then taken out of the file. */
  readonly invertsPolarity: boolean;
  /** By the direct sound of a known mix, where a cable tells the level. */
  readonly levelDb: number;
  readonly keepsDryAtUnity: boolean;
  /** What a person should know of it. */
  readonly notes: readonly string[];
}

/** What the person says of the unit. */
export interface ToldOfUnit {
  /** Its mix when it was recorded, 0.01 to 1; 1: fully wet. */
  readonly mix?: number;
  readonly latencyMs?: number;
}

/** The dry sound in what came back, alike on all sides. */
interface DirectSound {
  readonly levelDb: number;
  readonly inverted: boolean;
  /** Energy to all that follows; null when nothing does. */
  readonly toWetDb: number | null;
}

/** Dry sound this far below the wet, or nearer, was mixed in and did not leak; common practice, no source. */
const leastMixDb = -10;
/** A dry path is flat within this; a sharp start of an effect is not. Converters take no longer. Common practice, no source. */
const flatDb = 3;
const latestMs = 15;
/** Sides whose dry sound differs by more than this do not pass it alike. */
const alikeDb = 1;

export interface Parted {
  readonly unit: Omit<CapturedUnit, "latencyFrames" | "latencyBy">;
  /** Dry sound is in what came back, and tells the unit's latency. */
  readonly hasDirect: boolean;
  /** What to do to what came back, for the file. */
  readonly takesDirectOut: boolean;
  readonly gain: number;
}

/**
 * Parts dry sound and effect. A mix of m gives (1 - m) of the dry sound, or all of it where the dry path stays at unity,
 * and m of the effect; so a dry sound of known mix tells the level of the unit, and the effect alone follows.
 *
 * @param isAbsolute a plain cable on the other side tells levels; else a known mix does
 */
export function partedUnit(
  channels: readonly CaptureFacts[],
  { mix = null }: { readonly mix?: number | null },
  isAbsolute: boolean,
): Parted {
  const direct = directSoundOf(channels, mix, isAbsolute);
  if (direct === "unlike")
    return whole(mix, ["The sides pass the dry sound unlike each other: it stays in the file."]);
  if (direct === null) return effectAlone(mix);
  if (direct.toWetDb === null) return whole(mix, []);
  if (mix !== null && mix < 1) return ofKnownMix(direct, mix, isAbsolute);
  if (mix === null && direct.toWetDb > leastMixDb) return whole(mix, [mixedWords]);
  const says =
    mix === null
      ? `The mix that was set is not known (--mix): the dry sound, at ${direct.levelDb.toFixed(1)} dB, is taken for what is left when the unit is set fully wet.`
      : null;
  const unit = {
    ...plain,
    holds: "effect",
    mix,
    dryLeakDb: Math.min(0, direct.levelDb),
    invertsPolarity: direct.inverted,
    notes: [...(says === null ? [] : [says]), playedMixWords],
  } as const;
  return { unit, hasDirect: true, takesDirectOut: true, gain: direct.inverted ? -1 : 1 };
}

/** Sets the dry sound to zero, a raised cosine either side of it. @param onsetFrame where its peak stands */
export function takeDirectOut(response: Float32Array, onsetFrame: number, rateHz: number): void {
  const reach = spikeFrames(rateHz);
  const edge = Math.ceil(reach / 2);
  for (let n = Math.max(0, onsetFrame - reach - edge); n <= onsetFrame + reach + edge; n++) {
    const away = Math.max(0, Math.abs(n - onsetFrame) - reach) / edge;
    if (n < response.length) response[n] *= 0.5 - 0.5 * Math.cos(Math.PI * Math.min(1, away));
  }
}

const plain = { dryLeakDb: null, invertsPolarity: false, levelDb: 0, keepsDryAtUnity: false } as const;

const mixedWords =
  "The mix that was set is not known (--mix): there is as much dry sound in it as a mix has, and the file holds both. In place of the unit in line that is right; beside other pedals, where it should be fully wet, its dry sound would be heard twice. Give the mix, or record it fully wet.";
const playedMixWords = "Write the mix that you play it with under settings; left out it is 0.35.";

const whole = (mix: number | null, notes: readonly string[]): Parted => ({
  unit: { ...plain, holds: "all", mix, notes },
  hasDirect: true,
  takesDirectOut: false,
  gain: 1,
});

function effectAlone(mix: number | null): Parted {
  const says =
    mix === null
      ? "The mix that was set is not known (--mix): no dry sound stands out, so it is taken as fully wet."
      : mix < 1
        ? `At a mix of ${mix} there should be dry sound, and none stands out: the file holds what came back as it is. Check the mix, or record the unit fully wet.`
        : null;
  return {
    unit: { ...plain, holds: "effect", mix, notes: [...(says === null ? [] : [says]), playedMixWords] },
    hasDirect: false,
    takesDirectOut: false,
    gain: 1,
  };
}

function ofKnownMix(direct: DirectSound, mix: number, isAbsolute: boolean): Parted {
  const crossfadeDb = direct.levelDb - gainToDb(1 - mix);
  const keepsDryAtUnity = isAbsolute && Math.abs(direct.levelDb) < Math.abs(crossfadeDb);
  const levelDb = keepsDryAtUnity ? direct.levelDb : crossfadeDb;
  const unit = {
    holds: "effect",
    mix,
    dryLeakDb: null,
    invertsPolarity: direct.inverted,
    levelDb: isAbsolute ? levelDb : 0,
    keepsDryAtUnity,
    notes: ["Whether it can go fully wet is not known from this: record it so, or write canGoFullyWet."],
  } as const;
  return {
    unit,
    hasDirect: true,
    takesDirectOut: true,
    gain: (direct.inverted ? -1 : 1) / (mix * dbToGain(levelDb)),
  };
}

/** A unit that gives nothing but one click passes sound, however late; of others the click is theirs if it may be dry. */
function directSoundOf(
  channels: readonly CaptureFacts[],
  mix: number | null,
  isAbsolute: boolean,
): DirectSound | "unlike" | null {
  const isLate = ({ latencyMs }: CaptureFacts) => isAbsolute && (latencyMs ?? 0) > latestMs;
  const isMixed = mix !== null && mix < 1;
  const leaks = channels.flatMap((facts) => {
    const { dryLeak } = facts;
    if (dryLeak === null) return [];
    const mayBeDry = !isLate(facts) && (isMixed || dryLeak.unevenDb <= flatDb);
    return dryLeak.toWetDb === null || mayBeDry ? [dryLeak] : [];
  });
  if (leaks.length === 0) return null;
  const levels = leaks.map(({ levelDb }) => levelDb);
  const polarities = new Set(channels.map(({ invertsPolarity }) => invertsPolarity));
  const onsets = channels.map(({ onsetFrames }) => onsetFrames);
  const isAlike =
    leaks.length === channels.length &&
    Math.max(...levels) - Math.min(...levels) < alikeDb &&
    Math.max(...onsets) - Math.min(...onsets) < 1 &&
    polarities.size === 1;
  if (!isAlike) return "unlike";
  const ratios = leaks.map(({ toWetDb }) => toWetDb);
  const known = ratios.flatMap((ratio) => ratio ?? []);
  return {
    levelDb: levels.reduce((sum, level) => sum + level, 0) / levels.length,
    inverted: channels[0].invertsPolarity === true,
    toWetDb: known.length === ratios.length ? Math.max(...known) : null,
  };
}

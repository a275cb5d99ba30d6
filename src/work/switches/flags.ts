import { modelOf } from "../../rig/pedals/models.js";
import { dbToGain, gainToDb } from "../../sound/dsp/units.js";
import type { Comb } from "../../sound/measure/facts.js";
import {
  bothCure,
  keepLatencyCure,
  killDryCure,
  muteCure,
  passCure,
  polarityCure,
  relayCure,
  type Surroundings,
  trimCure,
} from "./cures.js";
import type { Cure, Flag, StateReading } from "./switchTypes.js";
import { type FlagKind, thresholds } from "./thresholds.js";

/** One press, seen from all that its flags need. */
export interface ComparedPress {
  /** Null for a mute, which is there to take away what it takes away: nothing is to be cured. */
  readonly around: Surroundings | null;
  readonly from: StateReading;
  readonly to: StateReading;
  /** Off, the box sends sound round its branch that was not there before. */
  readonly sendsDry: boolean;
  /** Jump of level with its return muted instead; null where that was not rendered. */
  readonly mutedJumpLu: number | null;
  /** Jump of level with its partner pressed off as well; null without one, or where that was not rendered. */
  readonly bothJumpLu: number | null;
}

/** What a listener notices at a press, each with threshold, source and cure. */
export function flagsOf(press: ComparedPress): readonly Flag[] {
  return [
    ...levelFlags(press),
    ...combFlags(press),
    ...polarityFlags(press),
    ...balanceFlags(press),
    ...sideDelayFlags(press),
    ...widthFlags(press),
  ];
}

/** b - a; null where one is not known. */
export const change = (from: number | null, to: number | null): number | null =>
  from === null || to === null ? null : to - from;

function levelFlags(press: ComparedPress): readonly Flag[] {
  const { around, from, to } = press;
  const jump = change(from.integratedLufs, to.integratedLufs);
  if (from.integratedLufs !== null && to.integratedLufs === null)
    return [flag("silence", "all sound goes", null, around && passCure(around))];
  if (jump === null || Math.abs(jump) < thresholds["level-jump"].value) return [];
  const says = `${Math.abs(jump).toFixed(1)} LU ${jump > 0 ? "louder" : "softer"}`;
  return [flag("level-jump", says, jump, muting(press) ?? levelTogether(press) ?? trim(press, jump))];
}

function combFlags(press: ComparedPress): readonly Flag[] {
  const { around, from, to } = press;
  const [before, after] = [from.comb, to.comb].map((comb) =>
    comb && comb.levelDb >= thresholds.comb.value && comb.notchesHz.length > 0 ? comb : null,
  );
  const words = (comb: Comb) =>
    `a copy ${comb.delayMs.toFixed(2)} ms late at ${oneDecimal(comb.levelDb)} dB${comb.inverted ? ", inverted" : ""}, first notch ${Math.round(comb.notchesHz[0])} Hz`;
  const whenOffCure = silencing(press) ?? (around && relay(around));
  if (after && !before) return [flag("comb", `a comb comes: ${words(after)}`, after.levelDb, whenOffCure)];
  if (before && after && !soundsAlike(before, after)) {
    const says = `a comb changes from ${words(before)}, to ${words(after)}`;
    return [flag("comb", says, after.levelDb, whenOffCure)];
  }
  if (before && !after) {
    return [flag("comb", `a comb goes: ${words(before)}`, before.levelDb, around && killDry(around))];
  }
  return [];
}

const relay = (around: Surroundings): Cure | null => {
  const { latencyMs, whenOff } = around.box.pedal;
  return latencyMs > 0 && whenOff === "buffered" ? relayCure(around) : null;
};

const killDry = (around: Surroundings): Cure | null =>
  around.box.fullyWet && !around.box.pedal.canGoFullyWet ? killDryCure(around) : null;

/** Combs whose first notches stand and reach alike: within 10 % and 1 dB (common practice, no source). */
function soundsAlike(a: Comb, b: Comb): boolean {
  const depthDb = ({ levelDb }: Comb) => gainToDb(Math.max(1e-3, 1 - dbToGain(levelDb)));
  const isNear = Math.abs(a.notchesHz[0] - b.notchesHz[0]) <= 0.1 * a.notchesHz[0];
  return isNear && Math.abs(depthDb(a) - depthDb(b)) < 1;
}

function polarityFlags(press: ComparedPress): readonly Flag[] {
  const { around, from, to } = press;
  const turned = ["left", "right"].filter((_, side) => {
    const [before, after] = [from.polarity[side], to.polarity[side]];
    return before !== null && after !== null && before !== after;
  });
  if (turned.length === 0) return [];
  if (turned.length === 2) {
    const says = "polarity turns over on both sides: heard only beside a signal that does not pass here";
    return [flag("polarity", says, 2, around && polarityCure(around))];
  }
  const says = `polarity turns over on the ${turned[0]} alone: hollow, and it cancels in mono`;
  return [flag("polarity", says, 1, together(press) ?? (around && polarityCure(around)))];
}

function balanceFlags(press: ComparedPress): readonly Flag[] {
  const shift = change(press.from.balanceDb, press.to.balanceDb);
  if (shift === null || Math.abs(shift) < thresholds.balance.value) return [];
  const says = `shifts ${Math.abs(shift).toFixed(1)} dB to the ${shift > 0 ? "left" : "right"}`;
  return [flag("balance", says, shift, together(press))];
}

function sideDelayFlags(press: ComparedPress): readonly Flag[] {
  const { around, from, to } = press;
  const shift = change(from.sideDelayMs, to.sideDelayMs);
  if (shift === null || Math.abs(shift) < thresholds["side-delay"].value) return [];
  const late = shift > 0 ? "left" : "right";
  const says = `the ${late} comes ${Math.abs(shift).toFixed(2)} ms later than before, to the other side`;
  return [flag("side-delay", says, shift, together(press) ?? (around && keepLatencyCure(around)))];
}

function widthFlags(press: ComparedPress): readonly Flag[] {
  const { from, to } = press;
  const cure = muting(press) ?? together(press);
  const share = change(from.sideShare, to.sideShare);
  const likeness = change(from.correlation, to.correlation);
  return [
    ...(share !== null && Math.abs(share) >= thresholds.width.value
      ? [
          flag(
            "width",
            `side share ${share > 0 ? "up" : "down"} by ${(100 * Math.abs(share)).toFixed(0)} % of the energy`,
            share,
            cure,
          ),
        ]
      : []),
    ...(likeness !== null && Math.abs(likeness) >= thresholds.correlation.value
      ? [flag("correlation", `correlation ${signed(likeness)}`, likeness, cure)]
      : []),
  ];
}

/** Takes a comb away, whatever it does to the level: that is told. */
const silencing = ({ sendsDry, around, mutedJumpLu }: ComparedPress): Cure | null =>
  around && sendsDry ? muteCure(around, mutedJumpLu) : null;

const muting = (press: ComparedPress): Cure | null =>
  isLess(press, press.mutedJumpLu) ? silencing(press) : null;

/** Keeps both sides alike, whatever it does to the level: that is told. */
const together = ({ around, bothJumpLu }: ComparedPress): Cure | null =>
  around?.partner ? bothCure(around, bothJumpLu) : null;

const levelTogether = (press: ComparedPress): Cure | null =>
  isLess(press, press.bothJumpLu) ? together(press) : null;

/** No cure leaves a larger jump of level than it mends, but one that nobody notices. */
function isLess({ from, to }: ComparedPress, leftLu: number | null): boolean {
  const jump = change(from.integratedLufs, to.integratedLufs);
  if (leftLu === null || jump === null) return true;
  return Math.abs(leftLu) < Math.max(Math.abs(jump), thresholds["level-jump"].value);
}

/** A pedal in line is brought to one level on and off; one that sends dry sound round a branch is not, nor is a boost made none. */
function trim({ around, sendsDry }: ComparedPress, jump: number): Cure | null {
  if (!around || sendsDry) return null;
  const isMeant = jump < 0 && modelOf(around.box.pedal.model).isMeantToBeLouder === true;
  return isMeant ? null : trimCure(around, jump);
}

function flag(kind: FlagKind, says: string, value: number | null, cure: Cure | null): Flag {
  const { unit, value: threshold, source } = thresholds[kind];
  return { kind, says, value, unit, threshold, source, cure };
}

/** Without a minus before nothing. */
const oneDecimal = (value: number): string => (Math.round(10 * value) / 10 || 0).toFixed(1);

const signed = (value: number): string => `${value > 0 ? "+" : ""}${value.toFixed(2)}`;

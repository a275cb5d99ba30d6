import type { Pedal, Rig } from "../model/rig.js";
import { modelOf } from "../pedals/models.js";
import { leakDbOf } from "./blend.js";
import { combOf, sideDelayMs } from "./dryPaths.js";
import { freePairs } from "./freeLfos.js";
import { pedalBoxes } from "./parts.js";
import type { PedalBox, Wiring } from "./wiring.js";

const hz = (value: number): string =>
  value < 1000 ? `${Math.round(value)} Hz` : `${(value / 1000).toFixed(2)} kHz`;
const ms = (value: number): string => `${Math.round(value * 100) / 100} ms`;
const db = (value: number): string => `${value < 0 ? "-" : ""}${Math.abs(value).toFixed(1)} dB`;

/**
 * What may go wrong with a wiring on the bench and on stage, in plain sentences, the particular first. Facts of the
 * trade among them are common practice, no source; comb notches follow from the wiring (`combOf`); the earth and
 * hearing lines defer to licensed practice and local rules.
 */
export function cautionsOf(wiring: Wiring, rig: Rig): readonly string[] {
  return [
    ...combCautions(wiring),
    ...wetBranchCautions(wiring),
    ...sideDelayCautions(wiring),
    ...lfoCautions(wiring),
    ...boxCautions(wiring),
    ...(rig.playsInto === "two-amps" ? [earth] : []),
    hearing,
  ];
}

const earth =
  "Two amps on one signal can hum through a ground loop. Never lift the mains safety earth to cure it: that can kill. " +
  "Use an isolating transformer in one signal cable, feed both amps from one outlet, and leave mains wiring to a " +
  "qualified person under the local code.";

const hearing =
  "Patch with amps and desk turned down, then bring the level up slowly: a wrong patch can be very loud, and loud " +
  "sound harms hearing for good.";

function combCautions(wiring: Wiring): readonly string[] {
  const comb = combOf(wiring);
  if (!comb) return [];
  const where = comb.side === "both" ? "on both sides" : `on the ${comb.side}`;
  const notches = comb.notchesHz.slice(0, 3).map(hz).join(", ");
  const polarity = comb.inverted ? ", inverted" : "";
  return [
    `A copy of the dry signal${polarity} arrives ${ms(comb.delayMs)} late at ${db(comb.levelDb)} ${where}: a comb, first notches ${notches || "above 16 kHz"}.`,
  ];
}

const sideBySide = (wiring: Wiring): readonly PedalBox[] =>
  pedalBoxes(wiring).filter(({ fullyWet }) => fullyWet);

const byWhat = ({ dryPath }: Pedal): string =>
  dryPath === "unity" ? "kill-dry: its mix leaves the dry sound as it is" : "kill-dry, or its mix at maximum";

function wetBranchCautions(wiring: Wiring): readonly string[] {
  return sideBySide(wiring).flatMap(({ pedal }) => {
    const { name, whenOff } = pedal;
    const { additive } = modelOf(pedal.model);
    const lines: string[] = [];
    if (additive && pedal.canGoFullyWet)
      lines.push(`Run ${name} fully wet (${byWhat(pedal)}); the mixer sets its level.`);
    if (additive && !pedal.canGoFullyWet) {
      lines.push(
        `${name} cannot go fully wet: at its wettest it still leaks dry signal at ${db(leakDbOf(pedal))}, ${ms(pedal.latencyMs)} late.`,
      );
    }
    if (!additive)
      lines.push(
        `${name} has no wet-only output: what returns is its whole sound, on top of the direct one.`,
      );
    if (pedal.invertsPolarity) {
      lines.push(
        `${name} inverts polarity: beside the direct sound it can cancel. Invert its return at the mixer.`,
      );
    }
    if (whenOff !== "muted" && pedal.hasFootswitch) {
      lines.push(
        `Switched off, ${name} sends dry signal round the branch: a jump in level${pedal.latencyMs > 0 && whenOff === "buffered" ? ", and a comb" : ""}. Mute its return at the mixer instead.`,
      );
    }
    return lines;
  });
}

/** A shift between the sides of 0.1 ms is heard as a shift of place: interaural delays span about 0.7 ms (from memory). */
const audibleSideDelayMs = 0.1;

function sideDelayCautions(wiring: Wiring): readonly string[] {
  const delay = sideDelayMs(wiring);
  if (delay === null || Math.abs(delay) < audibleSideDelayMs) return [];
  const [late, early] = delay > 0 ? ["left", "right"] : ["right", "left"];
  return [
    `The ${late} side arrives ${ms(Math.abs(delay))} after the ${early}: the image leans to the ${early}.`,
  ];
}

const lfoCautions = (wiring: Wiring): readonly string[] =>
  freePairs(wiring).map(
    (name) =>
      `The two ${name} swing by LFOs of their own: how they stand to each other is chance, and width changes with it.`,
  );

function boxCautions(wiring: Wiring): readonly string[] {
  const has = (kind: string): boolean => wiring.boxes.some((box) => box.kind === kind);
  return [
    ...(has("splitter")
      ? [
          "Split with a buffered splitter: a plain Y loads the pedal ahead of it, and pedals pull each other down.",
        ]
      : []),
    ...(has("summing-box") || has("mixer")
      ? ["Never tie two outputs together with a Y cable: sum in the summing box or mixer."]
      : []),
  ];
}

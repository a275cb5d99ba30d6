import { fixed, signed, trimmed } from "../text/numbers.js";
import { andList } from "../text/words.js";
import type { Check, CheckKind, FoundFault, ProofReport } from "../work/proof/proofReport.js";

/** A line of the sheet in words: what is checked, wanted, found, and whether it passes. */
export interface CheckWords {
  readonly what: string;
  readonly wanted: string;
  readonly found: string;
  readonly passes: "yes" | "NO" | "not told";
}

const names: Readonly<Record<CheckKind, string>> = {
  output: "Sound at the",
  "sides-swapped": "Left and right",
  cables: "Cables",
  "cable-elsewhere": "Cables",
  "cable-missing": "Cables",
  polarity: "Polarity",
  "mono-output": "Both outputs of stereo pedals in use",
  "not-fully-wet": "Units beside fully wet",
  "no-dry-sound": "Dry sound of pedals in line",
  level: "Level",
  pan: "Pan",
  latency: "Latency",
  "stays-off": "Footswitches",
  "passive-split": "Buffered splitters",
  hum: "Hum to the tone at the",
  hiss: "Hiss to the tone at the",
};

/** @param faults  how many were found, of which one is */
export function checkWords(check: Check, faults: number): CheckWords {
  const { kind, where, passes, wanted, found, within } = check;
  const isSide = kind === "output" || kind === "hum" || kind === "hiss";
  const isFigure = wanted !== null && !isSide;
  const of = isFigure ? `, ${where}` : isSide ? ` ${where}` : "";
  return {
    what: `${names[kind]}${of}`,
    wanted: wantedWords(kind, wanted),
    found:
      kind === "hum" || kind === "hiss"
        ? found === null
          ? "none"
          : `${fixed(found, 0)} dB`
        : isFigure
          ? found === null
            ? "-"
            : `${figureWords(kind, found)}${within === null ? "" : `, within ${withinWords(kind, within)}`}`
          : whetherWords(check, faults),
    passes: passes === null ? "not told" : passes ? "yes" : "NO",
  };
}

function whetherWords({ kind, where, passes }: Check, faults: number): string {
  if (kind === "output") return passes ? "sound" : "none";
  if (passes === true) return "as drawn";
  if (passes === null) return where === "" ? "-" : "open, see below";
  return faults === 1 ? "at fault, see above" : "one of those above";
}

function wantedWords(kind: CheckKind, wanted: number | null): string {
  if (kind === "hum" || kind === "hiss") return `under ${fixed(wanted, 0)} dB`;
  if (wanted !== null) return figureWords(kind, wanted);
  return kind === "output" ? "sound" : "as drawn";
}

const figureWords = (kind: CheckKind, value: number): string =>
  kind === "level"
    ? `${signed(value, 1)} dB`
    : kind === "latency"
      ? `${trimmed(Math.abs(value) < 0.005 ? 0 : value, 2)} ms`
      : panWords(value);

const withinWords = (kind: CheckKind, value: number): string =>
  kind === "level" ? `${fixed(value, 1)} dB` : kind === "latency" ? `${fixed(value, 2)} ms` : fixed(value, 2);

/** -1 is left, 1 right. */
function panWords(pan: number): string {
  if (Math.abs(pan) < 0.005) return "centre";
  return `${trimmed(Math.abs(pan) * 100, 0)} % ${pan < 0 ? "left" : "right"}`;
}

/** Faults as sentences, with their figures; what to do follows the last of its kind. */
export function faultWords({ faults }: Pick<ProofReport, "faults">): readonly string[] {
  const kinds = [...new Set(faults.map(({ kind }) => kind))];
  const sorted = kinds.flatMap((kind) => faults.filter((fault) => fault.kind === kind));
  return sorted.map((fault, n) => {
    const isLast = sorted[n + 1]?.kind !== fault.kind;
    return isLast ? `${foundWords(fault)}. ${cures[fault.kind]}` : `${foundWords(fault)}.`;
  });
}

function foundWords({ kind, says, wanted, found }: FoundFault): string {
  if (wanted === null || found === null) return says;
  const off = kind === "level" ? `, ${signed(found - wanted, 1)} dB off` : "";
  return `${says}: ${figureWords(kind, found)} in place of ${figureWords(kind, wanted)}${off}`;
}

const cures: Readonly<Record<FoundFault["kind"], string>> = {
  "sides-swapped": "Change the two plugs over.",
  "cable-elsewhere": "Change the two plugs over.",
  "cable-missing": "Plug it in; if it is in, try another cable.",
  polarity: "Look for a cable or box wired the other way round, or a polarity switch.",
  "mono-output": "Plug its second output in.",
  "not-fully-wet": "Turn its mix up full, or set kill-dry.",
  "no-dry-sound": "Set its mix as in the rig file; turn kill-dry off.",
  level: "Set it as planned and record again.",
  pan: "Set it as planned.",
  latency: "If the pedal is so by itself, write it into the rig file and compare again.",
  "stays-off": "See to its supply and its switch.",
  "passive-split": "Put the buffered splitter in.",
};

/** What was found, in a sentence or two. */
export function verdictWords({ built, faults, sureness, misfit }: ProofReport): string {
  if (built === "as-drawn")
    return `Built as drawn, as far as these recordings tell: no fault found (${surenessWords(sureness)}).`;
  if (built === "not-known")
    return `Not as drawn, and no single slip explains it (the nearest still misses by ${fixed(misfit, 2)}; 0 is a perfect fit). The recordings came in another order than asked for, more than one thing is wrong, or a pedal sounds unlike its model in the rig file. Check the order, the cables one by one against the patch list, then the pedals' settings, and record again.`;
  return faults.length === 1
    ? `A fault (${surenessWords(sureness)}).`
    : `A fault (${surenessWords(sureness)} that it is one of these; they give the same recordings).`;
}

function surenessWords(sureness: number): string {
  const percent = sureness * 100;
  return percent > 99.9 ? "over 99.9 % sure" : `${fixed(Math.floor(percent * 10) / 10, 1)} % sure`;
}

/** What these recordings cannot tell, and why: a line for each kind. */
export function notToldWords({ notTold, sourceOhms }: ProofReport): readonly string[] {
  const kinds = [...new Set(notTold.map(({ kind }) => kind))];
  return kinds.map((kind) => {
    const where = notTold.filter((each) => each.kind === kind).map((each) => each.where);
    return `${names[kind]} (${where.join("; ")}): ${untoldBecause(kind, sourceOhms)}`;
  });
}

const sameOverTime =
  "both ways these recordings are alike: what swings, or rings on, sounds the same over time. Look at the plugs, or pull one: its own side must fall silent.";

function untoldBecause(kind: FoundFault["kind"], sourceOhms: number | null): string {
  switch (kind) {
    case "polarity":
      return "turned over, it turns all that is heard over alike. That shows only beside a sound that takes another way; look at the cable.";
    case "latency":
      return "nothing that is heard meets a copy of itself without it, so that it cannot be read, and makes no comb.";
    case "passive-split":
      return sourceOhms === null
        ? "a Y loads what is ahead of it, and the tone came from what no box loads. Record again with --source-ohms, or look at the splitter."
        : "by the resistances that the rig states a Y takes the same off all that is heard, or hardly anything. Look at the splitter.";
    case "stays-off":
      return "on or off, these recordings are alike, or it is driven: press it and listen.";
    case "sides-swapped":
    case "cable-elsewhere":
    case "mono-output":
      return sameOverTime;
    case "cable-missing":
    case "not-fully-wet":
    case "no-dry-sound":
    case "level":
    case "pan":
      return "it stands so far under the rest that it makes no difference here. Look at it on the board.";
  }
}

/** What the answer rests on. */
export function basisWords({ returnsBy, recordings, tone, sourceOhms }: ProofReport): readonly string[] {
  const drift = recordings.map(({ driftPpm }) => signed(driftPpm, 1));
  return [
    "It assumes that nobody touched a level between the recordings, and that both inputs of the recorder have one gain.",
    sourceOhms === null
      ? "The tone is taken to come from an output that no box loads: whether a Y stands in place of a buffer is then not heard. Play it through a resistor of 10 kilohms or so in series, and say --source-ohms 10000."
      : `The tone came through ${trimmed(sourceOhms, 0)} ohms; what boxes load it and each other by is as the rig states.`,
    ...(returnsBy === "take"
      ? ["Levels of returns that the rig leaves open are wanted as compare sets them on the rig's take."]
      : returnsBy === "estimate"
        ? [
            "The rig leaves levels of returns open and names no take to measure them on: those wanted here are estimates.",
          ]
        : []),
    "What a pedal does by itself is taken from its model in the rig file; frequencies over 5 kHz are not looked at.",
    `Tone at ${tone.rateHz} Hz; recorder against player ${andList([...new Set(drift)])} ppm, taken out.`,
  ];
}

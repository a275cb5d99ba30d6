import { join } from "node:path";
import type { Rig } from "../../rig/model/rig.js";
import type { Routing } from "../../rig/routings/routing.js";
import { footswitchesOf } from "../../rig/wiring/footswitches.js";
import { encodeWav } from "../../sound/audio/encodeWav.js";
import type { HeldTake } from "../../sound/audio/takeSource.js";
import { initialiseFft } from "../../sound/dsp/fft.js";
import { dbToGain } from "../../sound/dsp/units.js";
import { truePeakDbtp } from "../../sound/measure/truePeak.js";
import { safeFileName } from "../../text/fileName.js";
import { truePeakLimitDbtp } from "../../work/compare/matchedLevels.js";
import { answersTo, checkSwitchWord } from "../../work/switches/chooseStates.js";
import { renderPress } from "../../work/switches/renderPress.js";
import { inState, stateOf } from "../../work/switches/states.js";
import { refuseOther, writeOwn } from "../files/ownFiles.js";
import { loadClips } from "../rig/rigClips.js";

/** A press to be heard: "chorus:off". */
export interface PressWord {
  /** A pedal's name, its model, or the label of one box. */
  readonly word: string;
  readonly to: "on" | "off";
}

export interface PressesOptions {
  readonly rig: Rig;
  readonly rigFile: string | null;
  readonly take: { readonly samples: HeldTake; readonly rateHz: number };
  readonly routings: readonly Routing[];
  readonly press: PressWord;
  /** Words of the other pedals that are off meanwhile. */
  readonly off: readonly string[];
  readonly outDir: string;
  /** Replace files of the same names that were written by an earlier run and not changed since. */
  readonly force: boolean;
  readonly onProgress?: (done: number, what: string) => void;
}

/**
 * Writes the take through each routing with a footswitch pressed in the middle, 24 bits. A word that means several
 * boxes, such as both units of `dual-mono`, presses them together. All files have one gain, 0 dB or what brings their
 * highest true peak down to -1 dBTP, so that the jump stays as it is.
 * @returns the files, in the order of the routings
 * @throws UserError when the word means no footswitch, or a file exists that may not be replaced; none is written then
 * @example
 * ```ts
 * import { readRig, readTake, routingsOf, writePresses } from "splitsum";
 * const rig = await readRig("rig.yaml");
 * const take = await readTake("take.wav", { channel: "mean", allowTruncated: false });
 * const routings = routingsOf(rig).filter(({ id }) => id === "parallel");
 * const press = { word: "spring", to: "off" } as const;
 * const files = await writePresses({ rig, rigFile: "rig.yaml", take, routings, press, off: [], outDir: "presses", force: true });
 * console.log(files);
 * ```
 */
export async function writePresses(options: PressesOptions): Promise<readonly string[]> {
  const { rig, rigFile, take, press, force, onProgress = () => {} } = options;
  refusePresses(options);
  const jobs = pressJobs(options);
  const clips = await loadClips(rig, rigFile, take.rateHz);
  await initialiseFft();
  const { samples, rateHz } = take;
  const renders = jobs.map(({ file, wiring, switches }, n) => {
    onProgress(n / jobs.length, `rendering ${file}`);
    const channels = renderPress({ wiring, switches, to: press.to, take: samples, rateHz, clips });
    return { file, channels, peakDbtp: truePeakDbtp(channels, rateHz) ?? Number.NEGATIVE_INFINITY };
  });
  const highestDbtp = Math.max(...renders.map(({ peakDbtp }) => peakDbtp));
  const gain = dbToGain(Math.min(0, truePeakLimitDbtp - highestDbtp));
  const files = renders.map(({ file, channels }) => {
    const clip = { rateHz, channels: channels.map((side) => side.map((x) => gain * x)) };
    return { path: file, content: encodeWav(clip, 24, file) };
  });
  if (files.length > 0) writeOwn(files, { force });
  return renders.map(({ file }) => file);
}

/** The files of `writePresses` are not written and not in the way. @throws UserError, before any work */
export function refusePresses(options: PressesPlan & Pick<PressesOptions, "force">): void {
  for (const { file } of pressJobs(options)) refuseOther(file, options.force);
}

type PressesPlan = Pick<PressesOptions, "routings" | "press" | "off" | "outDir">;

function pressJobs({ routings, press, off, outDir }: PressesPlan) {
  const possible = routings.flatMap(({ id, wiring }) => (wiring ? [{ id, wiring }] : []));
  for (const word of [press.word, ...off])
    checkSwitchWord(
      word,
      possible.map(({ wiring }) => wiring),
    );
  return possible.flatMap(({ id, wiring }) => {
    const all = footswitchesOf(wiring);
    const pressed = all.filter((each) => answersTo(each, press.word));
    if (pressed.length === 0) return [];
    const places = all.flatMap((each, n) => (off.some((word) => answersTo(each, word)) ? [n] : []));
    const start = inState(wiring, stateOf(all, new Set(places)).id);
    const file = join(outDir, `${safeFileName(id)}.${safeFileName(press.word)}-${press.to}.wav`);
    return [{ file, wiring: start, switches: new Set(pressed.map(({ id }) => id)) }];
  });
}

import { basename } from "node:path";
import { isDeepStrictEqual } from "node:util";
import type { EngineInputs, TravellingTake } from "../../page/live/pageInputs.js";
import { in24Bits, mostTravelLetters } from "../../page/live/takeFiles/in24Bits.js";
import { mostTakeFrames } from "../../page/live/takeMemory.js";
import { checkRig } from "../../rig/file/parseRig.js";
import type { RigText } from "../../rig/file/rigText.js";
import { toYaml } from "../../rig/file/toYaml.js";
import type { Rig } from "../../rig/model/rig.js";
import type { Routing } from "../../rig/routings/routing.js";
import { encodeFlac, flacTakesRate } from "../../sound/audio/encodeFlac.js";
import { encodeWav } from "../../sound/audio/encodeWav.js";
import type { Take, TakeFacts } from "../../sound/audio/take.js";
import { type HeldTake, joined } from "../../sound/audio/takeSource.js";
import type { Recording } from "../../work/recordings/recording.js";
import type { LongTake } from "../audio/readTake.js";

/** What the engine of a page renders from. */
export interface EngineSource {
  readonly rig: Rig;
  /** The file that it was read from; without one, the page makes its own of the rig. */
  readonly rigText?: RigText | undefined;
  readonly take: Take | LongTake;
  /** Others that it was compared with. */
  readonly moreTakes?: readonly (Take | LongTake)[];
  /** Of the real rig, in time with the take. */
  readonly recordings?: readonly Recording[];
  /** Those of the report. */
  readonly routings: readonly Routing[];
  /** Sound files that settings name, at the rate of the take. */
  readonly clips: ReadonlyMap<string, readonly Float32Array[]>;
  readonly tailSeconds: number;
  /** The page is not wanted any more. */
  readonly signal?: AbortSignal;
}

/** Rig, takes and clips as they travel in a page: sound as base64, takes only as far as they fit. */
export async function inputsOf(source: EngineSource): Promise<EngineInputs> {
  const { rig, take, moreTakes = [], recordings = [], routings, clips, tailSeconds, signal } = source;
  const choices = routings.filter(({ wiring }) => wiring !== null).length + 1 + recordings.length;
  const takes = await takesToTravel([take, ...moreTakes], choices, tailSeconds, signal);
  const room = takes.reduce((left, { take }) => left - take.file.length, mostTravelLetters);
  const isTakeIn = takes[0]?.facts.sha256 === take.sha256;
  return {
    rig,
    rigText: textOf(rig, source.rigText),
    tailSeconds,
    takes,
    recordings: isTakeIn ? await recordingsToTravel(recordings, source, room) : [],
    clips: clipsToTravel(clips, take.rateHz),
  };
}

/** Sound files that settings name, as 32-bit float WAV files, base64. */
export const clipsToTravel = (clips: EngineSource["clips"], rateHz: number): EngineInputs["clips"] =>
  Object.fromEntries(
    [...clips].map(([name, channels]) => [name, base64(encodeWav({ rateHz, channels }, 32, name))]),
  );

/** Those of the takes that a page has memory and room for. @param choices  sounds that it holds at once */
export async function takesToTravel(
  takes: readonly (Take | LongTake)[],
  choices: number,
  tailSeconds: number,
  signal?: AbortSignal,
): Promise<EngineInputs["takes"]> {
  const travelling: EngineInputs["takes"][number][] = [];
  let room = mostTravelLetters;
  for (const each of takes) {
    const { samples, frames, rateHz } = each;
    if (samples === null || frames > mostTakeFrames(choices, rateHz, tailSeconds)) continue;
    const take = await takeToTravel(samples, rateHz, signal);
    if (take.file.length > room) continue;
    room -= take.file.length;
    travelling.push({ facts: takeFacts(each), take });
  }
  return travelling;
}

/** Those of the recordings that there is room for, as long as a render of the take may be. */
async function recordingsToTravel(
  recordings: readonly Recording[],
  { take: { frames, rateHz }, tailSeconds, signal }: EngineSource,
  room: number,
): Promise<EngineInputs["recordings"]> {
  const travelling: EngineInputs["recordings"][number][] = [];
  const most = frames + Math.ceil(tailSeconds * rateHz);
  let left = room;
  for (const { id, channels } of recordings) {
    const samples = joined(channels.map((side) => side.subarray(0, most)));
    const sound = await takeToTravel(samples, rateHz, signal);
    if (sound.file.length > left) continue;
    left -= sound.file.length;
    travelling.push({ id, sound });
  }
  return travelling;
}

/** The text of the rig's file, where it holds this rig: asks may have come with the command. */
function textOf({ returnTrims: _, leavesLoadingOut: __, ...rig }: Rig, given: RigText | undefined): RigText {
  const isIt = given && isDeepStrictEqual(checkRig(given.text, given.file).rig, rig);
  return isIt ? given : { file: given?.file ?? "rig.yaml", text: toYaml(rig) };
}

/** The facts alone, without the sound. */
function takeFacts(take: Take | LongTake): TakeFacts {
  const { file, sha256, rateHz, frames, channels, notices, silent } = take;
  return { file: basename(file), sha256, rateHz, frames, channels, notices, silent };
}

/** Shorter ones are no whole block of FLAC. */
const leastFlacFrames = 4096;

async function takeToTravel(
  samples: HeldTake,
  rateHz: number,
  signal: AbortSignal | undefined,
): Promise<TravellingTake> {
  const { sides, scale, isRounded } = in24Bits(samples);
  const isFlac = flacTakesRate(rateHz) && samples.length >= leastFlacFrames;
  const file = isFlac ? await encodeFlac(sides, rateHz, signal) : encodeWav({ rateHz, channels: sides }, 24);
  return { file: base64(file), scale, isRounded };
}

export const base64 = (bytes: Uint8Array): string => Buffer.from(bytes).toString("base64");

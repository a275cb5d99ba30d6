import type { RigText } from "../../rig/file/rigText.js";
import type { Rig } from "../../rig/model/rig.js";
import type { TakeFacts } from "../../sound/audio/take.js";
import type { PageData } from "../contract/pageData.js";
import type { Kept } from "./keptChoices.js";
import { fromBase64 } from "./takeFiles/bytes.js";

/** What the page needs to render by itself, as it stands in the file. Plain JSON. */
export interface EngineInputs {
  /** As the report has it, with the returns that were measured; null for a page that begins without a rig. */
  readonly rig: Rig | null;
  /** The rig file that it was read from. */
  readonly rigText: RigText;
  /** Tails are cut here at the latest. */
  readonly tailSeconds: number;
  /** The take of the report first, then others that were compared; those that are too long to travel are left out. */
  readonly takes: readonly { readonly facts: TakeFacts; readonly take: TravellingTake }[];
  /** States of the rig that were kept, to stand beside it. */
  readonly kept?: readonly Kept[];
  /** Recordings of the real rig, in time with the take of the report; those that are too long to travel are left out. */
  readonly recordings: readonly { readonly id: string; readonly sound: TravellingTake }[];
  /** Sound files that settings name, at the take's rate, as 32-bit float WAV files, base64. */
  readonly clips: Readonly<Record<string, string>>;
}

/** What goes in of a sound, one channel or two. */
export interface TravellingTake {
  /** FLAC or WAV of 24 bits, base64. */
  readonly file: string;
  /** To be multiplied with, a power of two. */
  readonly scale: number;
  /** True when 24 bits did not hold it exactly. */
  readonly isRounded: boolean;
}

/** Ids of the script elements that hold data. */
export const scriptIds = {
  data: "splitsum-data",
  inputs: "splitsum-inputs",
  engine: "splitsum-engine",
  fft: "splitsum-fft",
} as const;

export interface PageInputs {
  readonly data: PageData;
  readonly inputs: EngineInputs;
  readonly engineSource: string;
  readonly fftBinary: Uint8Array<ArrayBuffer>;
}

/** Reads what was written into the page. */
export function readPageInputs(document: Document): PageInputs {
  const text = (id: string): string => document.getElementById(id)?.textContent ?? "null";
  return {
    data: JSON.parse(text(scriptIds.data)),
    inputs: JSON.parse(text(scriptIds.inputs)),
    engineSource: JSON.parse(text(scriptIds.engine)),
    fftBinary: fromBase64(JSON.parse(text(scriptIds.fft))),
  };
}

import type { Rig } from "../../rig/model/rig.js";
import type { PageData } from "../contract/pageData.js";
import { fromBase64 } from "./takeFiles/bytes.js";

/** What the page needs to render by itself, as it stands in the file. Plain JSON. */
export interface EngineInputs {
  readonly rig: Rig;
  /** Tails are cut here at the latest. */
  readonly tailSeconds: number;
  /** The mono source; null when it is too long to travel. */
  readonly take: {
    /** FLAC or WAV of 24 bits, base64. */
    readonly file: string;
    /** To be multiplied with, a power of two. */
    readonly scale: number;
    /** True when 24 bits did not hold it exactly. */
    readonly isRounded: boolean;
  } | null;
  /** Sound files that settings name, at the take's rate, as 32-bit float WAV files, base64. */
  readonly clips: Readonly<Record<string, string>>;
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

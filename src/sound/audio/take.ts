import { UserError } from "../../text/userError.js";
import type { HeldTake } from "./takeSource.js";

/** What a person should know of the file that a take came from. */
export interface TakeFacts {
  readonly file: string;
  /** Of the whole file, in hexadecimal. */
  readonly sha256: string;
  readonly rateHz: number;
  /** Of the file: 1 or 2. */
  readonly channels: number;
  readonly frames: number;
  /** Plain sentences without a full stop at the end: clipped, DC offset, sides differ, cut off, silent. */
  readonly notices: readonly string[];
  /** True when what goes in holds nothing but zeros: there is then nothing to measure. */
  readonly silent: boolean;
}

/** A dry take: one mono source, or two sides for an instrument with two outputs. */
export interface Take extends TakeFacts {
  /** On a SharedArrayBuffer: workers read it without a copy. */
  readonly samples: HeldTake;
}

/** @throws UserError for a take that holds nothing but zeros, where nothing can be done with it */
export function refuseSilent({ file, silent, frames, rateHz }: TakeFacts): void {
  if (!silent) return;
  const seconds = (frames / rateHz).toFixed(1);
  const message = `holds no sound (${seconds} s of zeros). Choose a take with a signal in it.`;
  throw new UserError({ file, message });
}

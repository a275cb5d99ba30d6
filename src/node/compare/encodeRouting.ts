import { dbToGain } from "../../sound/dsp/units.js";
import { openWav } from "../audio/wavWriter.js";
import { stopIfTold } from "../threads/thread.js";
import { readSpool, type Spool } from "./spool.js";

/** One routing's spool and the files to make of it. Plain data. */
export interface EncodeJob {
  readonly spool: Spool;
  readonly frames: number;
  readonly rateHz: number;
  readonly bits: 16 | 24 | 32;
  readonly gainDb: number;
  readonly stereo: string;
  /** The fold-down, (left + right) / 2, as a mono desk would give it; null for none. */
  readonly mono: string | null;
}

/** Writes the matched stereo file and its fold-down. */
export function encodeRouting({ spool, frames, rateHz, bits, gainDb, stereo, mono }: EncodeJob): void {
  const gain = dbToGain(gainDb);
  const sides = openWav(stereo, { rateHz, channels: 2, bits, frames });
  const folded = mono === null ? null : openWav(mono, { rateHz, channels: 1, bits, frames });
  let sum = new Float32Array(0);
  readSpool(spool, frames, (block, count) => {
    stopIfTold();
    sides.write(block, count, gain);
    if (!folded) return;
    if (sum.length < count) sum = new Float32Array(count);
    const [left, right] = block;
    for (let n = 0; n < count; n++) sum[n] = (left[n] + right[n]) / 2;
    folded.write([sum], count, gain);
  });
  sides.close();
  folded?.close();
}

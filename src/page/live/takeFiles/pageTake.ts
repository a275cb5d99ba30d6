import type { Take } from "../../../sound/audio/take.js";
import { joined } from "../../../sound/audio/takeSource.js";
import type { PageInputs, TravellingTake } from "../pageInputs.js";
import { fromBase64 } from "./bytes.js";
import { decodeAt } from "./decode.js";

/** Names of the takes in the page. */
export const pageTakeNames = ({ inputs }: PageInputs): readonly string[] =>
  inputs.takes.map(({ facts }) => facts.file);

/** A take that the page was made with, by its place among `pageTakeNames`; null when there is none. */
export async function pageTake({ inputs }: PageInputs, place = 0): Promise<Take | null> {
  const chosen = inputs.takes[place];
  if (!chosen) return null;
  const { facts, take } = chosen;
  const { file, sha256, rateHz, frames, channels, notices } = facts;
  const decoded = await travelled(take, rateHz);
  const samples = joined(decoded);
  if (samples.length !== frames) {
    throw new Error(`the take in the page has ${samples.length} frames, its facts ${frames}`);
  }
  const rounded = take.isRounded ? ["rounded to 24 bits in this page, at -146 dBFS"] : [];
  return {
    file,
    sha256,
    rateHz,
    frames,
    channels,
    notices: [...notices, ...rounded],
    samples,
    silent: false,
  };
}

/** The channels of a sound that came with the page. */
export async function travelled(
  { file, scale }: TravellingTake,
  rateHz: number,
): Promise<readonly Float32Array[]> {
  const decoded = await decodeAt(fromBase64(file), rateHz);
  if (scale !== 1) for (const side of decoded) for (let n = 0; n < side.length; n++) side[n] *= scale;
  return decoded;
}

import { UserError } from "../../text/userError.js";
import { mostWavFrames, type WavBits } from "./wavHead.js";

/** Called with a length as soon as it is known, ahead of any decoding. @throws UserError when it is too much */
export type LengthBound = (frames: number, rateHz: number) => void;

/** Sound of which stereo renders of so many bits would not fit into WAV files is refused by its length. */
export function lengthBound(file: string, bits: WavBits): LengthBound {
  const most = mostWavFrames({ channels: 2, bits });
  return (frames, rateHz) => {
    if (frames <= most) return;
    const fewer = bits > 16 ? ", ask for fewer bits," : "";
    const message = `is ${hours(frames, rateHz)} hours long; stereo WAV files of ${bits} bits at ${rateHz} Hz hold ${hours(most, rateHz)}. Cut it${fewer} or convert it to a lower sample rate.`;
    throw new UserError({ file, message });
  };
}

/** Sound that is decoded whole takes three times its size in memory: 2 GiB of it are enough. */
const mostSamples = 2 ** 29;

/** @throws UserError for sound that has more samples than can be decoded whole */
export function refuseUndecodable(file: string, kind: string, seconds: number, rateHz: number): void {
  if (seconds * rateHz <= mostSamples) return;
  const message = `unpacks to ${hours(seconds, 1)} hours of sound; ${kind} is decoded whole, up to ${hours(mostSamples, rateHz)} hours at ${rateHz} Hz. Convert it to WAV or FLAC, or cut it.`;
  throw new UserError({ file, message });
}

const hours = (frames: number, rateHz: number): string => (frames / rateHz / 3600).toFixed(1);

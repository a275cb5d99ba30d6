import { UserError } from "../../text/userError.js";
import type { Block } from "../dsp/kernel.js";
import { gainToDb } from "../dsp/units.js";
import type { SoundReader } from "./soundReader.js";
import { ChannelCheck, type ChannelFacts, loudestSample } from "./takeCheck.js";
import { silenceNotice, soundNotices } from "./takeNotices.js";

/** Receives the sound piece by piece; `start` is the frame at which the piece begins. */
export type PieceVisitor = (block: Block, frames: number, start: number) => void;

/**
 * Goes through a sound from start to end and checks every sample on the way.
 *
 * @param file  what messages call it
 * @returns what is known of each channel, and what a listener should know of the sound, in plain sentences
 * @throws UserError when a sample is not finite or far too large
 */
export async function scanSound(
  reader: SoundReader,
  file: string,
  visit: PieceVisitor,
): Promise<{ channels: readonly ChannelFacts[]; notices: readonly string[] }> {
  const checks = Array.from({ length: reader.channels }, () => new ChannelCheck(reader.fullScale));
  let start = 0;
  for await (const { block, frames } of reader.pieces()) {
    for (const [n, check] of checks.entries()) check.add(block[n], frames);
    visit(block, frames, start);
    start += frames;
  }
  const channels = checks.map((check) => check.facts());
  refuseUnusable(channels, reader.rateHz, file);
  const silence = silenceNotice(channels, reader.rateHz);
  return { channels, notices: [...soundNotices(channels, reader.rateHz), ...(silence ? [silence] : [])] };
}

function refuseUnusable(channels: readonly ChannelFacts[], rateHz: number, file: string): void {
  const found = channels.flatMap(({ firstUnusable }, n) => (firstUnusable ? [{ ...firstUnusable, n }] : []));
  if (found.length === 0) return;
  const { frame, value, n } = found.reduce((a, b) => (b.frame < a.frame ? b : a));
  const side = channels.length === 2 ? ` on the ${["left", "right"][n]}` : "";
  throw new UserError({
    file,
    message: `sample ${frame} (${(frame / rateHz).toFixed(3)} s)${side} is ${whyUnusable(value)}. Export it again.`,
  });
}

function whyUnusable(value: number): string {
  if (Number.isNaN(value)) return "not a number (NaN); sound is made of finite numbers";
  if (!Number.isFinite(value)) return "infinite; sound is made of finite numbers";
  const [overDb, mostDb] = [Math.abs(value), loudestSample].map((x) => gainToDb(x).toFixed(0));
  return `${overDb} dB over full scale; up to ${mostDb} dB over are read`;
}

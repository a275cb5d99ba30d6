import { join } from "node:path";
import { cuedWav } from "../../sound/audio/cuedWav.js";
import { openWavReader } from "../../sound/audio/wavReader.js";
import { UserError } from "../../text/userError.js";
import { reelText } from "../../words/reelText.js";
import { type ReelSpan, reelOf, spanFrames } from "../../work/compare/reel.js";
import type { Report } from "../../work/compare/report.js";
import { openFileSource } from "../audio/fileSource.js";
import { writeWhole } from "../files/wholeFile.js";

/** @throws UserError for a span that has nothing of the render in it */
export function checkSpan({ fromSeconds }: ReelSpan, takeSeconds: number): void {
  if (fromSeconds < takeSeconds) return;
  throw new UserError(
    `--reel begins at ${fromSeconds} s; the take is ${takeSeconds.toFixed(1)} s long. Begin earlier.`,
  );
}

/** Writes `reel.wav` and `reel.txt` from the files of a comparison: the dry take, then every choice, matched as they are. */
export async function writeReel(folder: string, report: Report, span: ReelSpan): Promise<void> {
  const choices = [
    { label: "Dry take", file: report.take.dryFile },
    ...report.routings.map(({ label, files }) => ({ label, file: files?.stereo ?? null })),
  ];
  const { rateHz } = report.take;
  const { from, to } = spanFrames(span, rateHz, report.frames);
  const parts = [];
  for (const { label, file } of choices)
    if (file !== null) parts.push({ label, channels: await section(join(folder, file), from, to) });
  const reel = reelOf(parts, rateHz);
  writeWhole(join(folder, "reel.wav"), cuedWav(reel.clip, reel.cues, "reel.wav"), { force: false });
  writeWhole(join(folder, "reel.txt"), reelText(reel), { force: false });
}

/** Frames `from` to `to` of a WAV file; nothing behind them is read. */
async function section(file: string, from: number, to: number): Promise<readonly Float32Array[]> {
  const source = openFileSource(file);
  try {
    const reader = openWavReader(source);
    const channels = Array.from({ length: reader.channels }, () => new Float32Array(to - from));
    let at = 0;
    for await (const { block, frames } of reader.pieces()) {
      const [first, end] = [Math.max(from, at), Math.min(to, at + frames)];
      if (first < end)
        for (const [n, channel] of channels.entries())
          channel.set(block[n].subarray(first - at, end - at), first - from);
      at += frames;
      if (at >= to) break;
    }
    return channels;
  } finally {
    source.close();
  }
}

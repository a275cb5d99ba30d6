import type { Clip } from "../../../src/sound/audio/clip.js";
import { fftSizeFor } from "../../../src/sound/dsp/analysisFft.js";
import { RealAnalysisFft } from "../../../src/sound/dsp/realAnalysisFft.js";
import type { AskedRecording } from "../../../src/work/proof/recordingList.js";

/** A hundredth of what is in a recording is under any noise of these benches; averages over a turn are nearer than a tenth. */
const asGoodAsNone = { still: 0.01, swinging: 0.1 };
/** Where LFOs start, for an average over their turn. */
const starts = [0, 45, 90, 135, 180, 225, 270, 315];

/**
 * Whether two boards give the same recordings but for a gain, a polarity and a start of the whole: by energies and the cross
 * spectrum of both sides, bin by bin; of what swings, whose moment is nobody's, by their means over a turn, in octaves.
 *
 * @param record  a board's clean recording, its LFOs started at so many degrees
 */
export function givesTheSame<B>(
  a: B,
  b: B,
  list: readonly AskedRecording[],
  record: (board: B, asked: AskedRecording, degrees: number) => Clip,
): boolean {
  const pairs = list.map((asked) => {
    const swings = asked.swinging.length > 0;
    const [first, second] = [a, b].map((board) =>
      swings
        ? total(starts.map((degrees) => octaves(crossSpectra(record(board, asked, degrees)))))
        : crossSpectra(record(board, asked, 0)),
    );
    return { first, second, most: swings ? asGoodAsNone.swinging : asGoodAsNone.still };
  });
  const energy = (of: "first" | "second") => pairs.reduce((sum, pair) => sum + normOf(pair[of]), 0);
  const scale = energy("second") / energy("first");
  return pairs.every(({ first, second, most }) => {
    const off = normOf(first.map((x, n) => second[n] - scale * x));
    return off <= most * Math.max(scale * normOf(first), normOf(second));
  });
}

const total = (all: readonly Float64Array[]): Float64Array =>
  all[0].map((_, n) => all.reduce((sum, each) => sum + each[n], 0));

/** Of each bin: energies of left and right, real and imaginary part of left times conjugate right. */
function crossSpectra({ channels }: Clip): Float64Array {
  const fft = new RealAnalysisFft(fftSizeFor(channels[0].length));
  const [left, right = left] = channels.map((samples) => {
    const padded = new Float64Array(fft.size);
    padded.set(samples);
    const [re, im] = [new Float64Array(fft.size / 2 + 1), new Float64Array(fft.size / 2 + 1)];
    fft.forward(padded, re, im);
    return { re, im };
  });
  const out = new Float64Array(4 * left.re.length);
  left.re.forEach((a, k) => {
    const [b, c, d] = [left.im[k], right.re[k], right.im[k]];
    out.set([a * a + b * b, c * c + d * d, a * c + b * d, b * c - a * d], 4 * k);
  });
  return out;
}

function octaves(cells: Float64Array): Float64Array {
  const out = new Float64Array(4 * 32);
  for (const [n, x] of cells.entries()) out[4 * Math.floor(Math.log2((n >> 2) + 1)) + (n & 3)] += x;
  return out;
}

const normOf = (values: Float64Array): number => Math.sqrt(values.reduce((sum, x) => sum + x * x, 0));

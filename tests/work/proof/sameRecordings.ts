import type { Clip } from "../../../src/sound/audio/clip.js";
import { fftSizeFor } from "../../../src/sound/dsp/analysisFft.js";
import { RealAnalysisFft } from "../../../src/sound/dsp/realAnalysisFft.js";
import type { AskedRecording } from "../../../src/work/proof/recordingList.js";

/** A hundredth of what is in a recording is under any noise of these benches; what swings is never the same twice. */
const asGoodAsNone = { still: 0.01, swinging: 0.1 };

/**
 * Whether two boards give the same recordings but for a gain, a polarity and a start of the whole: by energies and the cross
 * spectrum of both sides, bin by bin; of what swings, whose moment is nobody's, by their sums.
 *
 * @param record  a board's clean recording
 */
export function givesTheSame<B>(
  a: B,
  b: B,
  list: readonly AskedRecording[],
  record: (board: B, asked: AskedRecording) => Clip,
): boolean {
  const pairs = list.map((asked) => {
    const [first, second] = [a, b].map((board) => crossSpectra(record(board, asked)));
    return asked.swinging.length > 0
      ? ([summed(first), summed(second), asGoodAsNone.swinging] as const)
      : ([first, second, asGoodAsNone.still] as const);
  });
  const energy = (of: 0 | 1) => pairs.reduce((sum, pair) => sum + normOf(pair[of]), 0);
  const scale = energy(1) / energy(0);
  return pairs.every(([first, second, most]) => {
    const off = normOf(first.map((x, n) => second[n] - scale * x));
    return off <= most * Math.max(scale * normOf(first), normOf(second));
  });
}

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

const summed = (cells: Float64Array): Float64Array =>
  Float64Array.from({ length: 4 }, (_, part) =>
    cells.reduce((sum, x, n) => sum + (n % 4 === part ? x : 0), 0),
  );

const normOf = (values: Float64Array): number => Math.sqrt(values.reduce((sum, x) => sum + x * x, 0));

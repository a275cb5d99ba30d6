import { AnalysisFft, analysisFftBytes, fftSizeFor } from "../dsp/analysisFft.js";
import { RealAnalysisFft, realFftBytes } from "../dsp/realAnalysisFft.js";
import { twoSpectra } from "../dsp/twoSpectra.js";
import { openRoom, roomBytes, sharedBySize } from "../loops/room.js";
import { type LowBins, LowSpectra } from "./lowSpectra.js";
import { oneSidedEnergies, sineWindow } from "./powerComplementary.js";
import { commonFrames } from "./stereoSums.js";

/** Bins are no further apart than this, so that the narrowest band, the third octave at 25 Hz, holds two. */
const widestBinHz = 3;

/** Energies by frequency, one-sided: entry k belongs to k * binHz. The sum over all bins is the energy in time. */
export interface StereoSpectrum {
  readonly rateHz: number;
  readonly binHz: number;
  readonly frames: number;
  /** sum of |L(f)|^2 and |R(f)|^2. */
  readonly left: Float64Array;
  readonly right: Float64Array;
  /** Real and imaginary part of the sum of L(f) R*(f). */
  readonly crossReal: Float64Array;
  readonly crossImaginary: Float64Array;
  /** Finer ones of the lows: left, right and cross. */
  readonly low: LowBins;
}

/**
 * Adds up the power spectra of a stereo stream and their cross spectrum, over blocks that overlap by half, through a
 * sine window: its squares of two overlapping blocks add up to 1, so every frame counts once and energies are
 * exact, from the first frame to the last. One complex transform carries both channels, L + iR; where both are the
 * same array, or one is silent, a real one of half the work does.
 * Block length: the power of two that puts bins no more than 3 Hz apart (16 384 frames at 44.1 and 48 kHz).
 *
 * Source: J. P. Princen and A. B. Bradley, "Analysis/synthesis filter bank design based on time domain aliasing
 * cancellation", IEEE Trans. ASSP 34(5), 1986 (the power-complementary window); P. D. Welch, "The use of fast Fourier
 * transform for the estimation of power spectra", IEEE Trans. Audio Electroacoust. 15(2), 1967; Parseval's theorem.
 * The window's skirts fall by 12 dB an octave: a tone's energy over 100 bins away is 78 dB down.
 */
export class SpectrumMeter {
  readonly #rateHz: number;
  readonly #size: number;
  readonly #pairs: PairSpectrum;
  readonly #sums: MeterSums;
  readonly #block: Block;
  readonly #low: LowSpectra;
  #filled: number;
  #frames = 0;

  constructor(rateHz: number) {
    const size = spectrumBlockFrames(rateHz);
    this.#rateHz = rateHz;
    this.#size = size;
    this.#pairs = pairSpectrumOf(size);
    this.#sums = this.#pairs.newSums();
    this.#block = newBlock(size);
    this.#low = new LowSpectra(rateHz, size, 2, stereoPairs);
    this.#filled = size / 2;
  }

  push(left: Float32Array, right: Float32Array, frames: number): void {
    const block = this.#block;
    for (let from = 0; from < frames; ) {
      const to = Math.min(frames, from + this.#size - this.#filled);
      block.left.set(left.subarray(from, to), this.#filled);
      block.right.set(right.subarray(from, to), this.#filled);
      if (left !== right) block.isNewMono = false;
      this.#filled += to - from;
      if (this.#filled === this.#size) this.#closeBlock();
      from = to;
    }
    this.#frames += frames;
  }

  /** May be asked for at any time; more sound can be pushed afterwards. */
  result(): StereoSpectrum {
    const sums = this.#sums;
    const before = arraysOf(sums).map((sum) => sum.slice());
    const low = this.#low.copy();
    const block = newBlock(this.#size);
    block.left.set(this.#block.left.subarray(0, this.#filled));
    block.right.set(this.#block.right.subarray(0, this.#filled));
    block.isOldMono = this.#block.isOldMono;
    block.isNewMono = this.#block.isNewMono;
    for (let half = 0; half < 2; half++) {
      this.#pairs.add(block, sums, low);
      moveOn(block);
      block.left.fill(0, this.#size / 2);
      block.right.fill(0, this.#size / 2);
    }
    const ended = oneSided(sums, this.#size);
    arraysOf(sums).forEach((sum, n) => {
      sum.set(before[n]);
    });
    return {
      rateHz: this.#rateHz,
      binHz: this.#rateHz / this.#size,
      frames: this.#frames,
      ...ended,
      low: low.result(),
    };
  }

  #closeBlock(): void {
    this.#pairs.add(this.#block, this.#sums, this.#low);
    moveOn(this.#block);
    this.#filled = this.#size / 2;
  }
}

/** Left, right, and what both have. */
const stereoPairs = [
  [0, 0],
  [1, 1],
  [0, 1],
] as const;

/** Frames of a block: a power of two, so many that bins are no more than 3 Hz apart. */
export const spectrumBlockFrames = (rateHz: number): number => fftSizeFor(rateHz / widestBinHz);

/** Spectrum of two whole channels. @throws RangeError when their lengths differ */
export function stereoSpectrum(left: Float32Array, right: Float32Array, rateHz: number): StereoSpectrum {
  const meter = new SpectrumMeter(rateHz);
  meter.push(left, right, commonFrames(left, right));
  return meter.result();
}

/** Two channels of a block that fills; starts half full of the silence before the sound. */
interface Block {
  readonly left: Float32Array;
  readonly right: Float32Array;
  /** The older and the newer half came as one array for both sides. */
  isOldMono: boolean;
  isNewMono: boolean;
}

const newBlock = (size: number): Block => ({
  left: new Float32Array(size),
  right: new Float32Array(size),
  isOldMono: true,
  isNewMono: true,
});

/** The newer half becomes the older one. */
function moveOn(block: Block): void {
  const half = block.left.length / 2;
  block.left.copyWithin(0, half);
  block.right.copyWithin(0, half);
  block.isOldMono = block.isNewMono;
  block.isNewMono = true;
}

type Sums = Pick<StereoSpectrum, "left" | "right" | "crossReal" | "crossImaginary">;

/** Sums in the room of a `PairSpectrum`, and what adds the block at hand to them. */
interface MeterSums extends Sums {
  readonly addPair: () => void;
}

const arraysOf = ({ left, right, crossReal, crossImaginary }: Sums): readonly Float64Array[] => [
  left,
  right,
  crossReal,
  crossImaginary,
];

/** Meters whose sums stand in one room. */
const metersOfRoom = 12;

/** Adds the spectra of a windowed block to sums: four times the energies of each bin. */
class PairSpectrum {
  readonly #size: number;
  readonly #fft: AnalysisFft;
  readonly #realFft: RealAnalysisFft;
  /** The block at hand, where loops see it. */
  readonly #left: Float32Array;
  readonly #right: Float32Array;
  /** Those that no meter has taken. */
  readonly #free: MeterSums[];
  readonly #windowPair: () => void;
  readonly #windowOne: () => void;
  /** Interleaved spectra of left and right. */
  readonly #lows: readonly [Float64Array, Float64Array];

  constructor(size: number) {
    const bins = size / 2 + 1;
    const sums = metersOfRoom * roomBytes(8 * bins, 8 * bins, 8 * bins, 8 * bins);
    const blocks = roomBytes(8 * size, 4 * size, 4 * size);
    const room = openRoom(analysisFftBytes(size) + realFftBytes(size) + sums + blocks);
    const window = room.doubles(size);
    window.set(sineWindow(size));
    this.#size = size;
    this.#fft = new AnalysisFft(size, room);
    this.#realFft = new RealAnalysisFft(size, room);
    this.#left = room.floats(size);
    this.#right = room.floats(size);
    const { input, output } = this.#fft;
    this.#free = Array.from({ length: metersOfRoom }, () => {
      const [left, right, crossReal, crossImaginary] = [0, 1, 2, 3].map(() => room.doubles(bins));
      const addPair = room.loops.addPairEnergies(output, left, right, crossReal, crossImaginary);
      return { left, right, crossReal, crossImaginary, addPair };
    });
    this.#windowPair = room.loops.windowPair(this.#left, this.#right, window, input);
    this.#windowOne = room.loops.windowOne(this.#left, window, this.#realFft.signal);
    this.#lows = [new Float64Array(size + 2), new Float64Array(size + 2)];
  }

  get isFull(): boolean {
    return this.#free.length === 0;
  }

  /** All zero, for one meter. @throws Error when it is full */
  newSums(): MeterSums {
    const sums = this.#free.pop();
    if (!sums) throw new Error("PairSpectrum: all sums are taken");
    return sums;
  }

  /** A silent channel adds nothing, not even what rounding would leave of the other in it. */
  add({ left, right, isOldMono, isNewMono }: Block, sums: MeterSums, low: LowSpectra): void {
    const isMono = isOldMono && isNewMono;
    const hasLeft = left.some(isHeard);
    const hasRight = isMono ? hasLeft : right.some(isHeard);
    if (hasLeft && hasRight && !isMono) this.#addBoth(left, right, sums, low);
    else if (hasLeft && isMono) this.#addOne(left, [sums.left, sums.right, sums.crossReal], low, [0, 1]);
    else if (hasLeft) this.#addOne(left, [sums.left], low, [0]);
    else if (hasRight) this.#addOne(right, [sums.right], low, [1]);
    low.closeBlock();
  }

  #addOne(
    channel: Float32Array,
    into: readonly Float64Array[],
    low: LowSpectra,
    signals: readonly number[],
  ): void {
    const { re, im } = this.#realFft;
    this.#left.set(channel);
    this.#windowOne();
    this.#realFft.run();
    for (let k = 0; k < low.bins; k++) {
      this.#lows[0][2 * k] = re[k];
      this.#lows[0][2 * k + 1] = im[k];
    }
    for (const each of signals) low.add(each, this.#lows[0]);
    for (let k = 0; k < re.length; k++) re[k] = 4 * (re[k] * re[k] + im[k] * im[k]);
    for (const sum of into) addTo(sum, re);
  }

  #addBoth(left: Float32Array, right: Float32Array, sums: MeterSums, low: LowSpectra): void {
    this.#left.set(left);
    this.#right.set(right);
    this.#windowPair();
    this.#fft.forwardPairs();
    sums.addPair();
    twoSpectra(this.#fft.output, this.#size, low.bins, [0.5, 0.5], this.#lows);
    low.add(0, this.#lows[0]);
    low.add(1, this.#lows[1]);
  }
}

/** One for several meters that have blocks of this size. */
const pairSpectrumOf = sharedBySize(
  (size) => new PairSpectrum(size),
  ({ isFull }) => isFull,
);

function addTo(sums: Float64Array, values: Float64Array): void {
  for (let k = 0; k < sums.length; k++) sums[k] += values[k];
}

const isHeard = (x: number): boolean => x !== 0;

/** By Parseval energies are |X|^2 / size; bins other than the first and the last stand for their mirror too. */
function oneSided(sums: Sums, size: number): Sums {
  const scaled = (values: Float64Array) => oneSidedEnergies(values, 1 / (4 * size));
  return {
    left: scaled(sums.left),
    right: scaled(sums.right),
    crossReal: scaled(sums.crossReal),
    crossImaginary: scaled(sums.crossImaginary),
  };
}

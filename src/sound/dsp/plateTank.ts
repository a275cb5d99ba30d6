import { type PlateHalf, plateLoopBytes, type RingTap, ringTapBytes } from "../loops/plate.js";
import { ringSpare } from "../loops/reads.js";
import { type Room, roomBytes } from "../loops/room.js";
import { Lfo, lfoRunFrames } from "./lfo.js";
import type { PlacedTap, PlateDesign, PlateHalfDesign } from "./plateDesign.js";

/**
 * The plate's figure of eight: two halves that feed each other, each a swinging all-pass, a delay, damping, an all-pass and
 * a delay. One call takes no more frames than the shortest of the delays and of the LFO's runs.
 */
export class PlateTank {
  /** What goes into the halves, left and right. */
  readonly signals: readonly [Float64Array, Float64Array];
  /** What is heard, an output each. */
  readonly sums: readonly Float64Array[];
  readonly #lfos: readonly [Lfo, Lfo];
  readonly #run: (start: number, frames: number, lfoAt: number) => void;
  readonly #taps: readonly ((from: number, frames: number) => void)[];
  #frame = 0;

  /** @param excursionFrames swing of the first all-pass either way, @param outputs how many are heard */
  constructor(
    { halves, taps }: PlateDesign,
    { excursionFrames, lfoHz, rateHz, outputs }: PlateTankSettings,
    room: Room,
  ) {
    const ring = () => room.floats(ringFrames(halves, excursionFrames) + ringSpare);
    this.#lfos = [new Lfo(lfoHz, rateHz, 0, "sine", room), new Lfo(lfoHz, rateHz, 90, "sine", room)];
    this.signals = [room.doubles(lfoRunFrames), room.doubles(lfoRunFrames)];
    const placed = (half: 0 | 1): PlateHalf => {
      const { swinging, first, second, last, ...design } = halves[half];
      return {
        ...design,
        swinging: ring(),
        first: ring(),
        second: ring(),
        last: ring(),
        signal: this.signals[half],
        swing: this.#lfos[half].values,
        swingingFrames: swinging.frames,
        swingingGain: swinging.gain,
        firstFrames: first.frames,
        firstGain: first.gain * (1 - design.pole),
        secondFrames: second.frames,
        secondGain: second.gain,
        lastFrames: last.frames,
        lastGain: last.gain,
        excursionFrames,
      };
    };
    const both = [placed(0), placed(1)] as const;
    this.#run = room.loops.plateTank(both);
    this.sums = taps.slice(0, outputs).map(() => room.doubles(lfoRunFrames + 1));
    const tapOf = ({ half, line, frames, gain }: PlacedTap): RingTap => ({
      ring: both[half][line],
      frames,
      gain,
    });
    this.#taps = this.sums.map((sum, output) => room.loops.ringTaps(taps[output].map(tapOf), sum));
  }

  /** How many of the next `frames` frames one call can take. */
  ready(frames: number): number {
    const [left, right] = this.#lfos;
    return Math.min(left.ready(frames), right.ready(frames));
  }

  /** Takes frames of both signals, no more than `ready` says, and fills the sums. */
  process(frames: number): void {
    const [left, right] = this.#lfos;
    this.#run(this.#frame, frames, left.at);
    for (const tap of this.#taps) tap(this.#frame, frames);
    this.#frame = (this.#frame + frames) | 0;
    left.at += frames;
    right.at += frames;
  }
}

interface PlateTankSettings {
  readonly excursionFrames: number;
  readonly lfoHz: number;
  readonly rateHz: number;
  readonly outputs: number;
}

/** All rings are as long as the longest delay needs, and a run besides: a power of two. */
const ringFrames = (halves: readonly PlateHalfDesign[], excursionFrames: number): number =>
  2 **
  Math.ceil(
    Math.log2(
      Math.max(
        ...halves.flatMap(({ swinging, first, second, last }) => [
          swinging.frames + excursionFrames + 2,
          ...[first, second, last].map(({ frames }) => frames + lfoRunFrames),
        ]),
      ) + 4,
    ),
  );

/** What a tank takes in a room. */
export const plateTankBytes = (
  { halves, taps }: PlateDesign,
  { excursionFrames }: Pick<PlateTankSettings, "excursionFrames">,
): number => {
  const ring = 4 * (ringFrames(halves, excursionFrames) + ringSpare);
  const run = 8 * (lfoRunFrames + 1);
  return roomBytes(
    ...Array<number>(8).fill(ring),
    ...Array<number>(4 + taps.length).fill(run),
    ...plateLoopBytes,
    ...taps.flatMap((each) => ringTapBytes(each.length)),
  );
};

import type { SweepInputs } from "../../work/sweep/renderBlock.js";
import type { SweepLayout } from "../../work/sweep/sweepLayout.js";
import type { Pool } from "../threads/pool.js";
import { roomFor } from "./resultsFile.js";
import type { SweepJob, SweepOutcome } from "./sweepJobs.js";

export type SweepPool = Pool<SweepJob, SweepOutcome>;

interface Run {
  /** Tells this sweep from any other. */
  readonly sweepKey: string;
  readonly inputs: SweepInputs;
  readonly layout: SweepLayout;
  readonly pool: SweepPool;
  /** Told how much of the units is done, counted in results; parts of a block count while it is rendered. */
  readonly onProgress: (results: number) => void;
  readonly signal?: AbortSignal | undefined;
}

/** Of the work on a block, rendering is mostly far the most. */
const renderShare = 0.9;

/**
 * Does units, block by block: a thread renders a block's stems, then all threads mix its settings. No more blocks are
 * in memory than there are threads.
 * @param units   numbers of the units, in rising order
 * @param onUnit  gets the result lines of each unit as it is done, in any order; valid during the call
 */
export async function runUnits(
  { sweepKey, inputs, layout, pool, onProgress, signal }: Run,
  units: readonly number[],
  onUnit: (unit: number, lines: Uint8Array) => void,
): Promise<void> {
  const blocks = unitsByBlock(layout, units);
  const slots = new Int32Array(new SharedArrayBuffer(4 * pool.count));
  const atWork = Array.from({ length: pool.count }, () => 0);
  let done = 0;
  const tell = () => {
    const rendering = atWork.reduce(
      (sum, results, slot) => sum + results * (slots[slot] / inputs.plan.frames),
      0,
    );
    onProgress(done + renderShare * rendering);
  };
  const timer = setInterval(tell, 100);
  const most = layout.units.reduce((largest, { results }) => Math.max(largest, results), 0);
  const rooms = new Rooms(pool.count + 1, roomFor(most));
  let next = 0;
  const doBlocks = async (slot: number): Promise<void> => {
    while (next < blocks.length) {
      const own = blocks[next++];
      const resultsOf = (unit: number) => layout.units[unit].results;
      slots[slot] = 0;
      atWork[slot] = own.reduce((sum, unit) => sum + resultsOf(unit), 0);
      const { block } = layout.units[own[0]];
      const rendered = await run(
        pool,
        { kind: "block", job: { ...inputs, block }, progress: slots, slot },
        signal,
      );
      if (rendered.kind !== "block") throw new Error("a block job gave no products");
      const { rig, plan, rateHz } = inputs;
      const blockKey = `${sweepKey} ${layout.units[own[0]].blockNumber}`;
      await Promise.all(
        own.map(async (unit) => {
          await rooms.with(async (room) => {
            const { products } = rendered;
            const job = { rig, plan, rateHz, unit: layout.units[unit], blockKey, products, room };
            const mixed = await run(pool, { kind: "mix", job }, signal);
            if (mixed.kind !== "lines") throw new Error("a mix job gave no lines");
            onUnit(unit, room.subarray(0, mixed.bytes));
          });
          atWork[slot] -= resultsOf(unit);
          done += resultsOf(unit);
          tell();
        }),
      );
    }
  };
  try {
    await Promise.all(Array.from({ length: pool.count }, (_, slot) => doBlocks(slot)));
  } finally {
    clearInterval(timer);
  }
}

/** Shared memory that threads write into, handed out to one user at a time: nothing is copied, and nothing piles up. */
class Rooms {
  readonly #free: Uint8Array[];
  readonly #waiting: ((room: Uint8Array) => void)[] = [];

  constructor(count: number, bytes: number) {
    this.#free = Array.from({ length: count }, () => new Uint8Array(new SharedArrayBuffer(bytes)));
  }

  async with(use: (room: Uint8Array) => Promise<void>): Promise<void> {
    const room =
      this.#free.pop() ?? (await new Promise<Uint8Array>((resolve) => this.#waiting.push(resolve)));
    try {
      await use(room);
    } finally {
      const next = this.#waiting.shift();
      if (next) next(room);
      else this.#free.push(room);
    }
  }
}

/** One job in the pool; in between, the calling thread hears of Ctrl-C. */
export async function run(pool: SweepPool, job: SweepJob, signal?: AbortSignal): Promise<SweepOutcome> {
  await new Promise((resolve) => setImmediate(resolve));
  signal?.throwIfAborted();
  return pool.run(job);
}

function unitsByBlock(layout: SweepLayout, units: readonly number[]): number[][] {
  const blocks = new Map<number, number[]>();
  for (const unit of units) {
    const { blockNumber } = layout.units[unit];
    const own = blocks.get(blockNumber) ?? [];
    own.push(unit);
    blocks.set(blockNumber, own);
  }
  return [...blocks.values()];
}

import { Stopwatch, type Timings } from "../node/threads/stopwatch.js";
import { fixed } from "../text/numbers.js";

/**
 * Keeps what time goes into, from the start of the process to its end, and prints it to standard error then. What the
 * system needs to take the process away is behind that.
 */
export function keepTimings(): Timings {
  const calling = new Stopwatch("start", 0);
  const beside = new Map<string, number>();
  process.once("exit", () => {
    calling.at("");
    process.stderr.write(`${timingsText(calling.stages, beside)}\n`);
  });
  return {
    at: (stage) => calling.at(stage),
    beside: (what, ms) => beside.set(what, (beside.get(what) ?? 0) + ms),
  };
}

/** Both in milliseconds; the stages of the calling thread follow each other, so that their sum is the whole. */
export function timingsText(
  calling: ReadonlyMap<string, number>,
  beside: ReadonlyMap<string, number>,
): string {
  const stages = [...calling].filter(([stage]) => stage !== "");
  const whole = stages.reduce((sum, [, ms]) => sum + ms, 0);
  let from = 0;
  const rows = stages.map(([stage, ms]) => {
    const row = line(stage, seconds(from), seconds(ms));
    from += ms;
    return row;
  });
  const others = [...beside].map(([what, ms]) => line(what, "beside", seconds(ms)));
  return [line("stage", "from s", "took s"), ...rows, line("whole", "", seconds(whole)), ...others].join(
    "\n",
  );
}

const seconds = (ms: number): string => fixed(ms / 1000, 3);
const line = (stage: string, from: string, took: string): string =>
  `${stage.padEnd(20)}${from.padStart(8)}${took.padStart(9)}`;

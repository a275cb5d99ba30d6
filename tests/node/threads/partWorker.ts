import { meet } from "../../../src/node/threads/meeting.js";
import { serve } from "../../../src/node/threads/thread.js";
import { UserError } from "../../../src/text/userError.js";

/** Run as a thread: parts of one work that end in every way a part can. */
export interface PartOfTest {
  readonly does: "meets" | "fails" | "breaks" | "exits" | "eats memory";
  readonly meeting: Int32Array;
  readonly parties: number;
}

serve(async ({ does, meeting, parties }: PartOfTest) => {
  if (does === "fails") throw new UserError({ file: "a.wav", line: 3, message: "is full." }, 1);
  if (does === "breaks") throw new RangeError("a bug");
  if (does === "exits") process.exit(7);
  if (does === "eats memory") for (const held: number[][] = []; ; ) held.push(Array(1e5).fill(1.5));
  return meet(meeting, 0, 1, parties);
});

import { stopIfTold } from "./thread.js";

/**
 * A rendezvous of threads that each know how many frames they need: all wait until the last has come, and all leave
 * with the largest figure. Made once, shared; each round of it is used once. A part that fails or dies never comes: the
 * pool is then closed, which ends those who wait.
 */
export const newMeeting = (rounds: number): Int32Array => new Int32Array(new SharedArrayBuffer(8 * rounds));

/** How often those who wait look whether they are to end. */
const lookMs = 50;

/** Says `needed` in a round and waits for the others. @returns the largest of all */
export function meet(meeting: Int32Array, round: number, needed: number, parties: number): number {
  const arrivals = 2 * round;
  const largest = arrivals + 1;
  for (let most = Atomics.load(meeting, largest); needed > most; most = Atomics.load(meeting, largest)) {
    Atomics.compareExchange(meeting, largest, most, needed);
  }
  const arrived = Atomics.add(meeting, arrivals, 1) + 1;
  if (arrived === parties) Atomics.notify(meeting, arrivals);
  for (let now = arrived; now < parties; now = Atomics.load(meeting, arrivals)) {
    Atomics.wait(meeting, arrivals, now, lookMs);
    stopIfTold();
  }
  return Atomics.load(meeting, largest);
}

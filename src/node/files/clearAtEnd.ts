/**
 * What lies on the disk for a while only, and must go however the program ends.
 *
 * Source: signals that nobody handles end a program at once, without a word to it: POSIX.1-2017, 2.4.3. So whoever
 * handles them does it while there is something to clear, and no longer: a program that computes hears of nothing.
 */
const clearings = new Set<() => void>();
const watchers = new Set<(isAny: boolean) => void>();

/** Has `clear` called when the program ends. @returns to be called once nothing is left to clear */
export function clearAtEnd(clear: () => void): () => void {
  clearings.add(clear);
  if (clearings.size === 1) {
    process.on("exit", clearAll);
    for (const tell of watchers) tell(true);
  }
  return () => {
    if (!clearings.delete(clear) || clearings.size > 0) return;
    process.off("exit", clearAll);
    for (const tell of watchers) tell(false);
  };
}

/** Tells, now and whenever it changes, whether there is anything to clear. @returns ends it */
export function watchClearings(tell: (isAny: boolean) => void): () => void {
  watchers.add(tell);
  tell(clearings.size > 0);
  return () => void watchers.delete(tell);
}

function clearAll(): void {
  for (const clear of clearings) clear();
}

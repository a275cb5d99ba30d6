/**
 * Work that is done in a task of its own, once for however many calls there were till then: what is drawn must not hold up
 * what is heard, for a browser may send sound on its way only when the task that asked for it has ended.
 */
export function inOwnTask(work: () => void): () => void {
  let isWaiting = false;
  return () => {
    if (isWaiting) return;
    isWaiting = true;
    setTimeout(() => {
      isWaiting = false;
      work();
    }, 0);
  };
}

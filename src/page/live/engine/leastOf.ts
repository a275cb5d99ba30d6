/** Listeners for several workers that tell how far the slowest of them is. */
export function leastOf(workers: number, tell: (done: number) => void): readonly ((done: number) => void)[] {
  const all = Array<number>(workers).fill(0);
  return all.map((_, n) => (done: number) => {
    all[n] = done;
    tell(Math.min(...all));
  });
}

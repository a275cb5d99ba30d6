/** Longer than this the calling thread does not compute without hearing of anything else. */
const mostMs = 50;

/**
 * For a long computation in the calling thread: to be called between its small pieces, and awaited where it gives
 * something. Most calls give nothing and cost next to nothing.
 * @throws `signal.reason`, in what is awaited, when told to stop
 */
export function pauses(signal?: AbortSignal): () => Promise<void> | null {
  let since = performance.now();
  return () => {
    if (performance.now() - since < mostMs) return null;
    return new Promise((resolve, reject) =>
      setImmediate(() => {
        since = performance.now();
        if (signal?.aborted) reject(signal.reason);
        else resolve();
      }),
    );
  };
}

export const outOfMemoryText =
  "splitsum: there is not enough memory. Close other programs, lift limits (ulimit -v), or take a shorter take or fewer settings.\n";

/**
 * Whether an error is the engine's word for memory that it did not get: a thread's heap, an array, a WebAssembly module.
 * Source: error codes of Node; messages of V8, which has no codes for them.
 */
export function isOutOfMemory(error: unknown): boolean {
  if (!(error instanceof Error)) return false;
  const code = "code" in error ? error.code : null;
  if (code === "ERR_WORKER_OUT_OF_MEMORY" || code === "ERR_WORKER_INIT_FAILED") return true;
  return /^(Aborted\(RangeError: )?(WebAssembly\.\w+\(\): Out of memory|Array buffer allocation failed)/.test(
    error.message,
  );
}

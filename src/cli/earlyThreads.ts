import { openThreads, type Threads } from "../node/compare/threads.js";

/** Threads begin while `work` reads rig and take; they end with it, however that comes. */
export async function withEarlyThreads<T>(work: (pool: Threads) => Promise<T>): Promise<T> {
  const pool = openThreads();
  try {
    return await work(pool);
  } finally {
    await pool.close();
  }
}

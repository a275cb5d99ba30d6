import { readFileSync } from "node:fs";
import { UserError } from "../../text/userError.js";

/**
 * Addresses that a thread takes, not memory: the JavaScript engine keeps 10 GiB free around the memory of a WebAssembly
 * module so that it need not check each access. There is one for the FFT, one for the loops in SIMD, and one to spare for
 * rigs that fill it; the rest is heap and code. Measured on Node 20, x64: 12.6 GB each with the FFT alone, and 71 GB for a
 * comparison of a demo rig with two threads, all told.
 */
const bytesPerThread = 35e9;

/**
 * Without addresses the engine ends the whole program, or a library never answers. So it is looked at beforehand.
 * Source: RLIMIT_AS, POSIX.1-2017, getrlimit(); proc(5) of Linux. Where a system does not tell, there is no limit.
 * @throws UserError, with status 1, when the system lets the program have too few addresses for more threads
 */
export function refuseFewAddresses(threads: number): void {
  const limit = Number(/^Max address space +(\d+)/m.exec(textOf("/proc/self/limits"))?.[1] ?? Number.NaN);
  const used = 1024 * Number(/^VmSize:\s+(\d+)/m.exec(textOf("/proc/self/status"))?.[1]);
  const needed = used + threads * bytesPerThread;
  if (!(limit < needed)) return;
  const gigabytes = (bytes: number) => `${(bytes / 1e9).toFixed(1)} GB`;
  throw new UserError(
    `the system lets the program have ${gigabytes(limit)} of addresses, and ${threads} threads need ${gigabytes(needed)} (most of it stays empty). Lift the limit, as by "ulimit -v unlimited"; nothing was written.`,
    1,
  );
}

function textOf(file: string): string {
  try {
    return readFileSync(file, "utf8");
  } catch {
    return "";
  }
}

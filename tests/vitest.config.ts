import { availableParallelism } from "node:os";
import { defineConfig } from "vitest/config";
import { hangMs, stepHangMs } from "./limits.js";

export default defineConfig({
  test: {
    root: new URL("..", import.meta.url).pathname,
    include: ["tests/**/*.test.ts"],
    // What a file imports is loaded once in each process, not once in each file.
    isolate: false,
    // One more than there are processors: many a test waits for a browser or a command.
    maxWorkers: availableParallelism() + 1,
    testTimeout: hangMs,
    hookTimeout: hangMs,
    teardownTimeout: stepHangMs,
    expect: { poll: { timeout: stepHangMs } },
  },
});

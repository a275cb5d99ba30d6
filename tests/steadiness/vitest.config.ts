import { defineConfig } from "vitest/config";

/** Long runs with random input, by hand: `npm run steady`. Their short forms are among the tests. */
export default defineConfig({
  test: {
    root: new URL("../..", import.meta.url).pathname,
    include: ["tests/steadiness/**/*.steady.ts"],
    testTimeout: 3_600_000,
    fileParallelism: false,
    disableConsoleIntercept: true,
  },
});

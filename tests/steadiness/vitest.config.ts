import { defineConfig } from "vitest/config";

const withLongForms = [
  "tests/rig/pedals/battery.test.ts",
  "tests/work/{capture,compare,render,sweep}/*.test.ts",
];

/** Long runs with random input, by hand: `npm run steady`. Their short forms are among the tests. */
export default defineConfig({
  test: {
    root: new URL("../..", import.meta.url).pathname,
    // And what `npm test` runs the first cases of, with all of them.
    include: ["tests/steadiness/**/*.steady.ts", ...withLongForms],
    env: { SPLITSUM_LONG: "1" },
    testTimeout: 3_600_000,
    fileParallelism: false,
    disableConsoleIntercept: true,
  },
});

import { build } from "esbuild";
import { expect, test } from "vitest";

const settings: string = "../../src/build/pageBundle.mjs";
const { pageBundle } = await import(/* @vite-ignore */ settings);

/** A script that runs in the page, bundled as the build does it. */
const bundled = (contents: string, sourcefile = "src/page/made-up.ts") =>
  build({
    ...pageBundle,
    stdin: { contents, sourcefile, resolveDir: process.cwd(), loader: "ts" },
    write: false,
    logLevel: "silent",
  });

/** A browser has none of Node's modules (WHATWG HTML, "resolve a module specifier": a bare word resolves to nothing). */
test.each(["fs", "node:fs", "path", "node:worker_threads", "fs/promises", "node:test"])(
  "a bundle of the page that imports %s fails, and says where",
  async (name) => {
    await expect(bundled(`import * as it from "${name}"; console.log(it);`)).rejects.toThrow(
      new RegExp(`"${name}" is a module of Node.*made-up\\.ts`),
    );
  },
);

test("a library that reads files fails too", async () => {
  await expect(bundled('export { Command } from "commander";')).rejects.toThrow("is a module of Node");
});

test("the FFT may name Node's modules, which it does not reach in a page", async () => {
  await expect(bundled('export * from "@echogarden/pffft-wasm/simd";')).resolves.toBeTruthy();
});

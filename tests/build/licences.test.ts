import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";

const root = fileURLToPath(new URL("../../", import.meta.url));
const licencesFile: string = "../../src/build/licences.mjs";
const { licencesOf } = await import(/* @vite-ignore */ licencesFile);
const built = readFileSync(new URL("../../dist/page/licences.txt", import.meta.url), "utf8");

/** What the licences themselves ask for: their text goes with every copy (MIT, ISC, BSD; opensource.org). */
test("the page's libraries are named with their licences in full, and none is under a GPL", () => {
  for (const name of [
    "@echogarden/pffft-wasm",
    "@observablehq/plot",
    "d3",
    "fft.js",
    "wav-decoder",
    "yaml",
  ]) {
    const { version } = createRequire(import.meta.url)(`../../node_modules/${name}/package.json`);
    expect(built).toContain(`${name} ${version} (`);
  }
  expect(built).toContain("University Corporation for Atmospheric");
  expect(built).not.toMatch(/GNU|GPL/);
});

test("a library under a GPL is refused where it would be bundled", () => {
  expect(() => licencesOf(["node_modules/codec-parser/index.js"], root)).toThrow(
    "codec-parser is under LGPL-3.0-or-later: it may not be bundled",
  );
});

/** In the package as in the page: nothing of ours names the libraries that read AAC, AC-3 and the like. */
test("no script of ours holds code of the decoders under a GPL", () => {
  for (const script of ["app", "engine"]) {
    const text = readFileSync(new URL(`../../dist/page/${script}.bundle.js`, import.meta.url), "utf8");
    expect(text).not.toMatch(/codec-parser|decode-aac|decode-ac3|decode-dts|GNU General Public/i);
  }
});

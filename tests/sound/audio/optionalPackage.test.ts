import { execFileSync } from "node:child_process";
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { buildSync } from "esbuild";
import { expect, test } from "vitest";
import { stepHangMs } from "../../limits.js";
import { temporaryFolder } from "../../temporaryFolder.js";
import { integers, wavFile } from "./wavBytes.js";

test("without the optional package WAV is read, and other kinds say what is missing and what to do", () => {
  const folder = temporaryFolder();
  const program = join(folder, "program.mjs");
  buildSync({
    entryPoints: [fileURLToPath(new URL("readingProgram.ts", import.meta.url))],
    outfile: program,
    bundle: true,
    platform: "node",
    format: "esm",
    external: ["@audio/decode"],
  });
  writeFileSync(join(folder, "take.wav"), wavFile({ bits: 24, sound: integers([1, 2, 3], 24) }));
  const mp3 = fileURLToPath(new URL("fixtures/tone-997.mp3", import.meta.url));
  const said = execFileSync(process.execPath, [program, join(folder, "take.wav"), mp3], {
    encoding: "utf8",
    timeout: stepHangMs,
  });
  expect(said.split("\n")).toEqual([
    "3 frames",
    `${mp3}: is MP3; reading that needs the optional package @audio/decode, which is not installed. Run npm install @audio/decode, or export the take as WAV.`,
    "",
  ]);
});

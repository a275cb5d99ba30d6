import { spawnSync } from "node:child_process";
import { mkdirSync, readFileSync, symlinkSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { transform } from "esbuild";
import { expect, test } from "vitest";
import { readClip } from "../src/node/audio/readClip.js";
import { writeClip } from "../src/node/audio/writeClip.js";
import { captureTone } from "../src/node/capture/captureJobs.js";
import { stepHangMs } from "./limits.js";
import { temporaryFolder } from "./temporaryFolder.js";

const root = fileURLToPath(new URL("..", import.meta.url));
const textOf = (file: string) => readFileSync(join(root, file), "utf8");

interface Example {
  readonly of: string;
  readonly code: string;
}

/** Functions, classes and tables that the library exports, in its order, with the files that hold them. */
function exportedValues(): { name: string; file: string }[] {
  return [...textOf("src/index.ts").matchAll(/^export \{([^}]*)\} from "(.+)\.js";/gm)].flatMap(
    ([, names, path]) =>
      names
        .split(",")
        .map((name) => name.trim())
        .filter((name) => name !== "" && !name.startsWith("type "))
        .map((name) => ({ name, file: join("src", `${path}.ts`) })),
  );
}

/** The fenced examples in the docstring that stands right before the declaration. */
function examplesOf({ name, file }: { name: string; file: string }): Example[] {
  const declared = new RegExp(
    `/\\*\\*((?:(?!\\*/)[\\s\\S])*)\\*/\\s*export (?:async )?(?:function|class|const) ${name}\\b`,
  );
  const docstring = (declared.exec(textOf(file))?.[1] ?? "").replace(/^ \* ?/gm, "");
  const [, ...examples] = docstring.split("@example");
  return examples.flatMap((text) => fenced(text).map((code) => ({ of: name, code })));
}

const fenced = (text: string): string[] =>
  [...text.matchAll(/```ts\n([\s\S]*?)```/g)].map(([, code]) => code);

const libraryExamples = exportedValues().flatMap(examplesOf);

test("every function of the library has an example", () => {
  const shown = new Set(libraryExamples.map(({ of }) => of));
  const without = exportedValues().filter(({ name }) => !shown.has(name));
  expect(without).toEqual([]);
  expect(shown.size).toBeGreaterThan(20);
});

test("every example runs, and the README's", async () => {
  const [, section] = textOf("README.md").split("## As a library");
  const readme = fenced(section).map((code) => ({ of: "README", code }));
  expect(readme.length).toBeGreaterThan(0);
  const folder = await newProject();
  const examples = [...libraryExamples, ...readme];
  for (const [n, { code }] of examples.entries()) {
    const script = await transform(code, { loader: "ts" });
    writeFileSync(join(folder, `example-${n}.mjs`), script.code);
  }
  writeFileSync(join(folder, "all.mjs"), runAll(examples));
  const { stdout, stderr } = spawnSync(process.execPath, ["all.mjs"], {
    cwd: folder,
    encoding: "utf8",
    maxBuffer: 2 ** 28,
    timeout: stepHangMs,
  });
  expect(readFileSync(join(folder, "failed.json"), "utf8"), stdout + stderr).toBe("[]");
});

/** A script that runs all in one process, in order, and writes down those that fail. */
const runAll = (examples: readonly Example[]): string => `
import { writeFileSync } from "node:fs";
const failed = [];
for (const [n, name] of ${JSON.stringify(examples.map(({ of }) => of))}.entries()) {
  await import(\`./example-\${n}.mjs\`).catch((error) => failed.push([name, String(error.stack)]));
}
writeFileSync("failed.json", JSON.stringify(failed, null, 2));
`;

/** An empty project with the built package in it, the demo rig, and short recordings. */
async function newProject(): Promise<string> {
  const folder = temporaryFolder();
  const at = (path: string): string => {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    return join(folder, path);
  };
  symlinkSync(root, at("node_modules/splitsum"), "dir");
  const rig = textOf("fixtures/rigs/ferry-road.yaml");
  writeFileSync(at("fixtures/rigs/ferry-road.yaml"), rig);
  writeFileSync(at("rig.yaml"), rig);
  const { rateHz, channels } = await readClip(join(root, "fixtures/takes/ferry-road.wav"), {
    allowTruncated: false,
  });
  const take = channels[0].slice(0, rateHz);
  const late = new Float32Array(2 * rateHz);
  late.set(take, 480);
  const sounds = {
    "take.wav": [take],
    "another.wav": [late.slice(0, rateHz)],
    "stereo.wav": [take, late.slice(0, rateHz)],
    "looped.wav": [late],
  };
  for (const [file, sound] of Object.entries({ ...sounds, "fixtures/takes/ferry-road.wav": [take] })) {
    writeClip(at(file), { rateHz, channels: sound }, { bits: 24, force: false });
  }
  // The unit is a plain cable: what comes back is the tone.
  captureTone(at("recorded.wav"), { lengthSeconds: 2, gapSeconds: 1 }, false);
  return folder;
}

import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { run } from "./run.js";

const commands = [
  "init",
  "bench",
  "options",
  "compare",
  "sweep",
  "merge",
  "measure",
  "switches",
  "levels",
  "prove",
  "schema",
];

test.each([[], ["--help"], ["help"]])("help is the answer to %j", async (...words) => {
  const { status, out, err } = await run(words);
  expect({ status, err }).toEqual({ status: 0, err: "" });
  for (const command of commands) expect(out).toContain(`\n  ${command} `);
  expect(out).toContain("Example");
});

test.each(commands)("%s --help ends in an example that names the command", async (command) => {
  const { status, out, err } = await run([command, "--help"]);
  expect({ status, err }).toEqual({ status: 0, err: "" });
  expect(out).toMatch(new RegExp(`Usage: splitsum ${command}`));
  expect(out.split("Example:")[1]).toContain(`splitsum ${command}`);
  for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
});

test("the version is that of the package, in one line", async () => {
  const found: unknown = JSON.parse(readFileSync(new URL("../../package.json", import.meta.url), "utf8"));
  const { status, out } = await run(["--version"]);
  expect({ status, out }).toEqual({ status: 0, out: `${(found as { version: string }).version}\n` });
});

/** Wrong words: status 2, nothing on standard output, what is right on standard error. */
test.each([
  [["optoins"], "unknown command 'optoins'\n(Did you mean options?)"],
  [["optoins", "--help"], "unknown command 'optoins'\n(Did you mean options?)"],
  [["-h", "--no-color", "optoins"], "unknown command 'optoins'"],
  [["capture", "aling", "--help"], "unknown command 'aling'\n(Did you mean align?)"],
  [["compare"], "missing required argument 'rig'"],
  [["measure"], "missing required argument 'files'"],
  [["compare", "r.yaml", "--routngs", "a"], "unknown option '--routngs'\n(Did you mean --routings?)"],
  [["compare", "r.yaml", "--bits", "12"], "Allowed choices are 24, 16, 32."],
  [["compare", "r.yaml", "--tail", "2s"], "Write a number of seconds from 0 to 600."],
  [["compare", "r.yaml", "--routings", "a,,b"], "Write words with commas between them"],
  [["measure", "a.wav", "--json", "--csv"], "option '--csv' cannot be used with option '--json'"],
  [["options", "a", "b"], "too many arguments"],
])("%j", async (words, says) => {
  const { status, out, err } = await run(words);
  expect({ status, out }).toEqual({ status: 2, out: "" });
  expect(err).toContain(says);
  expect(err).toMatch(/^splitsum: /);
});

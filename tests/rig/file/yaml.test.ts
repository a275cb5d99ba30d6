import { expect, test } from "vitest";
import { readYaml } from "../../../src/rig/file/yaml.js";
import { UserError } from "../../../src/text/userError.js";

function faults(text: string): readonly string[] {
  try {
    readYaml(text, "a.yaml");
    return [];
  } catch (error) {
    if (!(error instanceof UserError)) throw error;
    return error.message.split("\n");
  }
}

/** YAML 1.2.2, section 10.3.2 (core schema): what plain words mean. `yes` and dates are text, 0o is octal. */
test.each([
  ["yes", "yes"],
  ["true", true],
  ["0o17", 15],
  ["0x1f", 31],
  ["1e3", 1000],
  [".5", 0.5],
  ["~", null],
  ["2001-12-14", "2001-12-14"],
  ["12:30:45", "12:30:45"],
])("%s", (text, value) => {
  expect(readYaml(`key: ${text}`, "a.yaml").value).toEqual({ key: value });
});

test("places count from 1, of values, keys, list items and what is missing", () => {
  const yaml = readYaml('\ufeff# remark\nrig:\n  - name: "A"\n    mix: 0.5\n  - {name: B}\n', "a.yaml");
  expect(yaml.placeOf(["rig", 0, "name"])).toEqual({ line: 3, column: 11 });
  expect(yaml.placeOfKey(["rig", 0, "mix"])).toEqual({ line: 4, column: 5 });
  expect(yaml.placeOf(["rig", 1])).toEqual({ line: 5, column: 5 });
  expect(yaml.placeOf(["rig", 1, "mix", "deeper"])).toEqual({ line: 5, column: 5 });
  expect(yaml.placeOf([])).toEqual({ line: 2, column: 1 });
});

test.each([
  [
    "tab",
    "a:\n\tb: 1\n",
    "a.yaml:2:1: a tab at the start of the line; YAML is indented by spaces. Put spaces in its place, so that the line begins where its neighbours do.",
  ],
  ["key twice", "a: 1\nb: 2\na: 3\n", 'a.yaml:3:1: "a" stands twice in this map. Keep one of them.'],
  [
    "key twice, deep",
    "x: [{ a: 1, a: 2 }]\n",
    'a.yaml:1:13: "a" stands twice in this map. Keep one of them.',
  ],
  [
    "tag",
    "a: !price 3\n",
    "a.yaml:1:4: a tag (!...) that is not known; a rig is plain data. Take the tag out.",
  ],
  [
    "alias",
    "a: &x 1\nb: *x\n",
    "a.yaml:2:4: *x is an alias; a rig is plain data. Write the values out in its place.",
  ],
  [
    "alias without an anchor",
    "b: *x\n",
    "a.yaml:1:4: *x is an alias; a rig is plain data. Write the values out in its place.",
  ],
  [
    "second document",
    "a: 1\n---\nb: 2\n",
    "a.yaml:2:1: a second document begins here (---); a rig file holds one. Take the second one out.",
  ],
  ["open quote", "a: 'b\n", "a.yaml:2:1: Missing closing 'quote. Mend the YAML there."],
  [
    "key that is a list",
    "? [a]\n: 1\n",
    "a.yaml:1:3: a key that is a list or a map; the keys of a rig are words. Write a word.",
  ],
])("%s", (_what, text, line) => {
  expect(faults(text)).toEqual([line]);
});

test("aliases that would unfold to billions are refused before they do", () => {
  const levels = Array.from({ length: 30 }, (_, n) => `a${n + 1}: &a${n + 1} [*a${n}, *a${n}]`);
  expect(faults(`a0: &a0 x\n${levels.join("\n")}\n`)[0]).toMatch(/^a\.yaml:2:10: \*a0 is an alias/);
  expect(faults("a: &a [*a]\n")).toHaveLength(1);
});

/** Each of these ended the process or took minutes in the parser alone. */
test.each([
  ["brackets", `a: ${"[".repeat(100_000)}`],
  ["braces", `a: ${"{b: ".repeat(100_000)}`],
  ["closed brackets", `a: ${"[".repeat(50_000)}${"]".repeat(50_000)}`],
  ["dashes", `a:\n${"- ".repeat(100_000)}x`],
  ["question marks", `${"? ".repeat(1000)}x`],
])("%s nested without end are refused", (_what, text) => {
  const lines = faults(text);
  expect(lines).toHaveLength(1);
  expect(lines[0]).toMatch(/^a\.yaml:[12]: is nested too deep to read/);
});

/** YAML 1.1 has numbers to base 60 (yaml.org/type/int, 2005): 5:20 is 320. */
test("a version is refused, so that numbers mean one thing", () => {
  const says = "states a version of YAML; a rig file is read as 1.2. Take the line out.";
  expect(faults("%YAML 1.1\n---\na: 5:20\n")).toEqual([`a.yaml:1:1: ${says}`]);
  expect(faults("# mine\n%YAML 1.2\n---\na: 1\n")).toEqual([`a.yaml:2:1: ${says}`]);
  expect(faults("---\na: 1\n")).toEqual([]);
});

test("many keys are read, and a double one among them is found", () => {
  const keys = Array.from({ length: 1000 }, (_, n) => `key${n}: 1`);
  expect(faults(keys.join("\n"))).toEqual([]);
  expect(faults([...keys.slice(1), "key7: 2"].join("\n"))).toEqual([
    'a.yaml:1000:1: "key7" stands twice in this map. Keep one of them.',
  ]);
  expect(faults([...keys, "key1000: 2"].join("\n"))[0]).toMatch(/^a\.yaml:1:1: is a map of 1001 entries; /);
  expect(faults(`a: [${keys.map(() => 1).join(", ")}, 1]`)[0]).toMatch(/^a\.yaml:1:4: is a list of 1001 /);
});

test("a fault that stands in every line is told some times", () => {
  expect(faults("a: *x\n".repeat(100_000)).length).toBeLessThan(30);
  expect(faults("?\n".repeat(100_000)).length).toBeLessThan(30);
});

test("indentation far too deep gives a line and no crash", () => {
  const steps = Array.from({ length: 1300 }, (_, n) => `${" ".repeat(n)}a:`);
  expect(() => faults(steps.join("\n"))).not.toThrow();
});

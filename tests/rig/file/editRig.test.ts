import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { editRig } from "../../../src/rig/file/editRig.js";
import { checkRig, parseRig } from "../../../src/rig/file/parseRig.js";
import { pedalNames, pedalTwice, renamedPedal, withoutPedal } from "../../../src/rig/file/pedalEdits.js";
import { turnedEdits } from "../../../src/rig/file/turnedEdits.js";

const text = readFileSync("fixtures/rigs/ferry-road.yaml", "utf8");
const comments = (of: string) => of.match(/#.*/g) ?? [];
const data = (of: string) => checkRig(of, "rig.yaml").data;

it("changes a value and keeps all comments and all else", () => {
  const edited = editRig(text, [{ set: ["pedals", 2, "settings", "mix"], to: 0.5 }]);
  expect(comments(edited)).toEqual(comments(text));
  const [before, after] = [parseRig(text, "a"), parseRig(edited, "a")];
  expect(after.pedals[2].settings.mix).toBe(0.5);
  expect({ ...after, pedals: before.pedals }).toEqual(before);
});

it("keeps the comment behind a value that changes", () => {
  const edited = editRig(text, [{ set: ["pedals", 2, "inputOhms"], to: 68000 }]);
  expect(edited).toMatch(/inputOhms: 68000 +# its old input transformer/);
});

it("puts values under keys that were not there, and takes them out again", () => {
  const begun =
    "name: A # mine\npedals:\n  - name: Swing\n    model: chorus\n    jacks: stereo\n    settings:\n";
  const put = editRig(begun, [
    { set: ["pedals", 0, "settings", "mix"], to: 0.3 },
    { set: ["mixer", "returnDb"], to: -4 },
    { set: ["asks", "order"], to: ["Swing"] },
  ]);
  expect(data(put)).toEqual({
    name: "A",
    pedals: [{ name: "Swing", model: "chorus", jacks: "stereo", settings: { mix: 0.3 } }],
    mixer: { returnDb: -4 },
    asks: { order: ["Swing"] },
  });
  const out = editRig(put, [
    { set: ["mixer", "returnDb"], to: undefined },
    { set: ["asks"], to: undefined },
  ]);
  expect(data(out)).toEqual({
    name: "A",
    pedals: [{ name: "Swing", model: "chorus", jacks: "stereo", settings: { mix: 0.3 } }],
  });
  expect(out).toContain("# mine");
});

it("begins an empty file, and a list that is written on one line", () => {
  const first = editRig("", [
    { set: ["name"], to: "New" },
    { into: ["pedals"], at: 0, add: { name: "A", model: "boost", jacks: "mono" } },
  ]);
  expect(data(first)).toEqual({ name: "New", pedals: [{ name: "A", model: "boost", jacks: "mono" }] });
  const second = editRig("name: New\npedals: [] # none yet\n", [
    { into: ["pedals"], at: 0, add: { name: "A", model: "boost", jacks: "mono" } },
  ]);
  expect(parseRig(second, "a").pedals).toHaveLength(1);
});

it("gives a text that is no YAML back as it was", () => {
  const broken = "name: [\n";
  expect(editRig(broken, [{ set: ["name"], to: "x" }])).toBe(broken);
});

it("moves a pedal with its comments", () => {
  const moved = editRig(text, [{ move: ["pedals"], from: 2, to: 0 }]);
  expect(pedalNames(data(moved))).toEqual(["Boiler tank", "Undertow", "Ledger"]);
  expect([...comments(moved)].sort()).toEqual([...comments(text)].sort());
});

it("gives a pedal another name wherever the rig speaks of it", () => {
  const renamed = editRig(text, renamedPedal(data(text), 2, "Tank: 2"));
  const rig = parseRig(renamed, "a");
  expect(rig.pedals[2].name).toBe("Tank: 2");
  expect(rig.asks.order).toEqual(["Tank: 2"]);
  expect(rig.asks.sameUnit).toEqual(["Tank: 2"]);
  expect(rig.secondUnit).toEqual({ "Tank: 2": { decaySeconds: 2.0, mix: 0.37 } });
  expect(renamed).not.toContain("Boiler tank");
  const back = editRig(renamed, renamedPedal(data(renamed), 2, "Boiler tank"));
  expect(parseRig(back, "a")).toEqual(parseRig(text, "a"));
});

it("leaves the rest of the rig alone while two pedals have one name, and takes it along afterwards", () => {
  const twice = editRig(text, renamedPedal(data(text), 2, "ledger"));
  expect(checkRig(twice, "a").faults.map(({ path }) => path)).toContainEqual(["pedals", 2, "name"]);
  const mended = editRig(twice, renamedPedal(data(twice), 2, "Tank", "Boiler tank"));
  expect(parseRig(mended, "a").secondUnit).toEqual({ Tank: { decaySeconds: 2.0, mix: 0.37 } });
});

it("renames in drawings and sweeps, and leaves names alone that only begin alike", () => {
  const rig = {
    pedals: [{ name: "A" }, { name: "A.B" }],
    places: { A: "first", "A.B": "beside" },
    wirings: { own: { boxes: { a: { box: "pedal", pedal: "A" }, b: { box: "pedal", pedal: "A.B" } } } },
    sweep: {
      vary: [
        { "A.mix": "0..1/3" },
        { "secondUnit.A.mix": "0..1/3" },
        { "Ab.mix": "0..1/3" },
        { "A.B.mix": "0..1/3" },
      ],
    },
  };
  const written = editRig(
    "",
    Object.entries(rig).map(([key, to]) => ({ set: [key], to })),
  );
  expect(data(editRig(written, renamedPedal(data(written), 0, "Z")))).toEqual({
    pedals: [{ name: "Z" }, { name: "A.B" }],
    places: { Z: "first", "A.B": "beside" },
    wirings: { own: { boxes: { a: { box: "pedal", pedal: "Z" }, b: { box: "pedal", pedal: "A.B" } } } },
    sweep: {
      vary: [
        { "Z.mix": "0..1/3" },
        { "secondUnit.Z.mix": "0..1/3" },
        { "Ab.mix": "0..1/3" },
        { "A.B.mix": "0..1/3" },
      ],
    },
  });
});

it("takes a pedal out with what was asked of it", () => {
  const without = editRig(text, withoutPedal(data(text), 2));
  const rig = parseRig(without, "a");
  expect(rig.pedals.map(({ name }) => name)).toEqual(["Undertow", "Ledger"]);
  expect(rig.asks.order).toEqual([]);
  expect(rig.secondUnit).toEqual({});
  expect(rig.asks.spendAtMost).toBe(300);
});

it("doubles a pedal under a name that is free", () => {
  const twice = editRig(text, pedalTwice(data(text), 2));
  const rig = parseRig(twice, "a");
  expect(rig.pedals.map(({ name }) => name)).toEqual(["Undertow", "Ledger", "Boiler tank", "Boiler tank 2"]);
  expect({ ...rig.pedals[3], name: "Boiler tank" }).toEqual(rig.pedals[2]);
  const thrice = parseRig(editRig(twice, pedalTwice(data(twice), 3)), "a");
  expect(thrice.pedals.at(-1)?.name).toBe("Boiler tank 3");
});

it("writes turned knobs where they stand", () => {
  const before = parseRig(text, "a");
  const after = {
    ...before,
    mixer: { ...before.mixer, returnDb: -3.123456789 },
    pedals: before.pedals.map((pedal, n) =>
      n === 1 ? { ...pedal, levelDb: 2, settings: { ...pedal.settings, feedback: 0.5 } } : pedal,
    ),
  };
  const edits = turnedEdits(before, after);
  expect(edits).toEqual([
    { set: ["pedals", 1, "settings", "feedback"], to: 0.5 },
    { set: ["pedals", 1, "levelDb"], to: 2 },
    { set: ["mixer", "returnDb"], to: -3.12346 },
  ]);
  const rig = parseRig(editRig(text, edits), "a");
  expect(rig).toEqual({ ...after, mixer: { ...after.mixer, returnDb: -3.12346 } });
  expect(turnedEdits(rig, before)).toContainEqual({ set: ["mixer", "returnDb"], to: undefined });
});

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { LiveDesk } from "../../../../src/page/live/desk/liveDesk.js";
import type { RigEdit } from "../../../../src/rig/file/editRig.js";
import { checkRig, parseRig } from "../../../../src/rig/file/parseRig.js";
import { pedalTwice, renamedPedal, withoutPedal } from "../../../../src/rig/file/pedalEdits.js";
import { sketchWiring } from "../../../../src/rig/file/sketchWiring.js";
import { toYaml } from "../../../../src/rig/file/toYaml.js";
import {
  cablesIn,
  newWiring,
  withBox,
  withCable,
  withoutBox,
  withoutCable,
  withoutWiring,
} from "../../../../src/rig/file/wiringEdits.js";
import type { Rig } from "../../../../src/rig/model/rig.js";
import { drawHand } from "../../../../src/rig/routings/drawHand.js";
import { anyRig } from "../../../rig/file/anyRig.js";

/** What a hand does at the form, with numbers that are brought into what stands on the desk. */
type Act = (desk: LiveDesk) => void;

const paths: readonly (readonly PropertyKey[])[] = [
  ["name"],
  ["playsInto"],
  ["pedals"],
  ["pedals", 0],
  ["pedals", 0, "name"],
  ["pedals", 0, "jacks"],
  ["pedals", 1, "model"],
  ["pedals", 1, "supply", "volts"],
  ["pedals", 0, "settings"],
  ["pedals", 0, "settings", "mix"],
  ["pedals", 0, "alternatives", 0, "name"],
  ["asks"],
  ["asks", "order"],
  ["asks", "order", 0],
  ["asks", "stereo"],
  ["places", "Pedal 2"],
  ["places"],
  ["boxes", "splitter", "price"],
  ["boxes", "splitter", 0, "outputs"],
  ["onHand", 0, "box"],
  ["instrument", "outputs"],
  ["instrument", "volume", "ohms"],
  ["reference", "dbfs"],
  ["mixer", "returnDb"],
  ["secondUnit", "Pedal 1", "mix"],
  ["take", "into", "ohms"],
];
const anyValue = fc.oneof(
  fc.constantFrom<unknown>(undefined, null, true, false, "", "mono", "stereo", "plate", "beside", "EUR"),
  fc.integer({ min: -100, max: 100 }),
  fc.double({ noNaN: true }),
  fc.string({ maxLength: 12 }),
  fc.constantFrom<unknown>([], {}, ["Pedal 1"], { mix: 0.2 }, [{ box: "splitter" }], { x: { y: [1] } }),
);
const anyName = fc.oneof(fc.constantFrom("Pedal 1", "pedal 2", "Tank", "settings", "*", ""), fc.string());
const anyPlace = fc.nat({ max: 5 });

const edits = (what: string, made: (desk: LiveDesk) => readonly RigEdit[]): Act => {
  return (desk) => desk.edit(what, made(desk));
};
const countOf = ({ data }: LiveDesk): number => {
  const pedals = typeof data === "object" && data !== null && "pedals" in data ? data.pedals : null;
  return Array.isArray(pedals) ? Math.max(1, pedals.length) : 1;
};
const anyAct: fc.Arbitrary<Act> = fc.oneof(
  { weight: 4, arbitrary: fc.tuple(fc.constantFrom(...paths), anyValue).map(setting) },
  { weight: 2, arbitrary: fc.tuple(anyPlace, anyName).map(renaming) },
  { weight: 2, arbitrary: fc.tuple(anyPlace, anyPlace).map(moving) },
  anyPlace.map((n) => edits("twice", (desk) => pedalTwice(desk.data, n % countOf(desk)))),
  anyPlace.map((n) => edits("out", (desk) => withoutPedal(desk.data, n % countOf(desk)))),
  anyPlace.map((n) =>
    edits("add", () => [{ into: ["pedals"], at: n, add: { name: "New", model: "plate" } }]),
  ),
  anyPlace.map((n) => edits("size", () => [{ into: ["boxes", "splitter"], at: n, add: { outputs: 3 } }])),
  { weight: 3, arbitrary: fc.tuple(anyPlace, anyPlace).map(drawing) },
  fc.constantFrom<Act>(
    (desk) => desk.undo(),
    (desk) => desk.redo(),
  ),
  fc.string({ maxLength: 20 }).map((typed): Act => {
    return (desk) => desk.replace("typing", `${desk.text.slice(0, desk.text.length / 2)}${typed}`);
  }),
);

function setting([path, to]: [readonly PropertyKey[], unknown]): Act {
  return edits(`set ${path.join(".")}`, () => [{ set: path, to }]);
}
function renaming([n, name]: [number, string]): Act {
  return edits("rename", (desk) => {
    const index = n % countOf(desk);
    return renamedPedal(desk.data, index, name, desk.wholeNames[index]);
  });
}
function moving([from, to]: [number, number]): Act {
  return edits("move", (desk) => {
    const count = countOf(desk);
    return [{ move: ["pedals"], from: from % count, to: to % count }];
  });
}

const ends = ["take:out", "a:in", "a:out", "b:in 1", "b:out left", "destination:in left"];
/** Boxes and cables of a wiring by hand, drawn as the page draws them. */
function drawing([what, n]: [number, number]): Act {
  const steps: readonly ((data: unknown) => readonly RigEdit[])[] = [
    () => newWiring("own", { label: "Own", boxes: {}, cables: [] }),
    () => withBox("own", "a", { box: "pedal", pedal: "Pedal 1", fullyWet: n > 2, settings: {} }),
    () => withBox("own", "b", { box: "mixer", inputs: [{ gainDb: n, pan: 0 }], outputs: 2 }),
    (data) => withCable(data, "own", ends[n], ends[5 - n]),
    (data) => withoutBox(data, "own", n > 2 ? "a" : "b"),
    (data) => (cablesIn(data, "own").length > 0 ? withoutCable("own", 0) : withoutWiring("own")),
  ];
  return (desk) => {
    desk.edit("drawing", steps[what](desk.data));
    if (desk.draft) drawHand(sketchWiring(desk.data, "own"), desk.draft, "all");
  };
}

/** What holds however a hand goes on: laws of undoing, and of what is handed on to be heard. */
describe("any sequence of edits", () => {
  test("nothing throws, no rig with faults is handed on, all is undone and done again", () => {
    fc.assert(
      fc.property(anyRig(2), fc.array(anyAct, { maxLength: 8 }), (rig, acts) => {
        const handedOn: { rig: Rig | null; text: string }[] = [];
        const desk: LiveDesk = new LiveDesk({ file: "rig.yaml", text: toYaml(rig) }, (checked) => {
          expect(checked.rig === null).toBe(checked.faults.length > 0);
          handedOn.push({ rig: checked.rig, text: desk.text });
        });
        const begun = desk.text;
        for (const act of acts) act(desk);
        const last = desk.text;
        for (const { rig: whole, text } of handedOn)
          if (whole) expect(parseRig(text, "rig.yaml")).toEqual(whole);
        let undone = 0;
        for (; desk.undoes !== null; undone++) desk.undo();
        expect(desk.text).toBe(begun);
        expect(desk.faults).toEqual([]);
        for (; undone > 0; undone--) desk.redo();
        expect(desk.text).toBe(last);
        expect(checkRig(desk.text, "rig.yaml").faults).toEqual(desk.faults);
      }),
      { numRuns: 200 },
    );
  });

  test("a file that is opened as it stands is no news, another is not drawn by what was known of it", () => {
    const text = "name: A\npedals: [{ name: Wash, model: chorus, jacks: mono-to-stereo }]\n";
    const desk = new LiveDesk({ file: "rig.yaml", text }, () => {});
    desk.open("rig.yaml", text);
    desk.edit("fault", [{ set: ["pedals", 0, "name"], to: "" }]);
    expect([desk.isUnheard, desk.isSaved, desk.draft?.name]).toEqual([false, false, "A"]);
    desk.open("other.yaml", "name: B\npedals: []\n");
    expect([desk.isUnheard, desk.isSaved, desk.draft]).toEqual([true, true, null]);
  });
});

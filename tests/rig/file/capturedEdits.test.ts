import { expect, test } from "vitest";
import { capturedEdits } from "../../../src/rig/file/capturedEdits.js";
import { editRig } from "../../../src/rig/file/editRig.js";
import { checkRig } from "../../../src/rig/file/parseRig.js";

const text = `name: A
pedals:
  - { name: Weir, model: tremolo, jacks: mono-to-stereo }
  - name: Tank   # the old one
    model: spring
    jacks: mono
    price: 90
    settings: { decaySeconds: 2, mix: 0.4 }
    latencyMs: 1.5
    invertsPolarity: true
    canGoFullyWet: false
    dryLeakDb: -12
`;
const lines = [
  "model: response",
  "jacks: mono",
  'settings: { file: "tank.wav", levelled: false, lengthSeconds: 1.2 }',
];

function tankOf(more: readonly string[], keepsLatency: boolean) {
  const { data } = checkRig(text, "rig.yaml");
  const edited = editRig(text, capturedEdits(data, "Tank", [...lines, ...more], keepsLatency));
  const { rig, faults } = checkRig(edited, "rig.yaml");
  expect(faults).toEqual([]);
  return { edited, tank: rig!.pedals[1] };
}

test("what the response holds is not said once more beside it; name, price, comment and the mix that is played stay", () => {
  const { edited, tank } = tankOf([], false);
  expect(tank).toMatchObject({
    model: "response",
    price: 90,
    latencyMs: 0,
    invertsPolarity: false,
    canGoFullyWet: true,
    settings: { file: "tank.wav", levelled: false, lengthSeconds: 1.2, mix: 0.4 },
  });
  expect(edited).toContain("# the old one");
  expect(edited).not.toMatch(/decaySeconds|dryLeakDb/);
});

test("what the lines say is written, a mix of theirs too", () => {
  const { data } = checkRig(text, "rig.yaml");
  const said = [
    ...lines.map((line) => line.replace(" }", ", mix: 1 }")),
    "latencyMs: 2.9",
    "invertsPolarity: true",
    "canGoFullyWet: false",
    "dryLeakDb: -20",
  ];
  const { rig } = checkRig(editRig(text, capturedEdits(data, "Tank", said, true)), "rig.yaml");
  expect(rig!.pedals[1]).toMatchObject({
    latencyMs: 2.9,
    invertsPolarity: true,
    canGoFullyWet: false,
    dryLeakDb: -20,
    settings: { mix: 1 },
  });
});

test("a latency that was told stays where none was found and the response does not hold it", () => {
  expect(tankOf([], true).tank.latencyMs).toBe(1.5);
});

test("nothing is changed for a pedal that is not there", () => {
  expect(capturedEdits(checkRig(text, "rig.yaml").data, "Boiler", lines, true)).toEqual([]);
});

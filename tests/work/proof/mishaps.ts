import { checkWiring } from "../../../src/rig/wiring/check.js";
import type { Box, Cable, PedalBox, Wiring } from "../../../src/rig/wiring/wiring.js";
import { randomNumbers } from "../../signals.js";
import type { BuiltBoard } from "./simulatedBoard.js";

/** One thing done wrong to a board, by the test's own hands. */
export interface Slip extends BuiltBoard {
  readonly kind: string;
  /** Words that the fault's `where` must hold. */
  readonly where: readonly string[];
  readonly amount: number | null;
}

const label = ({ boxes }: Wiring, id: string): string => boxes.find((box) => box.id === id)?.label ?? id;
const jack = (wiring: Wiring, end: { box: string; jack: string }): string =>
  `${label(wiring, end.box)}, ${end.jack}`;

/** Every slip of the hand of the kinds that the bench knows. */
export function slipsOf(wiring: Wiring, seed: number): readonly Slip[] {
  const random = randomNumbers(seed);
  const { boxes, cables } = wiring;
  const slips: Slip[] = [];
  const add = (kind: string, where: readonly string[], board: BuiltBoard, amount: number | null = null) =>
    slips.push({ kind, where, amount, ...board });
  const change = (id: string, changes: object): Wiring => ({
    cables,
    boxes: boxes.map((box) => (box.id === id ? { ...box, ...changes } : box)),
  });

  cables.forEach((cable, n) => {
    const where = [`${jack(wiring, cable.from)} > ${jack(wiring, cable.to)}`];
    add("polarity", where, { wiring, mishap: { inverted: [n] } });
    add("cable-missing", where, { wiring: unplugged(wiring, n) });
    cables.slice(n + 1).forEach((other, rest) => {
      const swapped: Wiring = {
        boxes,
        cables: cables.map((each, k) =>
          k === n
            ? { from: cable.from, to: other.to }
            : k === n + 1 + rest
              ? { from: other.from, to: cable.to }
              : each,
        ),
      };
      const isPair = cable.from.box === other.from.box && cable.to.box === other.to.box;
      if (checkWiring(swapped).length > 0 || mayChangePlaces(wiring, cable, other)) return;
      if (isPair)
        add("sides-swapped", [label(wiring, cable.from.box), label(wiring, cable.to.box)], {
          wiring: swapped,
        });
      else add("cable-elsewhere", [jack(wiring, cable.from), jack(wiring, other.from)], { wiring: swapped });
    });
  });
  for (const box of boxes) {
    if (box.kind === "mixer") {
      box.inputs.forEach((input, n) => {
        const where = [`${box.label}, ${input.jack}`];
        const set = (changes: object) => ({
          wiring: change(box.id, {
            inputs: box.inputs.map((each, k) => (k === n ? { ...each, ...changes } : each)),
          }),
        });
        const sign = random() < 0.5 ? -1 : 1;
        const gainDb = input.gainDb + sign * (3 + 9 * random());
        add("level", where, set({ gainDb }), gainDb);
        const pan =
          input.pan > 0
            ? -1 + 1.3 * random()
            : input.pan < 0
              ? 1 - 1.3 * random()
              : sign * (0.4 + 0.6 * random());
        add("pan", where, set({ pan }), pan);
      });
    }
    if (box.kind === "splitter" && box.buffered)
      add("passive-split", [box.label], { wiring, mishap: { passive: [box.id] } });
    if (box.kind !== "pedal") continue;
    const { pedal } = box;
    const latencyMs = pedal.latencyMs + 0.7 + 5 * random();
    add("latency", [box.label], { wiring: change(box.id, { pedal: { ...pedal, latencyMs } }) }, latencyMs);
    add("stays-off", [box.label], { wiring, mishap: { stuckOff: [box.id] } });
    if (box.outputs === 2) add("mono-output", [box.label], { wiring: monoOutput(wiring, box) });
    const { mix } = pedal.settings;
    if (!box.fullyWet && typeof mix === "number" && mix < 1)
      add("no-dry-sound", [box.label], { wiring: change(box.id, { fullyWet: true }) });
    if (box.fullyWet && pedal.canGoFullyWet && typeof mix === "number")
      add("not-fully-wet", [box.label], { wiring: change(box.id, { fullyWet: false }) });
  }
  return slips;
}

/** No slip at all: one splitter's outputs are alike, and so are the inputs of what adds them alike. */
function mayChangePlaces({ boxes }: Wiring, a: Cable, b: Cable): boolean {
  const boxOf = (id: string) => boxes.find((box) => box.id === id);
  if (a.from.box === b.from.box && boxOf(a.from.box)?.kind === "splitter") return true;
  const to = a.to.box === b.to.box ? boxOf(a.to.box) : undefined;
  if (to?.kind !== "mixer") return to?.kind === "summing-box";
  const [one, other] = [a, b].map(({ to: { jack } }) => to.inputs.find((input) => input.jack === jack));
  return one?.gainDb === other?.gainDb && one?.pan === other?.pan;
}

/** A pedal without a plug in its right input hears its left one: by what a jack's switch does. */
function unplugged({ boxes, cables }: Wiring, n: number): Wiring {
  const { to } = cables[n];
  const left = cables.filter((_, k) => k !== n);
  const box = boxes.find(({ id }) => id === to.box);
  if (box?.kind !== "pedal" || to.jack !== "in right") return { boxes, cables: left };
  return {
    boxes: boxes.map((each): Box => (each === box ? { ...box, inputs: 1 } : each)),
    cables: left.map((cable) =>
      cable.to.box === box.id ? { from: cable.from, to: { box: box.id, jack: "in" } } : cable,
    ),
  };
}

function monoOutput({ boxes, cables }: Wiring, box: PedalBox): Wiring {
  return {
    boxes: boxes.map((each): Box => (each === box ? { ...box, outputs: 1 } : each)),
    cables: cables
      .filter(({ from }) => from.box !== box.id || from.jack !== "out right")
      .map((cable) =>
        cable.from.box === box.id ? { from: { box: box.id, jack: "out" }, to: cable.to } : cable,
      ),
  };
}

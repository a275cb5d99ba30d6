import fc from "fast-check";
import { expect, test } from "vitest";
import { type Decider, deciderChoices } from "../../../src/rig/model/rig.js";
import type { Routing } from "../../../src/rig/routings/routing.js";
import { beats, choose, costsOf, tie, undominated } from "../../../src/work/answer/choose.js";
import type { Candidate, Merits } from "../../../src/work/answer/merits.js";

const sum = (known: number, open: readonly string[] = []) => ({ known, open });
const nothing = sum(0);

const merits = (changes: Partial<Merits>): Merits => ({
  width: 0.5,
  monoLossDb: 1,
  cost: nothing,
  boxes: 1,
  outlets: nothing,
  milliamps: nothing,
  boardCm2: nothing,
  ...changes,
});

const candidate = (id: string, changes: Partial<Merits>): Candidate => ({
  routing: routing(id),
  merits: merits(changes),
});
const routing = (id: string): Routing => ({
  id,
  label: id,
  says: "",
  wiring: null,
  reason: null,
  cautions: [],
  plan: null,
  doubt: null,
});

const anyMerits = fc.record({
  width: fc.double({ min: 0, max: 1.5, noNaN: true }),
  monoLossDb: fc.double({ min: 0, max: 4, noNaN: true }),
  cost: fc.record({ known: fc.integer({ min: 0, max: 3 }), open: fc.constantFrom([], ["Mixer"]) }),
  boxes: fc.integer({ min: 0, max: 3 }),
});
const anyOrder = fc.shuffledSubarray([...deciderChoices], { minLength: 4 });

/** The rule as README has it, over every pair, written a second time. */
function byBruteForce(all: readonly Candidate[], first: readonly Decider[]): readonly string[] {
  const front = all.filter((one) => {
    for (const other of all) {
      const a = costsOf(other.merits);
      const b = costsOf(one.merits);
      const isOpen = other.merits.cost.open.length > 0;
      const cheaper = other.merits.cost.known <= one.merits.cost.known && !isOpen;
      const costSame = JSON.stringify(other.merits.cost) === JSON.stringify(one.merits.cost);
      const notWorse =
        a.width <= b.width && a.monoLoss <= b.monoLoss && a.boxes <= b.boxes && (cheaper || costSame);
      const better =
        b.width - a.width > tie.width ||
        b.monoLoss - a.monoLoss > tie.monoLossDb ||
        a.boxes < b.boxes ||
        (cheaper && !costSame);
      if (notWorse && better) return false;
    }
    return true;
  });
  let left = front;
  for (const decider of first) {
    const best = Math.min(...left.map(({ merits: own }) => costsOf(own)[decider]));
    const within = { width: tie.width, monoLoss: tie.monoLossDb, cost: 0, boxes: 0 }[decider];
    left = left.filter(({ merits: own }) => costsOf(own)[decider] <= best + within);
  }
  const fewest = Math.min(...left.map(({ merits: own }) => own.boxes));
  return left.filter(({ merits: own }) => own.boxes === fewest).map(({ routing: { id } }) => id);
}

test("the choice is that of brute force over all pairs", () => {
  fc.assert(
    fc.property(fc.array(anyMerits, { minLength: 1, maxLength: 9 }), anyOrder, (list, first) => {
      const all = list.map((changes, n) => candidate(`${n}`, changes));
      const chosen = choose(all, first);
      expect(byBruteForce(all, first)).toContain(chosen?.best.routing.id);
      expect(chosen?.rest.length).toBe(all.length - 1);
    }),
    { seed: 20_611, numRuns: 2000 },
  );
});

test("of any wirings some are beaten by none, and none beats itself", () => {
  fc.assert(
    fc.property(fc.array(anyMerits, { minLength: 1, maxLength: 9 }), (list) => {
      const all = list.map((changes, n) => candidate(`${n}`, changes));
      expect(undominated(all).length).toBeGreaterThan(0);
      for (const { merits: own } of all) expect(beats(own, own)).toBe(false);
    }),
    { seed: 20_612, numRuns: 500 },
  );
});

test("what nobody hears is a tie, and the simpler wiring wins", () => {
  const simple = candidate("simple", { width: 0.57, boxes: 2 });
  const rich = candidate("rich", { width: 0.61, boxes: 4 });
  expect(choose([rich, simple], ["width", "cost", "boxes", "monoLoss"])?.best).toBe(simple);
  const wider = candidate("wider", { width: 0.63, boxes: 4 });
  expect(choose([wider, simple], ["width", "cost", "boxes", "monoLoss"])?.best).toBe(wider);
  expect(choose([wider, simple], ["boxes", "width", "cost", "monoLoss"])?.best).toBe(simple);
});

/** An open price is never taken for a low one. */
test("a price that is open does not beat one that is known", () => {
  const open = candidate("open", { cost: sum(10, ["Mixer"]) });
  const known = candidate("known", { cost: sum(100) });
  expect(beats(open.merits, known.merits)).toBe(false);
  expect(beats(known.merits, open.merits)).toBe(false);
  expect(beats(merits({ cost: sum(10) }), open.merits)).toBe(true);
});

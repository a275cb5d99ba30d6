import fc from "fast-check";
import { type Box, inputJacks, outputJacks, type Wiring } from "../../../src/rig/wiring/wiring.js";

/** Splitters and mixers with cables between any of their jacks, each jack in at most one: half of them with loops. */
export const anyWiring = (): fc.Arbitrary<Wiring> =>
  fc.tuple(fc.array(anyBox(), { minLength: 1, maxLength: 12 }), fc.boolean()).chain(([made, mayLoop]) => {
    const boxes = made.map((box, n) => ({ ...box, id: `box ${n}` }));
    const ends = (jacksOf: (box: Box) => readonly string[]) =>
      boxes.flatMap((box, n) => jacksOf(box).map((jack) => ({ box: box.id, jack, n })));
    const outs = ends(outputJacks);
    const ins = ends(inputJacks);
    return fc.tuple(fc.shuffledSubarray(outs), fc.shuffledSubarray(ins)).map(([from, to]) => {
      const pairs = from.slice(0, to.length).map((end, n) => ({ from: end, to: to[n] }));
      return { boxes, cables: mayLoop ? pairs : pairs.filter((pair) => pair.from.n < pair.to.n) };
    });
  });

const anyLabel = fc.string({ maxLength: 40 });

const anyBox = (): fc.Arbitrary<Box> =>
  fc.oneof(
    fc.record({
      kind: fc.constant("splitter" as const),
      id: fc.constant(""),
      label: anyLabel,
      outputs: fc.integer({ min: 1, max: 5 }),
      buffered: fc.boolean(),
    }),
    fc.record({
      kind: fc.constant("mixer" as const),
      id: fc.constant(""),
      label: anyLabel,
      inputs: fc
        .integer({ min: 1, max: 5 })
        .map((count) =>
          Array.from({ length: count }, (_, n) => ({ jack: `in ${n + 1}`, gainDb: 0, pan: 0 })),
        ),
      outputs: fc.constantFrom<1 | 2>(1, 2),
    }),
  );

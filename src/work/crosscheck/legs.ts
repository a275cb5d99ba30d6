import { type Box, inputJacks, type Jack, type Wiring } from "../../rig/wiring/wiring.js";

/**
 * A wiring with the destination moved: to what arrives at boxes whose sound is handed over, so that all ahead of them is
 * judged as well. Two signals a leg, left and right; an odd last one plays on both sides.
 * @param handed  ids of those boxes
 */
export function legsInto(wiring: Wiring, handed: ReadonlySet<string>): readonly Wiring[] {
  const destination = wiring.boxes.find(({ kind }) => kind === "destination");
  if (!destination) return [];
  const arriving = uniqueJacks(wiring.cables.filter(({ to }) => handed.has(to.box)).map(({ from }) => from));
  const moved: Box = { kind: "destination", id: destination.id, label: destination.label, inputs: 2 };
  const [left, right] = inputJacks(moved);
  const boxes = wiring.boxes.map((box) => (box === destination ? moved : box));
  const others = wiring.cables.filter(({ to }) => to.box !== destination.id);
  return Array.from({ length: Math.ceil(arriving.length / 2) }, (_, n) => {
    const [first, second = first] = arriving.slice(2 * n, 2 * n + 2);
    const ends = [
      { from: first, to: { box: moved.id, jack: left } },
      { from: second, to: { box: moved.id, jack: right } },
    ];
    return { boxes, cables: [...others, ...ends] };
  });
}

const uniqueJacks = (jacks: readonly Jack[]): readonly Jack[] => [
  ...new Map(jacks.map((jack) => [`${jack.box}\n${jack.jack}`, jack])).values(),
];

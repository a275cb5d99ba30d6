import { inputJacks, outputJacks, type Wiring } from "../../../src/rig/wiring/wiring.js";

/**
 * A wiring as a few lines, every cable of it: `take > Wobble > Grit > Splitter`, on through boxes with one way in and
 * one out; elsewhere with the jack behind the box it belongs to, `Splitter:1 > Ripple`, `Ripple:L > Ledger:L`.
 */
export function sketch(wiring: Wiring): string[] {
  const boxes = new Map(wiring.boxes.map((box) => [box.id, box]));
  const isPlain = (id: string) => {
    const box = boxes.get(id);
    return box !== undefined && inputJacks(box).length === 1 && outputJacks(box).length === 1;
  };
  const end = (id: string, jack: string, jacks: readonly string[]) =>
    jacks.length === 1 ? id : `${id}:${short(jack)}`;
  const isFed = (id: string) => wiring.cables.some(({ to }) => to.box === id);
  const starts = wiring.cables.filter(({ from }) => !(isPlain(from.box) && isFed(from.box)));
  return starts.map((start) => {
    const words = [end(start.from.box, start.from.jack, outputJacks(boxes.get(start.from.box)!))];
    let cable: (typeof wiring.cables)[number] | undefined = start;
    while (cable) {
      const { box, jack }: { box: string; jack: string } = cable.to;
      words.push(end(box, jack, inputJacks(boxes.get(box)!)));
      cable = isPlain(box) ? wiring.cables.find(({ from }) => from.box === box) : undefined;
    }
    return words.join(" > ");
  });
}

/** "out left" is L, "in 1 right" 1R, "in 2 (mono)" 2. */
const short = (jack: string): string =>
  jack
    .replace(/^(in|out) /, "")
    .replace(" (mono)", "")
    .replace(/ ?left$/, "L")
    .replace(/ ?right$/, "R");

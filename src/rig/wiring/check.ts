import { type Box, type Cable, inputJacks, outputJacks, type Wiring } from "./wiring.js";

/** One thing wrong with a wiring. */
export interface WiringFault {
  readonly message: string;
  /** Index of the cable that is at fault, or null. */
  readonly cable: number | null;
  /** Id of the box that is at fault, or null. */
  readonly box: string | null;
}

/**
 * Whether a wiring can be built and played: every cable runs from an output jack to an input jack that exist, no jack
 * holds two cables, nothing loops, and sound gets from the instrument to the destination. Empty when all is well.
 */
export function checkWiring(wiring: Wiring): readonly WiringFault[] {
  const boxes = new Map(wiring.boxes.map((box) => [box.id, box]));
  const faults: WiringFault[] = wiring.cables.flatMap((cable, n) =>
    endFaults(cable, boxes).map((message) => ({ message, cable: n, box: null })),
  );
  faults.push(...sharedJackFaults(wiring.cables));
  if (faults.length > 0) return faults;
  const loop = findLoop(wiring);
  if (loop)
    return [
      {
        message: `${loop.join(" > ")} is a loop; a signal may not come back to a box it left. Take one of these cables out.`,
        cable: closing(wiring.cables, loop),
        box: null,
      },
    ];
  return reachFaults(wiring);
}

function endFaults({ from, to }: Cable, boxes: ReadonlyMap<string, Box>): string[] {
  return [
    ...jackFault(from.box, from.jack, boxes.get(from.box), outputJacks, "output"),
    ...jackFault(to.box, to.jack, boxes.get(to.box), inputJacks, "input"),
  ];
}

function jackFault(
  id: string,
  jack: string,
  box: Box | undefined,
  jacksOf: (box: Box) => readonly string[],
  word: "output" | "input",
): string[] {
  if (!box) return [`there is no box "${id}".`];
  const jacks = jacksOf(box);
  if (jacks.includes(jack)) return [];
  const has = jacks.length > 0 ? `its ${word} jacks are ${jacks.join(", ")}` : `it has no ${word} jacks`;
  return [`"${id}" has no ${word} jack "${jack}"; ${has}.`];
}

function sharedJackFaults(cables: readonly Cable[]): WiringFault[] {
  const faults: WiringFault[] = [];
  const firstAt = new Map<string, string>();
  cables.forEach(({ from, to }, cable) => {
    const output = `${from.box}:${from.jack}`;
    const input = `${to.box}:${to.jack}`;
    if (firstAt.has(`to ${input}`)) {
      faults.push({
        message: `"${input}" already takes ${firstAt.get(`to ${input}`)}; two outputs are never tied together. Use a summing box or a mixer.`,
        cable,
        box: null,
      });
    } else if (firstAt.has(`from ${output}`)) {
      faults.push({
        message: `"${output}" already feeds ${firstAt.get(`from ${output}`)}; one jack holds one plug. Use a splitter.`,
        cable,
        box: null,
      });
    }
    firstAt.set(`to ${input}`, `"${output}"`);
    firstAt.set(`from ${output}`, `"${input}"`);
  });
  return faults;
}

/** Boxes of a loop in signal order, the first named again at the end; null when there is none. */
function findLoop({ boxes, cables }: Wiring): string[] | null {
  const done = new Set<string>();
  const path: string[] = [];
  const visit = (id: string): string[] | null => {
    if (path.includes(id)) return [...path.slice(path.indexOf(id)), id];
    if (done.has(id)) return null;
    path.push(id);
    for (const { from, to } of cables) {
      const loop = from.box === id ? visit(to.box) : null;
      if (loop) return loop;
    }
    path.pop();
    done.add(id);
    return null;
  };
  for (const { id } of boxes) {
    const loop = visit(id);
    if (loop) return loop;
  }
  return null;
}

/** The cable by which a loop comes back to where it began. */
function closing(cables: readonly Cable[], loop: readonly string[]): number {
  return cables.findIndex(({ from, to }) => from.box === loop.at(-2) && to.box === loop[0]);
}

function reachFaults({ boxes, cables }: Wiring): WiringFault[] {
  const take = boxes.find(({ kind }) => kind === "take");
  const destination = boxes.find(({ kind }) => kind === "destination");
  if (!take || !destination)
    return [{ message: "a wiring needs the take and a destination.", cable: null, box: null }];
  const reached = new Set([take.id]);
  for (let size = 0; size < reached.size; ) {
    size = reached.size;
    for (const { from, to } of cables) if (reached.has(from.box)) reached.add(to.box);
  }
  if (!reached.has(destination.id)) {
    return [
      {
        message: `no sound reaches "${destination.id}", what the rig plays into; cable a way to it from "${take.id}", the instrument.`,
        cable: null,
        box: destination.id,
      },
    ];
  }
  const unfed = boxes.filter(({ id }) => !reached.has(id));
  return unfed.map(({ id }) => ({
    message: `no sound reaches "${id}"; cable it in or take it out.`,
    cable: null,
    box: id,
  }));
}

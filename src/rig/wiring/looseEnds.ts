import { andList } from "../../text/words.js";
import type { Rig } from "../model/rig.js";
import { pedalBoxes } from "./parts.js";
import { type Box, inputJacks, outputJacks, type Wiring } from "./wiring.js";

/**
 * What a builder would ask about a wiring that somebody drew, in sentences; it can be built and played all the same. A
 * pedal of the rig that is left out, a stereo output of which one side is used, spare outputs of a splitter, channels of a
 * mixer or a summing box without a cable.
 */
export function looseEnds(wiring: Wiring, rig: Rig): readonly string[] {
  const used = new Set(pedalBoxes(wiring).map(({ pedal }) => pedal.name));
  const leftOut = rig.pedals.filter(({ name }) => !used.has(name)).map(({ name }) => name);
  return [
    ...(leftOut.length > 0
      ? [`${andList(leftOut)} ${leftOut.length === 1 ? "is" : "are"} left out of this wiring.`]
      : []),
    ...wiring.boxes.flatMap((box) => [...outputsOf(box, wiring), ...inputsOf(box, wiring)]),
  ];
}

function outputsOf(box: Box, wiring: Wiring): readonly string[] {
  const jacks = outputJacks(box);
  const free = jacks.filter(
    (jack) => !wiring.cables.some(({ from }) => from.box === box.id && from.jack === jack),
  );
  if (box.kind === "splitter")
    return free.length > 0 ? [`${box.label}: ${andList(free)} ${isOrAre(free)} spare.`] : [];
  const lost = free.map((jack) => `${box.label}: ${jack} goes nowhere; that side is not heard.`);
  if (box.kind !== "pedal" || box.outputs === 2 || box.pedal.jacks === "mono") return lost;
  return [...lost, `${box.label} is used by its mono output alone: what it makes in stereo is not heard.`];
}

function inputsOf(box: Box, wiring: Wiring): readonly string[] {
  const jacks = inputJacks(box);
  const free = jacks.filter((jack) => !wiring.cables.some(({ to }) => to.box === box.id && to.jack === jack));
  if (free.length === 0) return [];
  if (box.kind === "mixer" || box.kind === "summing-box")
    return [`${box.label}: nothing is plugged into ${andList(free)}.`];
  return [`${box.label}: nothing is plugged into ${andList(free)}; that side is silent.`];
}

const isOrAre = (words: readonly string[]): string => (words.length === 1 ? "is" : "are");

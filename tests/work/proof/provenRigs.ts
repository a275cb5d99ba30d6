import { readRig } from "../../../src/node/rig/readRig.js";
import type { Rig } from "../../../src/rig/model/rig.js";
import { sixRigs } from "../../rig/routings/sixRigs.js";

const demo = (name: string) => readRig(`fixtures/rigs/${name}.yaml`);

/** What is built and proven: three demo rigs, and three of other kinds. */
export const provenRigs: readonly { readonly name: string; readonly rig: Rig; readonly plan: string }[] = [
  { name: "Ferry Road", rig: await demo("ferry-road"), plan: "parallel" },
  { name: "Mill Loft", rig: await demo("mill-loft"), plan: "parallel" },
  { name: "Quay piano", rig: await demo("quay-piano"), plan: "dual-mono" },
  { name: "keyboard", rig: sixRigs["stereo keyboard into a mono reverb"], plan: "parallel-after" },
  { name: "mono delay", rig: sixRigs["mono delay after a chorus"], plan: "one-side" },
  { name: "mix 1", rig: sixRigs["a unit at mix 1"], plan: "parallel-after" },
];

import type { Rig } from "../../../src/rig/model/rig.js";
import { instrument, pedal, rigOf } from "../../rigs.js";

const chorus = pedal("Ripple", "chorus", "mono-to-stereo");
const echo = pedal("Ledger", "delay", "stereo");
const tank = pedal("Tank", "spring", "mono", { mix: 0.35 });
const wobble = pedal("Wobble", "tremolo", "mono");
const grit = pedal("Grit", "overdrive", "mono");

/** Rigs of different kinds, each a question that a player asks. */
export const sixRigs: Readonly<Record<string, Rig>> = {
  "tremolo, overdrive and tank after stereo": rigOf([chorus, echo, wobble, grit, tank]),
  "stereo keyboard into a mono reverb": rigOf([tank], { instrument: instrument({ outputs: 2 }) }),
  "stereo keyboard, tremolo, chorus and tank": rigOf([wobble, pedal("Ripple", "chorus", "stereo"), tank], {
    instrument: instrument({ outputs: 2 }),
  }),
  "a chorus with one input behind the unit": rigOf([
    pedal("Ledger", "delay", "mono-to-stereo"),
    tank,
    chorus,
  ]),
  "mono delay after a chorus": rigOf([chorus, pedal("Carter", "delay", "mono")]),
  "a unit between two stereo pedals": rigOf([chorus, grit, echo]),
  "a unit at mix 1": rigOf([chorus, pedal("Tank", "spring", "mono", { mix: 1 })]),
  "three units, two of them neighbours": rigOf([chorus, grit, tank, echo, wobble]),
  "two delays side by side": rigOf([
    chorus,
    pedal("Carter", "delay", "mono"),
    pedal("Floss & Co", "delay", "mono"),
  ]),
  "a tank or two others": rigOf([
    chorus,
    {
      ...tank,
      alternatives: [
        pedal("Sheet", "plate", "mono", {}, { price: 150 }),
        pedal("Barn", "hall", "stereo", {}, { price: 300 }),
        pedal("Loft", "hall", "stereo", {}, { price: 280 }),
      ],
    },
  ]),
  "names that boxes have": rigOf([
    pedal("take", "boost", "mono"),
    pedal("Splitter", "chorus", "mono-to-stereo"),
    pedal("Mixer", "spring", "mono"),
    pedal("Stereo Mixer", "tremolo", "mono"),
    pedal("destination", "delay", "stereo"),
  ]),
};

import { dryPathChoices, whenOffChoices } from "../../../rig/model/rig.js";
import type { RigDesk } from "../../contract/rigDesk.js";
import { el } from "../../widgets/dom.js";
import { choiceField, numberField, type RigField, switchField } from "./rigFields.js";

/** What a maker states of a pedal, and how this one behaves: folded away, for sheets, levels and loading. */
export function pedalFacts(desk: RigDesk, index: number, owner: () => string) {
  const at = (...keys: string[]) => ["pedals", index, ...keys];
  const number = (label: string, unit: string, ...keys: string[]) =>
    numberField(desk, { path: at(...keys), label, owner }, unit);
  const choice = (label: string, key: string, words: readonly string[]) =>
    choiceField(
      desk,
      { path: at(key), label, owner },
      words.map((word) => [word, word.replaceAll("-", " ")]),
      { usual: words[0] },
    );
  const yesNo = (label: string, key: string, usual: boolean) =>
    switchField(desk, { path: at(key), label, owner }, usual);
  const fields: readonly RigField[] = [
    number("price", "", "price"),
    number("supply", "V", "supply", "volts"),
    number("current", "mA", "supply", "milliamps"),
    number("width", "mm", "sizeMm", "width"),
    number("depth", "mm", "sizeMm", "depth"),
    number("input impedance", "ohms", "inputOhms"),
    number("output impedance", "ohms", "outputOhms"),
    number("largest input", "dBu", "maxInputDbu"),
    number("largest output", "dBu", "maxOutputDbu"),
    number("latency", "ms", "latencyMs"),
    number("output trim", "dB", "levelDb"),
    choice("when off", "whenOff", whenOffChoices),
    yesNo("has a footswitch", "hasFootswitch", true),
    yesNo("turns the polarity over", "invertsPolarity", false),
    yesNo("can go fully wet", "canGoFullyWet", true),
    choice("dry sound as the mix goes up", "dryPath", dryPathChoices),
    number("dry sound left at full mix", "dB", "dryLeakDb"),
  ];
  const node = el(
    "details",
    { class: "pedal-facts" },
    el("summary", {}, "What is known of it"),
    el("p", { class: "hint" }, "As far as you know: what is left empty is not known, and told so."),
    el("div", { class: "facts-grid" }, ...fields.map((field) => field.node)),
  );
  return { node, fields };
}

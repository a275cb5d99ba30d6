import type { Path } from "../../../rig/file/yaml.js";
import { dryPathChoices, whenOffChoices } from "../../../rig/model/rig.js";
import type { RigDesk } from "../../contract/rigDesk.js";
import { fold, grid } from "./fold.js";
import { choiceField, numberField, type RigPart, switchField } from "./rigFields.js";

/** What a maker states of a pedal, and how this one behaves: folded away, for sheets, levels and loading. */
export function pedalFacts(desk: RigDesk, path: () => Path, owner: () => string): RigPart {
  const at =
    (...keys: string[]) =>
    () => [...path(), ...keys];
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
  return fold(
    "What is known of it",
    "As far as you know: what is left empty is not known, and told so.",
    grid(
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
    ),
  );
}

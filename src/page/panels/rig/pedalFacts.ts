import type { Path } from "../../../rig/file/yaml.js";
import { dryPathChoices, whenOffChoices } from "../../../rig/model/rig.js";
import type { RigDesk } from "../../contract/rigDesk.js";
import { fieldsAt } from "../../widgets/form/fieldsAt.js";
import { fold, grid } from "../../widgets/form/fold.js";
import type { RigField, RigPart } from "../../widgets/form/rigFields.js";

/** What a maker states of a pedal, and how this one behaves: folded away, for sheets, levels and loading. */
export function pedalFacts(desk: RigDesk, path: () => Path, owner: () => string): RigPart {
  const { number, choice, yesNo } = fieldsAt(desk, path, owner);
  return fold(
    "What is known of it",
    "As far as you know: what is left empty is not known, and told so.",
    grid(
      ...boardFacts(desk, path, owner),
      number("latency", "ms", ["latencyMs"]),
      number("output trim", "dB", ["levelDb"]),
      choice("when off", ["whenOff"], whenOffChoices),
      yesNo("has a footswitch", ["hasFootswitch"], true),
      yesNo("turns the polarity over", ["invertsPolarity"], false),
      yesNo("can go fully wet", ["canGoFullyWet"], true),
      choice("dry sound as the mix goes up", ["dryPath"], dryPathChoices),
      number("dry sound left at full mix", "dB", ["dryLeakDb"]),
    ),
  );
}

/** What a box costs, draws and takes of the board, and its jacks. */
export function boardFacts(desk: RigDesk, path: () => Path, owner: () => string): readonly RigField[] {
  const { number } = fieldsAt(desk, path, owner);
  return [
    number("price", "", ["price"]),
    number("supply", "V", ["supply", "volts"]),
    number("current", "mA", ["supply", "milliamps"]),
    number("width", "mm", ["sizeMm", "width"]),
    number("depth", "mm", ["sizeMm", "depth"]),
    number("input impedance", "ohms", ["inputOhms"]),
    number("output impedance", "ohms", ["outputOhms"]),
    number("largest input", "dBu", ["maxInputDbu"]),
    number("largest output", "dBu", ["maxOutputDbu"]),
  ];
}

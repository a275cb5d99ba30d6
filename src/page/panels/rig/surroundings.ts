import { valueAt } from "../../../rig/file/dataAt.js";
import type { RigDesk } from "../../contract/rigDesk.js";
import { fieldsAt } from "../../widgets/form/fieldsAt.js";
import { fold, grid, group } from "../../widgets/form/fold.js";
import { choiceField, numberField, type RigPart, set } from "../../widgets/form/rigFields.js";

const root = () => [];

/** What plays into the rig, what the rig plays into, and the cables between: for loading and levels. */
export function surroundingsFold(desk: RigDesk): RigPart {
  const instrument = fieldsAt(
    desk,
    () => ["instrument"],
    () => "The instrument",
  );
  const outputs = instrument.place("outputs", ["outputs"], "two: the split is at the instrument");
  const pickup = instrument.place(
    "pickup",
    ["pickup"],
    "a usual one of its kind, where its values are not given",
  );
  const cables = fieldsAt(
    desk,
    () => ["cables"],
    () => "The cables",
  );
  const destination = fieldsAt(
    desk,
    () => ["destination"],
    () => "Desk or amps",
  );
  return fold(
    "Instrument, cables, desk or amps",
    "For levels, and for what cables and inputs do to a pickup. What is left empty is not known, and told so.",
    group(
      "Instrument",
      grid(
        choiceField(
          desk,
          outputs,
          [
            ["1", "one"],
            ["2", "two, left and right"],
          ],
          { usual: "1", onSet: (word) => set(desk, outputs, word === "1" ? undefined : Number(word)) },
        ),
        choiceField(
          desk,
          pickup,
          [
            ["", "not a magnetic one, or its values are below"],
            ["single-coil", "single coil"],
            ["humbucking", "two coils, humbucking"],
          ],
          { usual: "", onSet: (word) => set(desk, pickup, word === "" ? undefined : word) },
        ),
        instrument.number("output impedance", "ohms", ["outputOhms"], "of its pickup or output stage"),
        instrument.number("inductance of the pickup", "H", ["henries"], "0 for an output without a coil"),
        instrument.number("capacitance of the pickup", "pF", ["picofarads"], "without cable"),
        instrument.number("volume control", "ohms", ["volume", "ohms"], "of the whole track"),
        instrument.number(
          "volume is at",
          "",
          ["volume", "trackShare"],
          "of the track's resistance; 1 full up",
        ),
        instrument.number("tone control", "ohms", ["tone", "ohms"], "of the whole track"),
        instrument.number("tone capacitor", "nF", ["tone", "nanofarads"]),
        instrument.number("tone is at", "", ["tone", "trackShare"], "of the track's resistance; 1 full up"),
      ),
    ),
    group("The take was recorded into", grid(...takeLoad(desk))),
    group(
      "Cables",
      grid(
        cables.number("instrument to board", "m", ["instrumentMetres"], "empty: 6"),
        cables.number("box to box", "m", ["patchMetres"], "empty: 0.3"),
        cables.number("board to desk or amps", "m", ["outputMetres"], "empty: 6"),
        cables.number("capacitance", "pF a metre", ["picofaradsPerMetre"], "empty: 100"),
      ),
    ),
    group(
      "Desk or amps",
      grid(
        destination.number("input impedance", "ohms", ["inputOhms"]),
        destination.number("largest input", "dBu", ["maxInputDbu"]),
      ),
    ),
  );
}

/** The take's name alone stands in the file until more is known of it. */
function takeLoad(desk: RigDesk) {
  const { place } = fieldsAt(
    desk,
    () => ["take"],
    () => "The take",
  );
  const load = (label: string, unit: string, key: string, hint: string) => {
    const at = place(label, ["into", key], hint);
    return numberField(desk, at, unit, (value) => {
      const take = valueAt(desk.data, ["take"]);
      const named =
        typeof take === "string" && value !== undefined ? [{ set: ["take"], to: { file: take } }] : [];
      desk.edit(`${at.owner()}, ${label}`, [...named, { set: at.path(), to: value }]);
    });
  };
  return [
    load("input impedance", "ohms", "ohms", "empty: 1 megohm, assumed"),
    load("cable", "pF", "picofarads", "empty: as the rig's instrument cable"),
  ];
}

/** How loud the take is on the cables, and the mixer of the wirings with a branch. */
export function levelsFold(desk: RigDesk): RigPart {
  const { number } = fieldsAt(desk, root, () => "Levels");
  const mixer = fieldsAt(
    desk,
    () => ["mixer"],
    () => "The mixer",
  );
  return fold(
    "Levels and mixer",
    "",
    group(
      "A sine in the take, and what it is on the cable; both empty: levels are told in dBFS alone",
      grid(
        number("peak in the take", "dBFS", ["reference", "dbfs"]),
        number("RMS on the cable", "dBu", ["reference", "dbu"]),
      ),
    ),
    group(
      "Mixer of the wirings with a branch",
      grid(
        mixer.number("stereo pedals", "dB", ["dryDb"], "empty: 0"),
        mixer.number("each return", "dB", ["returnDb"], "empty: wet to dry as the unit's own mix has it"),
        mixer.number("pan of each return", "", ["returnPan"], "-1 left to 1 right; empty: 0"),
      ),
    ),
  );
}

import { valueAt } from "../../../rig/file/dataAt.js";
import type { Path } from "../../../rig/file/yaml.js";
import { el, setText } from "../../widgets/dom.js";
import { type RigPart, set, textField } from "../../widgets/form/rigFields.js";
import type { View } from "../view.js";
import { fileButton } from "./fileButton.js";
import { fileKeys } from "./pedalKinds.js";

/** The sound file of a pedal that is a measured unit; nothing for others. @param path  of the pedal */
export function soundFileField({ bench, say }: View, path: () => Path, owner: () => string): RigPart {
  const { desk } = bench;
  const place = {
    path: () => [...path(), "settings", "file"],
    label: "sound file",
    owner,
    hint: "the impulse response of the unit, a WAV file that stands beside the rig file",
  };
  const name = textField(desk, place);
  const state = el("p", { class: "hint", role: "status" });
  const refused = el("p", { class: "fault", role: "alert" });
  const bring = async (file: File) => {
    setText(refused, "");
    try {
      await bench.loadSoundFile(file);
      set(desk, place, file.name);
      say(`${file.name} is the sound file of ${owner()}.`);
    } catch (error) {
      setText(refused, error instanceof Error ? error.message : String(error));
    }
  };
  const chooser = fileButton(
    "Bring in a sound file",
    ".wav,.flac,.mp3,.ogg,.m4a",
    (file) => void bring(file),
  );
  const node = el("div", { class: "sound-file" }, name.node, chooser.node, state, refused);
  return {
    node,
    get fields() {
      return node.hidden ? [] : [name];
    },
    update() {
      node.hidden = fileKeys(valueAt(desk.data, [...path(), "model"])).length === 0;
      name.update();
      chooser.input.setAttribute("aria-label", `Bring in a sound file: ${owner()}`);
      setText(state, stateWords(valueAt(desk.data, place.path()), bench.soundFiles));
    },
  };
}

function stateWords(file: unknown, held: readonly string[]): string {
  if (typeof file !== "string" || file === "")
    return "No sound file yet: bring in the impulse response of the unit, and it is heard.";
  if (held.includes(file)) return "This page holds it. A saved rig file looks for it beside itself.";
  return "This page does not hold it: bring it in, and it is heard. Until then you hear the rig as it was before.";
}

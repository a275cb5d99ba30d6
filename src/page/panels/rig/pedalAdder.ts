import { listAt } from "../../../rig/file/dataAt.js";
import { freeName } from "../../../rig/file/pedalEdits.js";
import { capital } from "../../../text/words.js";
import type { RigDesk } from "../../contract/rigDesk.js";
import { button } from "../../widgets/button.js";
import { el } from "../../widgets/dom.js";
import { PickList } from "../../widgets/pickList.js";
import { fileKeys, kindChoices, modelsOf } from "./pedalKinds.js";

import { jackWords } from "./rigWords.js";

/** Puts another pedal at the end of the chain: its kind, which of that kind where there are several, its jacks. */
export function pedalAdder(desk: RigDesk, onAdded: (at: number) => void) {
  const kind = new PickList("kind", "Add a pedal at the end", () => showModels());
  const model = new PickList("model", "Which");
  const jacks = new PickList("jacks", "Jacks");
  kind.setOptions(kindChoices);
  jacks.setOptions(jackWords);
  const which = el("span", { class: "pick" }, model.label, model.list);
  const showModels = () => {
    const models = modelsOf(kind.value);
    model.setOptions(models.map((word) => [word, capital(word)]));
    which.hidden = models.length < 2;
  };
  showModels();
  const add = () => {
    const name = freeName(desk.data, kind.value);
    const at = listAt(desk.data, ["pedals"]).length;
    const files = fileKeys(model.value);
    // What has no default is asked for at its field.
    const settings = files.length > 0 ? { settings: Object.fromEntries(files.map((key) => [key, ""])) } : {};
    const pedal = { name, model: model.value, jacks: jacks.value, ...settings };
    desk.edit(`adding ${name}`, [{ into: ["pedals"], at, add: pedal }]);
    onAdded(at);
  };
  return {
    node: el(
      "div",
      { class: "adder" },
      el("span", { class: "pick" }, kind.label, kind.list),
      which,
      el("span", { class: "pick" }, jacks.label, jacks.list),
      button("Add", add),
    ),
    focus: () => kind.list.focus(),
  };
}

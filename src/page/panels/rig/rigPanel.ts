import { el, setText } from "../../widgets/dom.js";
import { together } from "../../widgets/form/fold.js";
import { choiceField, textField } from "../../widgets/form/rigFields.js";
import { undoSteps } from "../../widgets/form/undoSteps.js";
import type { Panel, View } from "../view.js";
import { asksFold } from "./asksFold.js";
import { boxesFold } from "./boxesFold.js";
import { Chain } from "./chain.js";
import { exampleChoice } from "./examples.js";
import { faultList } from "./faultList.js";
import { keptHint } from "./keptHint.js";
import { planNote } from "./planNote.js";
import { openButton, openRig, saveButton } from "./rigFile.js";
import { playsIntoWords } from "./rigWords.js";
import { savePageButton } from "./savePage.js";
import { levelsFold, surroundingsFold } from "./surroundings.js";
import { textEditor } from "./textEditor.js";

/** The rig file on the desk: pedals in their order, where it plays, what is wrong; opened, saved, undone. */
export function rigPanel(view: View): Panel {
  const { desk } = view.bench;
  const steps = undoSteps(desk);
  const owner = () => "The rig";
  const parts = [
    together(
      "rig-facts",
      textField(desk, { path: () => ["name"], label: "name of the rig", owner }),
      choiceField(desk, { path: () => ["playsInto"], label: "plays into", owner }, playsIntoWords, {
        usual: "stereo-desk",
      }),
    ),
    new Chain(view),
    asksFold(desk),
    boxesFold(desk),
    surroundingsFold(desk),
    levelsFold(desk),
  ];
  const text = textEditor(desk);
  const faults = faultList(view, () => parts.flatMap(({ fields }) => fields), text.goTo);
  const plan = planNote(view);
  const form = el("fieldset", { class: "rig-form" }, ...parts.map(({ node }) => node));
  form.children[1].after(plan.node);
  const hint = keptHint(view);
  const update = () => {
    for (const part of [...parts, steps, text, faults]) part.update();
    hint.update("desk");
    form.disabled = !desk.canEdit;
  };
  const refused = el("p", { class: "fault", role: "alert" });
  const take = async (file: File) => setText(refused, await openRig(view, file));
  update();
  return {
    children: [
      el(
        "div",
        { class: "actions" },
        ...steps.nodes,
        openButton(take),
        saveButton(view),
        savePageButton(view),
      ),
      refused,
      hint.node,
      exampleChoice(view),
      faults.node,
      form,
      text.node,
    ],
    update(change) {
      if (change === "desk") update();
      if (change === "report" || change === "shape") plan.update(change);
    },
    receive(file) {
      if (!/\.ya?ml$/i.test(file.name)) return false;
      void take(file);
      return true;
    },
  };
}

import { el } from "../../widgets/dom.js";
import { PickList } from "../../widgets/pickList.js";
import { nameOf, type PagePart, type View } from "../view.js";

/** What is heard as a list to choose from: it goes with the player where that is a bar and the rows are scrolled away. */
export function choicePick(view: View): PagePart {
  const { player } = view.bench;
  const picker = new PickList("heard", "Heard now", (id) => player.choose(id));
  picker.label.classList.add("visually-hidden");
  let written = "";
  const write = () => {
    const options = player.choices.map((id) => [id, nameOf(view, id)] as const);
    const now = JSON.stringify(options);
    if (now === written) return;
    written = now;
    picker.setOptions(options);
  };
  const show = () => {
    picker.value = player.chosen;
  };
  write();
  show();
  return {
    node: el("div", { class: "pick" }, picker.label, picker.list),
    update() {
      write();
      show();
    },
  };
}

import { type Reply, replySubject, replyText } from "../../../words/replyWords.js";
import { el, newId } from "../../widgets/dom.js";
import { type ListOption, PickList } from "../../widgets/pickList.js";
import { choiceOrder } from "../choiceOrder.js";
import { nameOf, type Panel, type View } from "../view.js";
import { sendingOf } from "./sending.js";

/** Which one is liked, in a text to send back to who made the page. */
export function replyPanel(view: View): Panel {
  const pick = new PickList("pick", "I like", () => write());
  const remarkId = newId("remark");
  const remark = el("textarea", { id: remarkId, rows: 2, maxlength: 1000 });
  remark.addEventListener("input", () => write());
  const sending = sendingOf(view);
  const text = el("textarea", { readonly: true, rows: 8, "aria-label": "The text to send back" });
  let offered = "";
  const offer = () => {
    const options = optionsOf(view);
    const now = JSON.stringify(options);
    if (now === offered) return;
    offered = now;
    const { value } = pick;
    pick.setOptions(options, options.some(([id]) => id === value) ? value : "");
  };
  const write = () => {
    const reply = replyOf(view, pick, remark.value);
    const words = replyText(reply);
    if (text.value === words) return;
    text.value = words;
    sending.offer({ title: replySubject(reply), text: words });
  };
  const update = () => {
    offer();
    write();
  };
  update();
  return {
    children: [
      el("div", { class: "reply-pick" }, pick.label, pick.list),
      el("div", { class: "remark" }, el("label", { for: remarkId }, "A remark, if you like"), remark),
      text,
      ...sending.nodes(text),
    ],
    update(change) {
      if (change !== "progress" && change !== "fault") update();
    },
  };
}

/** Answers that are no choice, by values that no id has. */
const noChoices: readonly ListOption[] = [
  ["/same", "I hear no difference"],
  ["/none", "None of them"],
];

function optionsOf(view: View): readonly ListOption[] {
  const { first, rest } = choiceOrder(view);
  const choices = [...first, ...rest].map((id): ListOption => [id, nameOf(view, id)]);
  return [["", "Choose one"], ...choices, ...noChoices];
}

function replyOf(view: View, { value }: PickList, remark: string): Reply {
  const { bench, listening } = view;
  const { heard, trials } = listening;
  const other = noChoices.find(([id]) => id === value)?.[1];
  const notHeard = listening.knows(value) ? "" : ", though it was not played here";
  // The id is for who has the rig file; what was kept is in this page alone.
  const id = bench.kept.some((each) => each.id === value) ? "" : ` (${value})`;
  const pick = value === "" ? null : (other ?? `${nameOf(view, value)}${id}${notHeard}`);
  const { isAsItCame } = bench.desk;
  return { rig: bench.rig.name, pick, remark, heard, trials, isAsItCame, date: new Date() };
}

import { boxIds, withBox } from "../../../rig/file/wiringEdits.js";
import type { HandBox, Rig } from "../../../rig/model/rig.js";
import { newBoxId } from "../../../rig/routings/drawnByHand.js";
import { button } from "../../widgets/button.js";
import { el } from "../../widgets/dom.js";
import { PickList } from "../../widgets/pickList.js";
import type { OpenDrawing } from "./openDrawing.js";

interface Offer {
  readonly words: string;
  /** What its id is made of. */
  readonly called: string;
  readonly box: HandBox;
}

/** Puts another box on the board: a pedal of the rig, or one that is bought. */
export function boxAdder(drawing: OpenDrawing, onAdded: (id: string) => void) {
  const pick = new PickList("new-box", "One more box");
  let offers: readonly Offer[] = [];
  const add = () => {
    const { id, view, label } = drawing;
    const offer = offers[Number(pick.value)];
    if (id === null || !offer) return;
    const { desk } = view.bench;
    if (!desk.draft) return;
    const box = newBoxId(offer.called, offer.box, boxIds(desk.data, id), desk.draft);
    desk.edit(`${offer.words} in ${label}`, withBox(id, box, offer.box));
    onAdded(box);
  };
  return {
    node: el(
      "div",
      { class: "adder" },
      el("span", { class: "pick" }, pick.label, pick.list),
      button("Add", add),
    ),
    focus: () => pick.list.focus(),
    update() {
      const { draft } = drawing.view.bench.desk;
      offers = draft ? offersOf(draft, Object.values(drawing.hand?.boxes ?? {})) : [];
      pick.setOptions(offers.map(({ words }, n) => [String(n), words]));
    },
  };
}

/** Pedals that are not on the board first. */
function offersOf(rig: Rig, drawn: readonly HandBox[]): readonly Offer[] {
  const isDrawn = (name: string) =>
    drawn.some((box) => box.box === "pedal" && !box.stereo && box.pedal === name);
  const pedal = (name: string, rest: { stereo?: boolean } = {}): HandBox => ({
    box: "pedal",
    pedal: name,
    fullyWet: false,
    settings: {},
    ...rest,
  });
  const pedals = rig.pedals.flatMap((own) => [own, ...own.alternatives]);
  const own = pedals.map(({ name }): Offer => {
    const again = isDrawn(name);
    return { words: again ? `${name}, once more` : name, called: name, box: pedal(name) };
  });
  const inStereo = pedals
    .filter(({ jacks }) => jacks === "mono")
    .map(
      ({ name }): Offer => ({
        words: `${name}, one of its kind in stereo`,
        called: `Stereo ${name}`,
        box: pedal(name, { stereo: true }),
      }),
    );
  return [
    ...own.filter(({ called }) => !isDrawn(called)),
    { words: "a splitter", called: "splitter", box: { box: "splitter", outputs: 2, buffered: true } },
    { words: "a summing box", called: "sum", box: { box: "summing-box", inputs: 2 } },
    { words: "a mixer", called: "mixer", box: newMixer },
    ...own.filter(({ called }) => isDrawn(called)),
    ...inStereo,
  ];
}

/** A pair, left and right, and a return. */
const newMixer: HandBox = {
  box: "mixer",
  inputs: [
    { gainDb: 0, pan: -1 },
    { gainDb: 0, pan: 1 },
    { gainDb: 0, pan: 0 },
  ],
  outputs: 2,
};

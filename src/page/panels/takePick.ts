import type { Bench } from "../contract/bench.js";
import { el } from "../widgets/dom.js";
import { PickList } from "../widgets/pickList.js";
import type { PagePart } from "./view.js";

/**
 * The takes that came with the page, to choose from; null where there are no two. While another take is heard, one of the
 * person's own, none is chosen.
 */
export function takePick(bench: Bench, onChoose: (place: number, name: string) => void): PagePart | null {
  const names = bench.takeNames;
  if (names.length < 2) return null;
  const pick = new PickList("take", "Take", (place) => onChoose(Number(place), names[Number(place)]));
  pick.setOptions(names.map((name, n) => [String(n), name]));
  const update = () => {
    pick.value = String(names.indexOf(bench.takeName));
  };
  update();
  return { node: el("p", { class: "file-choice" }, pick.label, pick.list), update };
}

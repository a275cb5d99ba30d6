import type { RigText } from "../../../rig/file/rigText.js";
import { button } from "../../widgets/button.js";
import { el } from "../../widgets/dom.js";
import type { View } from "../view.js";

/** Rigs to begin from, each with its take; nothing where the page has none. */
export function exampleChoice({ bench, data, say }: View): HTMLElement | null {
  const { examples = [] } = data;
  if (examples.length === 0) return null;
  const open = ({ file, text }: RigText) => {
    bench.desk.open(file, text);
    const take = bench.takeNames.findIndex((name) => text.includes(`/${name}`));
    if (take >= 0 && bench.takeNames[take] !== bench.takeName) void bench.chooseTake(take);
    say(`${nameIn(text)} is open.`);
  };
  return el(
    "p",
    { class: "actions examples" },
    el("span", {}, "Or begin from an example:"),
    ...examples.map((example) => button(nameIn(example.text), () => open(example), "quiet")),
  );
}

const nameIn = (text: string): string => text.match(/^name: *(.+)$/m)?.[1] ?? "A rig";

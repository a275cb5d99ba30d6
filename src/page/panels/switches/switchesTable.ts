import { plainWords } from "../../../words/plainWords.js";
import {
  looksWords,
  noSwitchWords,
  noticedKinds,
  noticedWords,
  trimWords,
} from "../../../words/switchesWords.js";
import type { SwitchSummary } from "../../../work/switches/summary.js";
import type { SwitchSection } from "../../../work/switches/switchSection.js";
import { scroller, table } from "../../widgets/dataTable.js";
import { el } from "../../widgets/dom.js";
import { nothing, signed } from "../../widgets/typeset.js";

/** One routing's footswitches: a row a switch, then in words what a listener notices and what cures it. */
export function switchesOfRouting(routing: SwitchSection["routings"][number]): HTMLElement {
  const { label, switches } = routing;
  const heading = el("h3", {}, label);
  if (switches.length === 0) return el("section", { class: "switched" }, heading, el("p", {}, noSwitchWords));
  const trims = trimWords(switches);
  return el(
    "section",
    { class: "switched" },
    heading,
    scroller(`Switches of ${label}`, switchTable(routing)),
    el("ul", { class: "noticed" }, trims === null ? null : el("li", {}, trims), ...switches.map(noticedItem)),
  );
}

function switchTable(routing: SwitchSection["routings"][number]): HTMLTableElement {
  return table(
    looksWords(routing),
    [
      { heading: "Turned off" },
      { heading: "level", unit: "LU", plain: plainWords.levelJump },
      { heading: "range", unit: "LU" },
      { heading: "side share", unit: "% of the energy", plain: plainWords.sideShare },
      { heading: "correlation", plain: plainWords.correlation },
      { heading: "noticed", text: true },
    ],
    routing.switches.map((summary) => {
      const { pedal, othersOn, levelJumpLu } = summary;
      const share = othersOn?.sideShareChange ?? null;
      return [
        pedal,
        signed(othersOn?.levelJumpLu ?? null, 1),
        levelJumpLu ? `${signed(levelJumpLu.least, 1)} to ${signed(levelJumpLu.most, 1)}` : nothing,
        signed(share === null ? null : 100 * share, 0),
        signed(othersOn?.correlationChange ?? null, 2),
        noticedKinds(summary),
      ];
    }),
  );
}

function noticedItem(summary: SwitchSummary): HTMLElement | null {
  const words = noticedWords(summary);
  return words === null
    ? null
    : el("li", {}, words.says, ...words.cures.map((cure) => el("p", { class: "cure" }, cure)));
}

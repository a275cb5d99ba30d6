import { listAt, valueAt } from "../../../rig/file/dataAt.js";
import { type Decider, deciderChoices } from "../../../rig/model/rig.js";
import type { RigDesk } from "../../contract/rigDesk.js";
import { fieldsAt } from "../../widgets/form/fieldsAt.js";
import { fold, grid, group, shownIf } from "../../widgets/form/fold.js";
import { type Choice, choiceField, type RigPart, set } from "../../widgets/form/rigFields.js";

/** What the player will not give up, of the rig as a whole; what it asks of a mono unit stands at that pedal. */
export function asksFold(desk: RigDesk): RigPart {
  const { number, yesNo } = fieldsAt(
    desk,
    () => ["asks"],
    () => "The player asks",
  );
  return fold(
    "What the player asks",
    "What must hold, whatever is built. The answer keeps all of it, or says which ask stands in the way. What is left empty is not asked.",
    grid(
      ...stereoAsk(desk),
      yesNo("no second unit of any", ["oneOfEach"], false),
      yesNo("no unit on one side alone", ["bothSides"], false),
      firstAsk(desk),
    ),
    group(
      "At most",
      grid(
        number("to spend", "", ["spendAtMost"], "in the rig's currency"),
        number("more boxes", "", ["extraBoxesAtMost"]),
        number("outlets of the supply", "", ["outletsAtMost"]),
        number("current", "mA", ["milliampsAtMost"]),
        number("room on the board", "cm\u00b2", ["boardCm2AtMost"]),
        number("loss in mono", "dB", ["monoLossDbAtMost"], "where the sound is folded down"),
      ),
    ),
  );
}

const stereoWords: readonly Choice[] = [
  ["false", "does not matter"],
  ["true", "must stay, 0.4 of it"],
  ["share", "must stay, more or less"],
];
/** To begin from where a share of one's own is chosen. */
const firstShare = 0.5;

function stereoAsk(desk: RigDesk): readonly RigPart[] {
  const { place, number } = fieldsAt(
    desk,
    () => ["asks"],
    () => "The player asks",
  );
  const stereo = place("stereo", ["stereo"], "of the width that the rig would have with a stereo unit");
  const wordOf = (value: unknown) =>
    value === undefined || value === false ? "false" : value === true ? "true" : "share";
  const values: Readonly<Record<string, unknown>> = { false: undefined, true: true, share: firstShare };
  return [
    choiceField(desk, stereo, stereoWords, {
      wordOf,
      onSet: (word) => set(desk, stereo, values[word]),
    }),
    shownIf(
      () => wordOf(valueAt(desk.data, ["asks", "stereo"])) === "share",
      number("share of the width", "", ["stereo"], "at least; 1 is all of it"),
    ),
  ];
}

const deciderWords: Readonly<Record<Decider, string>> = {
  width: "the widest",
  cost: "the cheapest",
  boxes: "the fewest boxes",
  monoLoss: "the least loss in mono",
};

/** The rest of the order stays as it is. */
function firstAsk(desk: RigDesk): RigPart {
  const { place } = fieldsAt(
    desk,
    () => ["asks"],
    () => "The player asks",
  );
  const first = place("of those that keep all asks", ["first", 0]);
  const rest = () => listAt(desk.data, ["asks", "first"]);
  return choiceField(
    desk,
    first,
    deciderChoices.map((word) => [word, deciderWords[word]]),
    {
      usual: deciderChoices[0],
      onSet: (word) =>
        desk.edit("The player asks, what decides", [
          { set: ["asks", "first"], to: [word, ...rest().filter((each) => each !== word)] },
        ]),
    },
  );
}

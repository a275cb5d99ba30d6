import { count, fixed, money, percent, trimmed } from "../text/numbers.js";
import type { AskFound, AskName } from "../work/answer/asks.js";

type Asked = Pick<AskFound, "ask" | "unit" | "limit">;

/** One ask as who plays would say it: "no second unit", "EUR 300 at most". */
export function askPhrase({ ask, unit, limit }: Asked, currency: string): string {
  const figure = limit ?? 0;
  const phrases: Readonly<Record<AskName, () => string>> = {
    stereo: () => `stereo (at least ${percent(figure)} % of the width)`,
    order: () => `${unit} behind what it follows`,
    sameUnit: () => `this very ${unit}`,
    oneOfEach: () => "no second unit",
    bothSides: () => "no unit on one side alone",
    spendAtMost: () => (figure === 0 ? "nothing to buy" : `${money(figure, currency)} to spend at most`),
    extraBoxesAtMost: () =>
      figure === 0 ? "no more boxes" : `${count(figure, "more box", "more boxes")} at most`,
    outletsAtMost: () => `${count(figure, "outlet")} of the supply at most`,
    milliampsAtMost: () => `${trimmed(figure, 1)} mA at most`,
    boardCm2AtMost: () => `${trimmed(figure, 1)} cm2 of the board at most`,
    monoLossDbAtMost: () => `${fixed(figure, 1)} dB lost in mono at most`,
  };
  return phrases[ask]();
}

import type { HandWiring } from "../model/rig.js";

type Ends = HandWiring["cables"][number];

/** A cable as it stands in a rig file: "take:out > split:in". */
export const cableText = ({ from, to }: Ends): string => `${from} > ${to}`;

/** Its two ends, "box:jack" without spaces around the colon; what is no cable has empty ones. */
export function cableEnds(text: string): Ends {
  const [from = "", to = ""] = text.split(">").map((end) => end.trim().replace(/\s*:\s*/, ":"));
  return { from, to };
}

import { andList } from "../text/words.js";
import type { AskedRecording } from "../work/proof/recordingList.js";

/** "everything on", "Undertow and Ledger off", "all off, tone into the left alone". */
export function recordingWords({ offLabels, feed }: Pick<AskedRecording, "offLabels" | "feed">): string {
  const state = offLabels.length === 0 ? "everything on" : `${andList(offLabels)} off`;
  return feed === "both" ? state : `${state}, tone into the ${feed} input alone`;
}

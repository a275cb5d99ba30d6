import { capital, ended } from "../text/words.js";

/** A choice that was listened to, and how. */
export interface Heard {
  readonly take: string;
  readonly label: string;
  /** All choices at one loudness. */
  readonly matched: boolean;
  /** In mono. */
  readonly folded: boolean;
}

/** What whoever listened has to say. */
export interface Reply {
  readonly rig: string;
  /** In words; null where nothing is chosen. */
  readonly pick: string | null;
  readonly remark: string;
  /** Each once, in the order in which they were heard. */
  readonly heard: readonly Heard[];
  /** What came of blind trials, a sentence each. */
  readonly trials: readonly string[];
  /** False where the rig was changed after the page was made. */
  readonly isAsItCame: boolean;
  readonly date: Date;
}

export const replySubject = ({ rig }: Pick<Reply, "rig">): string => `${rig}: which wiring I like`;

/** A reply as plain text, to be sent back to who made the page. */
export function replyText(reply: Reply): string {
  const { pick, remark, heard, trials, isAsItCame, date } = reply;
  const own = remark.trim();
  return [
    `${replySubject(reply)}\n`,
    `I like: ${pick ?? "nothing chosen yet"}`,
    ...(own === "" ? [] : [`Remark: ${own}`]),
    "",
    ...(heard.length === 0 ? ["Heard: nothing yet."] : heardLines(heard)),
    ...trials.map((trial) => `Blind trial: ${trial}`),
    ...(isAsItCame ? [] : ["The rig was changed on the page: this is of the changed rig."]),
    `${new Intl.DateTimeFormat("en-GB", { dateStyle: "long" }).format(date)}\n`,
  ]
    .join("\n")
    .replaceAll("\u00a0", " ");
}

/** A line for each way of listening. */
function heardLines(heard: readonly Heard[]): readonly string[] {
  const lines = new Map<string, string[]>();
  for (const { take, label, matched, folded } of heard) {
    const level = matched ? "matched in loudness" : "as wired, not matched in loudness";
    const how = `heard on ${take}, ${level}${folded ? ", folded to mono" : ""}`;
    lines.set(how, [...(lines.get(how) ?? []), label]);
  }
  return [...lines].map(([how, labels]) => ended(`${capital(how)}: ${labels.join("; ")}`));
}

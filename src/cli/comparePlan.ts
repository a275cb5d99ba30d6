import { existsSync, readdirSync } from "node:fs";
import { recordingIds } from "../node/recordings/readRecordings.js";
import { takenIds } from "../rig/file/references.js";
import { chooseRoutings } from "../rig/routings/chooseRoutings.js";
import { routingsOf } from "../rig/routings/routingsOf.js";
import { wrapped } from "../text/columns.js";
import { count, duration, fixed } from "../text/numbers.js";
import type { CompareJob } from "./prepareCompare.js";

/** What a comparison would do. */
export interface ComparePlan {
  readonly outDir: string;
  readonly filesThere: number;
  readonly routings: readonly {
    readonly id: string;
    readonly label: string;
    readonly reason: string | null;
  }[];
  readonly recordings: readonly { readonly id: string; readonly file: string }[];
  readonly reference: string | null;
  readonly takes: number;
  /** Of all takes together. */
  readonly takeSeconds: number;
  readonly longestTailSeconds: number;
  /** With the longest tail; the real one is mostly shorter. */
  readonly mostBytes: number;
}

/** @throws UserError for words that `compare` would refuse */
export function comparePlan(options: CompareJob): ComparePlan {
  const { rig, outDir, bits, tailSeconds } = options;
  const takes = [options.take, ...options.moreTakes];
  const also = options.also ?? [];
  const ids = recordingIds(also, [...takenIds, ...routingsOf(rig).map(({ id }) => id)]);
  const recorded = ids.find((id) => id === options.reference) ?? null;
  const { routings, reference } = chooseRoutings(
    rig,
    options.routings,
    recorded ? null : options.reference,
    options.plans,
  );
  const possible = routings.filter(({ wiring }) => wiring !== null).length + also.length;
  const frames = takes.reduce((sum, take) => sum + take.frames + tailSeconds * take.rateHz, 0);
  // A stereo file and a mono one for each, and the dry take in stereo.
  const channels = 3 * possible + 2;
  return {
    outDir,
    filesThere: existsSync(outDir) ? readdirSync(outDir).filter((name) => !name.startsWith(".")).length : 0,
    routings: routings.map(({ id, label, reason }) => ({ id, label, reason })),
    recordings: also.map(({ file }, n) => ({ id: ids[n], file })),
    reference: recorded ?? reference?.id ?? null,
    takes: takes.length,
    takeSeconds: takes.reduce((sum, take) => sum + take.frames / take.rateHz, 0),
    longestTailSeconds: tailSeconds,
    mostBytes: Math.ceil(frames * channels * (bits / 8)),
  };
}

export function planText(plan: ComparePlan, columns: number): string {
  const possible = plan.routings.filter(({ reason }) => reason === null);
  const not = plan.routings.filter(({ reason }) => reason !== null);
  const there = plan.filesThere > 0 ? `, which holds ${count(plan.filesThere, "file")} now` : "";
  const lines = [
    `into ${plan.outDir}${there}`,
    `${duration(plan.takeSeconds)} of ${plan.takes === 1 ? "take" : `${plan.takes} takes`} and at most ${duration(plan.longestTailSeconds)} of tail${plan.takes === 1 ? "" : " each"}`,
    `${count(possible.length, "routing")}: ${possible.map(({ id }) => id).join(", ")}`,
    ...plan.recordings.map(({ id, file }) => `beside them ${id}, recorded: ${file}`),
    ...(plan.reference === null ? [] : [`compared with ${plan.reference}`]),
    `at most ${fixed(plan.mostBytes / 1e6, 0)} MB of files`,
    ...not.map(({ id, reason }) => `not ${id}: ${reason}`),
  ];
  return [
    "Nothing was rendered or written. This would be done:",
    ...lines.map((line) => wrapped(line, columns, 4, "  ")),
  ].join("\n");
}

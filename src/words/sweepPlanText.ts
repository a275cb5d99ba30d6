import { wrapped } from "../text/columns.js";
import { count, duration } from "../text/numbers.js";
import type { CommandLine } from "../text/shellWord.js";
import type { ResultsHead } from "../work/sweep/resultsHead.js";
import type { Shard, SweepLayout } from "../work/sweep/sweepLayout.js";
import type { SweepReport } from "../work/sweep/sweepReport.js";

/** A sweep that is thought out. */
interface Outline {
  readonly options: { readonly outDir: string };
  readonly head: ResultsHead;
  readonly layout: SweepLayout;
}

/** What would be done, or in short what is about to be. */
export function sweepPlanText(
  { options, head, layout }: Outline,
  { results, seconds }: { readonly results: number; readonly seconds: number },
  columns: number,
  how: "long" | "short" = "long",
): string {
  const { plan, shard } = head;
  const part = shard === null ? "" : `, part ${shard.part} of ${shard.of}`;
  const about = `${count(results, "result")}${part}: about ${duration(Math.max(0.1, seconds))}`;
  if (how === "short")
    return wrapped(`${about}. Results go to ${options.outDir} as they come; --resume goes on.`, columns);
  const tail = (plan.frames - head.take.frames) / head.take.rateHz;
  const lines = [
    "Nothing was computed or written. This would be done:",
    `  into ${options.outDir}`,
    `  ${count(layout.places.length, "setting")} by ${count(plan.routings.length, "routing")}; ${about}`,
    `  each ${duration(head.take.frames / head.take.rateHz)} of take and ${duration(tail)} of tail`,
    ...plan.groups.map(
      (group) =>
        `  ${group.map(({ path, values }) => `${path}: ${values[0]}${values.length > 1 ? ` to ${values.at(-1)}` : ""}`).join(", with ")}, ${count(group[0]?.values.length ?? 0, "step")}`,
    ),
    ...(plan.tolerance ? [`  ${plan.tolerance.draws} second units within ${plan.tolerance.percent} %`] : []),
    ...layout.families.map(({ routings, structural, rendered }) => {
      const mixed = plan.groups.filter((_, g) => !structural.includes(g));
      const knobs = mixed.flat().map(({ path }) => path);
      return rendered
        ? `  rendered one by one: ${routings.join(", ")}`
        : `  mixed from stems: ${routings.join(", ")}; mixer settings there: ${knobs.join(", ") || "all"}`;
    }),
  ];
  return lines.map((line) => wrapped(line, columns, 4)).join("\n");
}

/** After a part is done. */
export function partText(
  { computed, resumed, files }: { computed: number; resumed: number; files: readonly string[] },
  { seconds, outDir, shard }: { seconds: number; outDir: string; shard: Shard | null },
  command: CommandLine,
): string {
  return [
    `Part ${shard?.part} of ${shard?.of}: ${count(computed, "result")} in ${duration(seconds)}${resumed > 0 ? `, ${resumed} done before` : ""}.`,
    `Written to ${outDir}: ${files.join(", ")}.`,
    `When all parts are there: ${command("merge", `${outDir}/`)}part-*-of-${shard?.of}.jsonl`,
  ].join("\n");
}

/** What was written, and what to do next. */
export function sweepClosing(
  done: {
    readonly report: SweepReport;
    readonly outDir: string;
    readonly files: readonly string[];
    readonly seconds: number;
    readonly computed: number;
    readonly resumed: number;
    /** How the best can be heard, where no files of them were written. */
    readonly toHear: string;
  },
  columns: number,
): string {
  const { toHear, report, outDir, files, seconds, computed, resumed } = done;
  const { algebra, rendered, draws } = report.counts;
  const ways = [
    algebra > 0 ? `${algebra} mixed from stems` : "",
    rendered > 0 ? `${rendered} rendered` : "",
    draws > 0 ? `${draws} draws of second units` : "",
    resumed > 0 && computed > 0 ? `${resumed} done before` : "",
  ].filter((way) => way !== "");
  const hears = files.includes("best/");
  return [
    `${ways.join(", ")}, in ${duration(seconds)}.`,
    `Written to ${outDir}: ${files.join(", ")}.`,
    hears
      ? `Hear the best: open ${outDir}/best/report.html; turn the volume down first, loud sound harms hearing for good. Set by hand: ${outDir}/best.yaml. See and hear every setting: open ${outDir}/page/report.html`
      : toHear,
  ]
    .map((line) => wrapped(line, columns, 2))
    .join("\n");
}

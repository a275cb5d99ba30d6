import type { Command } from "commander";
import { jsonOf } from "../../text/json.js";
import { newCommand, showFor } from "../command.js";
import { print } from "../output.js";
import { shared } from "../sharedOptions.js";

export function addBench(program: Command): void {
  newCommand(
    program,
    "bench",
    "A page on which a rig is made, changed, heard and sent: one file, for any browser, without a terminal.",
    "splitsum bench\nsplitsum bench my-rig/ferry-road.yaml verse.wav --out my-rig.html",
  )
    .argument(
      "[rig]",
      'rig file, also with faults; "-" reads standard input; without one: an empty board and examples',
    )
    .argument("[takes...]", "dry takes; the rig's own when left out, else those of the examples")
    .option("-o, --out <file>", "page to write", "bench.html")
    .option("-f, --force", "replace a page of that name that is as it was written")
    .addOption(shared.tail())
    .option("--json", "print JSON: what was written")
    .action(bench);
}

interface Words {
  readonly out: string;
  readonly force?: boolean;
  readonly tail: number;
  readonly json?: boolean;
}

async function bench(rigFile: string | undefined, takeFiles: string[], words: Words, command: Command) {
  const show = showFor(command);
  const { benchPage, demoRigs, writeOwn } = await import("../work.js");
  const { out, force = false, tail } = words;
  const { html, faults, takes } = await benchPage({
    rigFile: rigFile ?? null,
    takeFiles,
    examples: demoRigs(),
    tailSeconds: tail,
  });
  writeOwn([{ path: out, content: html }], { force });
  for (const fault of faults) show.note(fault);
  if (words.json) {
    return print(jsonOf({ schemaVersion: 1, page: out, takes, faults }));
  }
  const mend =
    faults.length > 0 ? " The faults of the rig above are shown on it, each where it is mended." : "";
  print(
    `Written: ${out} (${(html.length / 1e6).toFixed(1)} MB). Open it in a browser; it needs nothing else.${mend}`,
  );
}

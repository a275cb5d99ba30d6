import type { Command } from "commander";
import { newCommand, showFor } from "../command.js";
import { print } from "../output.js";
import { shared } from "../sharedOptions.js";

export function addOptions(program: Command): void {
  newCommand(
    program,
    "options",
    "The ways to wire a rig: what each needs, costs and risks, with patch list and parts list.",
    "splitsum options my-rig/ferry-road.yaml --routings parallel,dual-mono",
  )
    .argument("<rig>", 'rig file; "-" reads standard input')
    .addOption(shared.routings())
    .option("--json", "print JSON")
    .action(options);
}

async function options(
  rigFile: string,
  words: { routings?: readonly string[]; json?: boolean },
  command: Command,
) {
  const { terminal, paint } = showFor(command);
  const { readRig } = await import("../../node/rig/readRig.js");
  const { optionsOf } = await import("../../work/options/optionsOf.js");
  const found = optionsOf(await readRig(rigFile), words.routings ?? null);
  if (words.json) {
    const { jsonOf } = await import("../../text/json.js");
    return print(jsonOf(found));
  }
  const { optionsText } = await import("../../words/optionsText.js");
  print(optionsText(found, terminal.columns, paint));
}

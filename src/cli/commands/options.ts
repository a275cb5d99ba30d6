import type { Command } from "commander";
import { mostMixedPlans } from "../../rig/model/bounds.js";
import { jsonOf } from "../../text/json.js";
import { newCommand, showFor } from "../command.js";
import { print } from "../output.js";
import { morePlans, type PlanWords } from "../planWords.js";
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
    .addOption(shared.plans())
    .addOption(shared.place())
    .option("--all", "every plan in one list, and why others are left out; no sheets")
    .option("--json", "print JSON")
    .action(options);
}

interface Words extends PlanWords {
  readonly all?: boolean;
  readonly json?: boolean;
}

async function options(rigFile: string, words: Words, command: Command) {
  const { terminal, paint } = showFor(command);
  const { readRig, optionsOf } = await import("../work.js");
  const more = morePlans(words.all ? { ...words, plans: mostMixedPlans } : words);
  const found = optionsOf(await readRig(rigFile), words.routings ?? null, more);
  if (words.json) {
    return print(jsonOf(found));
  }
  const { allPlansText, optionsText } = await import("../work.js");
  print((words.all ? allPlansText : optionsText)(found, terminal.columns, paint));
}

import type { Command } from "commander";
import { jsonOf } from "../../text/json.js";
import { commandLine } from "../calledAs.js";
import { newCommand } from "../command.js";
import { print } from "../output.js";

export function addInit(program: Command): void {
  newCommand(
    program,
    "init",
    "Write a demo rig and a dry take to start from.",
    "splitsum init my-rig\nsplitsum compare my-rig/ferry-road.yaml",
  )
    .argument("[folder]", "made if it is not there", "splitsum-demo")
    .option("-f, --force", "replace files of the same names that are as they were written")
    .option("--json", "print JSON: what was written")
    .action(init);
}

async function init(folder: string, words: { force?: boolean; json?: boolean }) {
  const { writeDemo } = await import("../work.js");
  const written = writeDemo(folder, { force: words.force ?? false });
  if (words.json) {
    return print(jsonOf({ schemaVersion: 1, folder, written }));
  }
  print(
    `Written:\n${written.map((file) => `  ${file}`).join("\n")}\n\nNext: ${commandLine("compare", written[0])}`,
  );
}

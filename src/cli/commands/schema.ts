import type { Command } from "commander";
import { jsonOf } from "../../text/json.js";
import { newCommand } from "../command.js";
import { print } from "../output.js";

export function addSchema(program: Command): void {
  newCommand(
    program,
    "schema",
    "JSON Schema of the rig file: editors complete and check with it.",
    "splitsum schema > rig.schema.json",
  )
    .option("--json", "the schema is JSON in any case")
    .action(schema);
}

async function schema() {
  const { rigJsonSchema } = await import("../work.js");
  print(jsonOf(rigJsonSchema()));
}

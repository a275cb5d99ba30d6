import { pedalModels } from "../pedals/models.js";
import { anyPedalSchema } from "./pedalSchema.js";
import { rigSchema } from "./rigSchema.js";
import { z } from "./zod.js";

/**
 * JSON Schema (2020-12) of a rig file, for editors: settings by model, with bounds, defaults and what each does.
 *
 * @example
 * ```ts
 * import { rigJsonSchema } from "splitsum";
 * console.log(JSON.stringify(rigJsonSchema(), null, 2));
 * ```
 */
export function rigJsonSchema(): Record<string, unknown> {
  const { $schema, ...rest } = z.toJSONSchema(rigSchema(anyPedalSchema(pedalModels)), { io: "input" });
  return { $schema, title: "splitsum rig file", ...rest };
}

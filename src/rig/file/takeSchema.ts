import type { TakeLoad } from "../model/rig.js";
import { mapField, numberField, textField } from "./fields.js";
import { ohmsBounds } from "./levelSchema.js";
import { z } from "./zod.js";

/** The dry recording of a rig, and what it was played into. */
export interface WrittenTake {
  readonly file: string | null;
  readonly into: TakeLoad;
}

/** The name of a file, or a map with that and the load. */
export function takeSchema() {
  const owner = "a take";
  const file = textField({ owner: "a rig", key: "take" }, 1000);
  const into = mapField(
    { owner, key: "into" },
    {
      ohms: numberField({ owner, key: "ohms" }, ohmsBounds)
        .nullish()
        .describe("of the input; left out: 1 megohm, assumed"),
      picofarads: numberField({ owner, key: "picofarads" }, { min: 0, max: 1e5 })
        .nullish()
        .describe("of the cable; left out: as the rig's instrument cable"),
    },
  );
  const map = mapField(
    { owner: "a rig", key: "take" },
    {
      file: textField({ owner, key: "file" }, 1000).nullish().describe("beside the rig file"),
      into: into.nullish().describe("what the instrument was played into"),
    },
  );
  // Whatever is no map was meant as a file's name.
  const error = ({ input }: { input?: unknown }) => file.safeParse(input).error?.issues[0].message;
  return z
    .union([file, map], { error })
    .nullish()
    .transform((written): WrittenTake => {
      if (typeof written === "string") return { file: written, into: unknown };
      return {
        file: written?.file ?? null,
        into: { ohms: written?.into?.ohms ?? null, picofarads: written?.into?.picofarads ?? null },
      };
    });
}

const unknown: TakeLoad = { ohms: null, picofarads: null };

import { parseRig } from "../../../src/rig/file/parseRig.js";
import { UserError } from "../../../src/text/userError.js";

/** The lines of message that a rig text gives; none when it is a good rig. Anything but a `UserError` is thrown on. */
export function faultsOf(text: string): readonly string[] {
  try {
    parseRig(text, "rig.yaml");
    return [];
  } catch (error) {
    if (!(error instanceof UserError)) throw error;
    return error.message.split("\n");
  }
}

/** A good rig with `extra` lines behind it, and `settings` in its tremolo. */
export const goodRig = (extra = "", settings = ""): string =>
  `name: Test
pedals:
  - { name: Swing, model: tremolo, jacks: mono-to-stereo, settings: { ${settings} } }
  - { name: Echo, model: delay, jacks: mono }
${extra}`;

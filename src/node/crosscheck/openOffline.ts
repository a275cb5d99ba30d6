import type { OpenOffline } from "../../sound/standard/loop.js";
import { UserError } from "../../text/userError.js";
import { codeOf } from "../files/fileFault.js";

/**
 * The OfflineAudioContext of the library `web-audio-api`: an implementation of the standard by other hands.
 * The library is loaded only now: it is an optional package, and a heavy one.
 * @throws UserError when the package is not installed
 */
export async function openOffline(): Promise<OpenOffline> {
  const { OfflineAudioContext } = await load();
  return (channels, frames, rateHz) => new OfflineAudioContext(channels, frames, rateHz);
}

async function load(): Promise<typeof import("web-audio-api")> {
  try {
    return await import("web-audio-api");
  } catch (error) {
    if (codeOf(error) !== "ERR_MODULE_NOT_FOUND") throw error;
    throw new UserError(
      "the cross-check needs the optional package web-audio-api, which is not installed. Run npm install web-audio-api.",
      1,
    );
  }
}

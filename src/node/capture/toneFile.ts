import { closeSync, fstatSync, readFileSync } from "node:fs";
import { UserError } from "../../text/userError.js";
import { type ToneSettings, toneSettingsOf, toneSettingTable } from "../../work/capture/toneSettings.js";
import { fileFault } from "../files/fileFault.js";
import { openRegular } from "../files/openRegular.js";

/**
 * The settings of a tone from the description file that was written beside it.
 *
 * @throws UserError when it cannot be read, or describes no tone
 */
export function readToneFile(file: string): ToneSettings {
  const tone = toneIn(textOf(file), file);
  const given: Partial<Record<keyof ToneSettings, number>> = {};
  for (const key of Object.keys(toneSettingTable)) {
    const value: unknown = Reflect.get(tone, key);
    if (!isToneKey(key)) continue;
    if (typeof value !== "number") {
      throw new UserError({ file, message: `its tone has no number for ${key}. ${whatToGive}` });
    }
    given[key] = value;
  }
  return toneSettingsOf(given);
}

const whatToGive = "Give the .json file that `capture tone` wrote beside the tone.";

const isToneKey = (key: string): key is keyof ToneSettings => key in toneSettingTable;

/** A tone takes a few hundred bytes. */
const mostBytes = 1_000_000;

function textOf(file: string): string {
  const handle = openRegular(file, "a description of a tone");
  try {
    if (fstatSync(handle).size <= mostBytes) return readFileSync(handle, "utf8");
  } catch (error) {
    throw fileFault(error, file, "read");
  } finally {
    closeSync(handle);
  }
  throw new UserError({
    file,
    message: `is no description of a tone: it is larger than 1 MB. ${whatToGive}`,
  });
}

function toneIn(text: string, file: string): object {
  let described: unknown;
  try {
    described = JSON.parse(text);
  } catch {
    throw new UserError({ file, message: `is not JSON. ${whatToGive}` });
  }
  const tone: unknown =
    typeof described === "object" && described !== null && "tone" in described && described.tone;
  if (typeof tone === "object" && tone !== null) return tone;
  throw new UserError({ file, message: `describes no tone. ${whatToGive}` });
}

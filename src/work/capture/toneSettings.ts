import type { Settings } from "../../sound/dsp/kernel.js";
import { UserError } from "../../text/userError.js";

/** What a person may set of the test tone. One table for help, messages and checks. */
export const toneSettingTable = {
  rateHz: {
    default: 48_000,
    min: 8_000,
    max: 192_000,
    whole: true,
    says: "sample rate of the tone and of the recording",
  },
  fromHz: { default: 20, min: 5, max: 2_000, log: true, says: "where the sweep starts" },
  toHz: {
    default: 20_000,
    min: 500,
    max: 90_000,
    log: true,
    says: "where the sweep ends, at most 0.49 of the rate",
  },
  lengthSeconds: { default: 10, min: 0.5, max: 60, says: "length of one sweep" },
  levelDbfs: { default: -12, min: -60, max: -1, says: "peak level of the sweep" },
  repeats: { default: 2, min: 1, max: 16, whole: true, says: "sweeps, one after the other" },
  leadInSeconds: { default: 1, min: 0.2, max: 10, says: "silence ahead of the first mark" },
  gapSeconds: {
    default: 3,
    min: 0.2,
    max: 20,
    says: "silence after every mark and sweep; longer than the unit rings",
  },
} as const;

export type ToneSettings = Settings<typeof toneSettingTable>;

/**
 * The tone's settings with every default filled in, each within its bounds.
 *
 * @throws UserError naming every setting out of its range, with the range
 */
export function toneSettingsOf(given: Partial<ToneSettings> = {}): ToneSettings {
  const faults: string[] = [];
  const take = (key: keyof ToneSettings): number => {
    const { default: usual, min, max } = toneSettingTable[key];
    const value = given[key] ?? usual;
    if (!(value >= min && value <= max)) faults.push(`${key} is ${value}; it goes from ${min} to ${max}.`);
    const whole = "whole" in toneSettingTable[key];
    if (whole && !Number.isInteger(value)) faults.push(`${key} is ${value}; write a whole number.`);
    return value;
  };
  const settings: ToneSettings = {
    rateHz: take("rateHz"),
    fromHz: take("fromHz"),
    toHz: take("toHz"),
    lengthSeconds: take("lengthSeconds"),
    levelDbfs: take("levelDbfs"),
    repeats: take("repeats"),
    leadInSeconds: take("leadInSeconds"),
    gapSeconds: take("gapSeconds"),
  };
  const { rateHz, fromHz, toHz } = settings;
  const highest = 0.49 * rateHz;
  if (toHz > highest) {
    faults.push(
      `toHz is ${toHz}; at ${rateHz} Hz a sweep can reach ${highest} Hz. Lower toHz or raise rateHz.`,
    );
  }
  if (toHz < 4 * fromHz) {
    faults.push(
      `toHz is ${toHz}, fromHz ${fromHz}; a sweep needs two octaves. Write at least ${4 * fromHz} for toHz.`,
    );
  }
  if (faults.length > 0) throw new UserError(faults.map((message) => ({ message })));
  return settings;
}

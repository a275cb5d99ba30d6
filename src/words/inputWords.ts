import { count, fixed } from "../text/numbers.js";

/** Why a browser does not let the page listen. */
export type InputRefusal = "no-way" | "denied" | "no-device" | "busy" | "gone";

/** What to do without the browser's help: for a take, and for the test tone. */
export const otherwiseWords = {
  take: "Or record with any recorder, at the highest quality that it has, and drop the file on this page: it goes the same way from there.",
  tone: "Or use the command line: splitsum capture tone writes the tone, any recorder records it, and splitsum capture response reads that and gives the same lines; the sound file that it writes is then brought in at its pedal, under The rig.",
} as const;

const reasons: Readonly<Record<InputRefusal, string>> = {
  "no-way":
    "This browser does not let a page that was opened from a file listen to an audio input. Open the page in another browser.",
  denied:
    "This page may not listen: the browser, or this machine, did not give the permission. Allow the microphone for this page (beside its address, or in the settings of browser and system), then ask again.",
  "no-device": "No audio input was found. Plug the interface in and switch it on, then ask again.",
  busy: "The audio input gives no sound: another program may have it. Close that one, or plug the interface in anew, then ask again.",
  gone: "The audio input is gone: it was unplugged or switched off. What was recorded till then is kept. Plug it in, then ask again.",
};

/** What is wrong, and how it is mended. */
export const refusalWords = (refusal: InputRefusal): string => reasons[refusal];

interface Loss {
  readonly atSeconds: number;
  readonly seconds: number;
}

/** Where the browser lost sound; nothing where it did not. */
export function lossNotices(losses: readonly Loss[]): readonly string[] {
  const [first] = losses;
  if (!first) return [];
  const lostMs = 1000 * losses.reduce((sum, { seconds }) => sum + seconds, 0);
  return [
    `By its own clock the browser lost sound in ${count(losses.length, "place")}, about ${Math.ceil(lostMs)} ms in all, first at about ${fixed(first.atSeconds, 1)} s: listen for a click or a jump there. Close what else is busy on this machine and record it again, or record with another program.`,
  ];
}

/** What a person should know of a recording. */
export function recordingNotices({
  losses,
  isFull,
  isGone,
  isSilent,
}: {
  readonly losses: readonly Loss[];
  readonly isFull: boolean;
  readonly isGone: boolean;
  readonly isSilent: boolean;
}): readonly string[] {
  return [
    ...lossNotices(losses),
    ...(isSilent
      ? ["Nothing but digital silence came in. Choose another input or channel, or look at the cable."]
      : []),
    ...(isFull ? ["It ended by itself: a page has no memory for a longer take of this rig."] : []),
    ...(isGone ? ["The input went away: this is what came in till then."] : []),
  ];
}

import { Option } from "commander";
import { takeChannels } from "../sound/audio/takeNotices.js";
import { listWord, numberWord, oneMore, plansWord } from "./optionWords.js";

/** Options that several commands have, each made anew for its command. */
export const shared = {
  takes:
    "dry recordings; the rig's own unless named; several: the answer holds over all (WAV, FLAC, MP3, AIFF, Ogg, M4A)",
  takeChannel: () =>
    new Option(
      "--take-channel <side>",
      "what of a stereo take goes in (default: both sides into an instrument with two outputs, else their mean)",
    ).choices(takeChannels),
  allowTruncated: () => new Option("--allow-truncated", "use what there is of a take that is cut off"),
  loading: () =>
    new Option(
      "--no-loading",
      "leave out of the sound what cables and inputs do to the instrument and take from boxes",
    ),
  routings: () =>
    new Option("--routings <words>", "these routings only, with commas between them").argParser(listWord),
  plans: () =>
    new Option(
      "--plans <which>",
      "plans that mix places of several mono units: all, same (none), or how many (default: 3)",
    ).argParser(plansWord),
  place: () => new Option("--place <places>", 'a plan of your own, as "Tank=beside, Grit=first"'),
  ask: () =>
    new Option(
      "--ask <ask>",
      'what the player will not give up, for the rig\'s own ask of that name: "spendAtMost=200", "order=Tank", "oneOfEach"; may be given again',
    ).argParser(oneMore),
  reference: () =>
    new Option("--reference <word>", "routing that width and tone are compared with (default: stereo-unit)"),
  tail: () =>
    new Option("--tail <seconds>", "longest tail after the take, in s")
      .argParser(numberWord(0, 600, "seconds"))
      .default(20),
} as const;

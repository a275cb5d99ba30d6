import { type Command, Option } from "commander";
import type { ResponseWords } from "../../node/capture/captureJobs.js";
import { jsonOf } from "../../text/json.js";
import { type ToneSettings, toneSettingTable } from "../../work/capture/toneSettings.js";
import { commandLine } from "../calledAs.js";
import { newCommand, showFor } from "../command.js";
import { numberWord } from "../optionWords.js";
import { print } from "../output.js";

export function addCapture(program: Command): void {
  const capture = newCommand(
    program,
    "capture",
    "Measure a real unit: its response, latency, polarity and gain.",
    "splitsum capture tone tone.wav\nsplitsum capture response recorded.wav --tone tone.json\nsplitsum capture align verse.wav verse-looped.wav",
  );
  addTone(capture);
  addResponse(capture);
  addAlign(capture);
}

function addTone(capture: Command): void {
  const command = newCommand(
    capture,
    "tone",
    "Write the test tone to play through the unit, with its description beside it.",
    "splitsum capture tone spring.wav --length 8 --level -18 --gap 4",
  )
    .argument("[file]", "WAV to write; its description gets the same name and .json", "tone.wav")
    .option("-f, --force", "replace files of the same names that are as they were written")
    .option("--json", "print the description as JSON");
  withToneWords(command, true).action(tone);
}

function addResponse(capture: Command): void {
  const command = newCommand(
    capture,
    "response",
    "Find the tone in a recording and write the unit's impulse response, with its facts.",
    "splitsum capture response spring-recorded.wav --tone spring.json --out tank.wav",
  )
    .argument("<recording>", "the tone through the unit: WAV, FLAC, AIFF; started before the tone")
    .option("--tone <file>", "description that `capture tone` wrote; or give its words below")
    .addOption(sideWord("--channel <side>", "side of a stereo recording (default: both, as a stereo unit)"))
    .addOption(sideWord("--reference-channel <side>", "side that recorded the tone by a plain cable"))
    .option(
      "--mix <share>",
      "what the unit's mix was set to when it was recorded; 1: fully wet",
      numberWord(0.01, 1, "of a mix"),
    )
    .option(
      "--latency <ms>",
      "what the unit's converters delay all that goes through it by",
      numberWord(0, 1000, "ms"),
    )
    .option("-o, --out <file>", "WAV to write (default: the recording's name and .response.wav)")
    .option("-f, --force", "replace a file of that name that is as it was written")
    .option("--json", "print JSON");
  withToneWords(command, false).action(response);
}

function addAlign(capture: Command): void {
  newCommand(
    capture,
    "align",
    "Latency, polarity and gain of a loop from a dry take and its recording through the loop.",
    "splitsum capture align verse.wav verse-looped.wav",
  )
    .argument("<dry>", "the take that was played into the loop")
    .argument("<looped>", "its recording through splitter, unit and mixer")
    .addOption(sideWord("--channel <side>", "side of a stereo loop (default: the mean of both)"))
    .option("--json", "print JSON")
    .action(align);
}

const sideWord = (flags: string, says: string) => new Option(flags, says).choices(["left", "right"]);

/** Word of the command line, unit, and setting of the tone. */
const toneWords = [
  ["rate", "Hz", "rateHz"],
  ["from", "Hz", "fromHz"],
  ["to", "Hz", "toHz"],
  ["length", "seconds", "lengthSeconds"],
  ["level", "dBFS", "levelDbfs"],
  ["repeats", "sweeps", "repeats"],
  ["leadIn", "seconds", "leadInSeconds"],
  ["gap", "seconds", "gapSeconds"],
] as const;
type ToneWords = Partial<Record<(typeof toneWords)[number][0], number>>;

function withToneWords(command: Command, showDefaults: boolean): Command {
  for (const [word, unit, key] of toneWords) {
    const { min, max, says, default: usual } = toneSettingTable[key];
    const flag = `--${word.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`)} <${unit}>`;
    const says2 = showDefaults ? `${says} (default: ${usual})` : says;
    command.option(flag, says2, numberWord(min, max, unit));
  }
  return command;
}

/** Only what was said: defaults are the tone's own. */
function toneSettingsIn(words: ToneWords): Partial<ToneSettings> {
  return Object.fromEntries(
    toneWords.flatMap(([word, , key]) => (words[word] === undefined ? [] : [[key, words[word]]])),
  );
}

async function tone(file: string, words: ToneWords & { force?: boolean; json?: boolean }, command: Command) {
  const { terminal } = showFor(command);
  const { captureTone } = await import("../work.js");
  const written = captureTone(file, toneSettingsIn(words), words.force ?? false);
  if (words.json) return printJson(written);
  const { toneText } = await import("../work.js");
  print(toneText(written, terminal.columns, commandLine));
}

async function response(
  recording: string,
  { latency, ...words }: ToneWords & ResponseWords & { latency?: number; json?: boolean },
  command: Command,
) {
  const { terminal, progress } = showFor(command);
  const { captureResponse } = await import("../work.js");
  const bar = progress("measuring");
  const captured = await captureResponse(recording, toneSettingsIn(words), {
    ...words,
    ...(latency !== undefined && { latencyMs: latency }),
  }).finally(bar.end);
  if (words.json) return printJson(captured);
  const { responseText } = await import("../work.js");
  print(responseText(captured, terminal.columns));
}

async function align(
  dry: string,
  looped: string,
  words: { channel?: "left" | "right"; json?: boolean },
  command: Command,
) {
  const { terminal, progress } = showFor(command);
  const { captureAlign } = await import("../work.js");
  const bar = progress("aligning");
  const found = await captureAlign(dry, looped, words).finally(bar.end);
  if (words.json) return printJson(found);
  const { alignText } = await import("../work.js");
  print(alignText(found, terminal.columns));
}

const printJson = (value: unknown): void => print(jsonOf(value));

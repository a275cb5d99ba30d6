import type { Command } from "commander";
import type { RigAndTake, TakeWords } from "../../node/rig/rigAndTake.js";
import type { PressWord } from "../../node/switches/writePresses.js";
import { jsonOf } from "../../text/json.js";
import { ended } from "../../text/words.js";
import type { StateChoice } from "../../work/switches/chooseStates.js";
import { newCommand, type Show, showFor } from "../command.js";
import { print } from "../output.js";
import { shared } from "../sharedOptions.js";
import { pressWord, statesWord } from "../switchWords.js";

export function addSwitches(program: Command): void {
  newCommand(
    program,
    "switches",
    "What every footswitch does in every routing: level jumps, lost width, combs, polarity, and cures.",
    "splitsum switches my-rig/ferry-road.yaml --render spring:off --out steps",
  )
    .argument("<rig>", 'rig file; "-" reads standard input')
    .argument("[take]", "dry recording; the rig's own unless named (WAV, FLAC, MP3, AIFF, Ogg, M4A)")
    .addOption(shared.routings())
    .option(
      "--states <states>",
      'all, each (one press from all on and all off), or who is off: "Chorus,Chorus+Delay" (default: all up to 6 switches)',
      statesWord,
    )
    .option("--render <press>", "write a WAV of this press in the middle of the take: chorus:off", pressWord)
    .option("-o, --out <folder>", "where --render writes (default: renders/, the rig's name and -switches)")
    .option("-f, --force", "replace files of the same names that an earlier run wrote")
    .addOption(shared.takeChannel())
    .addOption(shared.allowTruncated())
    .addOption(shared.loading())
    .option("--json", "print JSON")
    .action(switches);
}

interface Words extends TakeWords {
  readonly routings?: readonly string[];
  readonly states?: StateChoice;
  readonly render?: PressWord;
  readonly out?: string;
  readonly force?: boolean;
  readonly json?: boolean;
}

async function switches(rigFile: string, takeFile: string | undefined, words: Words, command: Command) {
  const show = showFor(command);
  const { readRigAndTake } = await import("../work.js");
  const reading = show.progress("reading the take");
  const job = await readRigAndTake(rigFile, takeFile ?? null, words).finally(reading.end);
  for (const notice of job.take.notices) show.note(`${job.take.file}: ${ended(notice)}`);
  const { measuredRoutings } = await import("../work.js");
  const out = words.out ?? (await usualFolder(job));
  if (words.render) await refusePress({ ...job, ...words, out, press: words.render });
  const routings = await measuredRoutings(job, words.routings ?? null);
  const { checkSwitchWord } = await import("../work.js");
  const wirings = routings.flatMap(({ wiring }) => wiring ?? []);
  for (const word of offWords(words.states)) checkSwitchWord(word, wirings);

  const written = words.render
    ? await renderPress({ ...job, ...words, out, routings, press: words.render }, show)
    : [];
  const { measureSwitches, stoppable } = await import("../work.js");
  const bar = show.progress("rendering");
  const found = await stoppable(
    (signal) =>
      measureSwitches({ ...job, routings, states: words.states ?? "usual", signal, onProgress: bar.at }),
    bar.end,
  ).finally(bar.end);
  if (words.json) {
    const { switchesJson } = await import("../work.js");
    for (const file of written) show.note(`Written: ${file}`);
    return print(jsonOf(switchesJson(found)));
  }
  const { sectionOf, switchesText } = await import("../work.js");
  const { basename } = await import("node:path");
  const { file, frames, rateHz } = job.take;
  const { loadingNote } = await import("../work.js");
  const head = {
    rig: job.rig.name,
    takeFile: basename(file),
    takeSeconds: frames / rateHz,
    loadingNote: loadingNote(job.rig, wirings),
  };
  print(switchesText(head, sectionOf(found), show.terminal.columns, show.paint));
  if (written.length > 0) {
    print(`\nWritten, with the press in the middle:\n${written.map((name) => `  ${name}`).join("\n")}`);
    print("Turn the volume down before you play: loud sound harms hearing for good.");
  }
}

type Press = RigAndTake &
  Pick<Words, "states" | "force" | "routings"> & { readonly out: string; readonly press: PressWord };

/** Before any work: files that may not be replaced stop all. */
async function refusePress({ rig, routings, press, states, out, force = false }: Press) {
  const { chooseRoutings, refusePresses } = await import("../work.js");
  const chosen = chooseRoutings(rig, routings ?? null, null).routings;
  refusePresses({ routings: chosen, press, off: firstState(states), outDir: out, force });
}

async function usualFolder({ rig }: RigAndTake): Promise<string> {
  const { safeFileName } = await import("../work.js");
  const { join } = await import("node:path");
  return join("renders", `${safeFileName(rig.name)}-switches`);
}

type RenderJob = Omit<Press, "routings"> & {
  readonly routings: Parameters<
    typeof import("../../node/switches/writePresses.js")["writePresses"]
  >[0]["routings"];
};

async function renderPress(job: RenderJob, show: Show): Promise<readonly string[]> {
  const { writePresses } = await import("../work.js");
  const bar = show.progress("rendering the press");
  return writePresses({
    ...job,
    off: firstState(job.states),
    outDir: job.out,
    force: job.force ?? false,
    onProgress: bar.at,
  }).finally(bar.end);
}

/** Pedals that are off in the first of the chosen states. */
const firstState = (states: StateChoice | undefined): readonly string[] =>
  typeof states === "object" ? (states[0] ?? []) : [];

const offWords = (states: StateChoice | undefined): readonly string[] =>
  typeof states === "object" ? states.flat() : [];

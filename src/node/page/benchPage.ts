import type { PageData } from "../../page/contract/pageData.js";
import { type EngineInputs, scriptIds } from "../../page/live/pageInputs.js";
import { checkRig } from "../../rig/file/parseRig.js";
import type { RigText } from "../../rig/file/rigText.js";
import type { Rig } from "../../rig/model/rig.js";
import { refuseSilent, type Take } from "../../sound/audio/take.js";
import { usualTakeChannel } from "../../sound/audio/takeIntake.js";
import { faultLine, UserError } from "../../text/userError.js";
import { benchTitle, plainBench } from "../../words/pageWords.js";
import { readTake } from "../audio/readTake.js";
import { readRigText } from "../rig/readRig.js";
import { loadClips } from "../rig/rigClips.js";
import { takePath } from "../rig/takePath.js";
import { clipsToTravel, takesToTravel } from "./engineInputs.js";
import { builtPage } from "./page.js";

/** What a bench begins with. */
export interface BenchSource {
  /** Path of a rig file, which may have faults: they are mended on the page. Null for an empty board. */
  readonly rigFile: string | null;
  /** Paths of takes; none: the rig's own, else those of the examples. */
  readonly takeFiles: readonly string[];
  /** Rigs to begin from where none is given, with the paths of their takes. */
  readonly examples: readonly (RigText & { readonly path: string })[];
  /** Tails are cut here at the latest. */
  readonly tailSeconds: number;
}

/** A bench as one HTML file, and what is to be told of it. */
export interface WrittenBench {
  readonly html: string;
  /** Faults of the rig, each a line. */
  readonly faults: readonly string[];
  readonly takes: readonly string[];
}

/**
 * The bench: a page on which a rig is made or changed, heard and sent, with rig, takes and engine in it.
 * @throws UserError when a file cannot be read, or a take is silent
 */
export async function benchPage(source: BenchSource): Promise<WrittenBench> {
  const { rigFile, takeFiles, examples, tailSeconds } = source;
  const rigText = rigFile === null ? emptyRig : { file: nameOf(rigFile), text: await readRigText(rigFile) };
  const { rig, faults } = checkRig(rigText.text, rigText.file);
  // Faults are mended on the page; in an empty file there is nothing to mend.
  if (rigText.text.trim() === "") throw new UserError(faults);
  const own = rigFile !== null && rig ? takePath(rig, rigFile) : null;
  const given = takeFiles.length > 0 ? takeFiles : own === null ? null : [own];
  const outputs = rig?.instrument.outputs ?? 1;
  const takes = given
    ? await Promise.all(given.map((file) => readTake(file, takeOptions(outputs))))
    : await exampleTakes(examples);
  for (const take of takes) refuseSilent(take);
  const clips = rig && takes[0] ? await loadClips(rig, rigFile, takes[0].rateHz) : new Map();
  const travelling = await takesToTravel(takes, mostChoices, tailSeconds);
  if (travelling.length < takes.length) throw tooLong(takes, travelling.length);
  const inputs: EngineInputs = {
    rig,
    rigText,
    tailSeconds,
    takes: travelling,
    recordings: [],
    clips: clipsToTravel(clips, takes[0]?.rateHz ?? 0),
  };
  const data: PageData = {
    report: null,
    opensOn: "everything",
    examples: rigFile === null ? examples.map(withoutPath) : [],
  };
  const html = builtPage({
    title: benchTitle,
    plain: plainBench,
    data: { [scriptIds.data]: data, [scriptIds.inputs]: inputs },
  });
  return {
    html,
    faults: rigFile === null ? [] : faults.map(faultLine),
    takes: takes.map(({ file }) => file),
  };
}

const nameOf = (path: string): string => (path === "-" ? "rig.yaml" : path.replace(/^.*[\\/]/, ""));
const withoutPath = ({ file, text }: RigText): RigText => ({ file, text });
const takeOptions = (outputs: 1 | 2) => ({ channel: usualTakeChannel(outputs), allowTruncated: false });

/** The takes of the examples, each once, as the rig that names it takes it in. */
async function exampleTakes(examples: BenchSource["examples"]): Promise<readonly Take[]> {
  const takes = new Map<string, Take>();
  for (const { file, text, path } of examples) {
    const { rig } = checkRig(text, file);
    const take = rig && takePath(rig, path);
    if (!take || takes.has(take)) continue;
    takes.set(take, await readTake(take, takeOptions(rigOutputs(rig))));
  }
  return [...takes.values()];
}

const rigOutputs = ({ instrument }: Rig): 1 | 2 => instrument.outputs;

function tooLong(takes: readonly Take[], travelling: number): UserError {
  const { file, frames, rateHz } = takes[travelling] ?? takes[0];
  const seconds = Math.round(frames / rateHz);
  const message = `is ${seconds} s long; a page has no room for it. Cut it to the bars that matter.`;
  return new UserError({ file, message });
}

/** Wirings that a bench renders at once, about: what a take's memory is reckoned for. */
const mostChoices = 12;

const emptyRig: RigText = {
  file: "rig.yaml",
  text: "# A rig: its pedals in the order of the signal.\nname: A new rig\npedals: []\n",
};

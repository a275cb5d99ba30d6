import type { Command } from "commander";
import { jsonOf } from "../../text/json.js";
import { UserError } from "../../text/userError.js";
import { commandLine } from "../calledAs.js";
import { newCommand, showFor } from "../command.js";
import { numberWord } from "../optionWords.js";
import { print } from "../output.js";

export function addProve(program: Command): void {
  newCommand(
    program,
    "prove",
    "Whether a board was built as drawn, from recordings of a test tone through it; where not, which slip it is.",
    "splitsum prove rig.yaml --plan parallel --plan-tones --out tones\nsplitsum prove rig.yaml 1.wav 2.wav 3.wav --plan parallel --out proof.html",
  )
    .argument("<rig>", 'rig file; "-" reads standard input')
    .argument("[recordings...]", "in the order of the list that --plan-tones writes: WAV, FLAC, AIFF")
    .requiredOption("--plan <word>", "routing or plan that was built: parallel, or any id of `options --all`")
    .option("--plan-tones", "write the tone and the list of what to record, into the folder of --out")
    .option("--tone <file>", "description that was written beside the tone (default: the usual tone)")
    .option(
      "-o, --out <path>",
      "with --plan-tones the folder to write into; else a sheet to write, HTML to print",
    )
    .option(
      "--source-ohms <ohms>",
      "resistance in series with the tone, by which a Y and a buffer differ (default: none)",
      numberWord(0, 1e6, "ohms"),
    )
    .option(
      "--noise-under <dB>",
      "hum and hiss must stay so far under the tone",
      numberWord(0, 120, "dB"),
      30,
    )
    .option("-f, --force", "replace files of the same names that are as they were written")
    .option("--json", "print JSON")
    .action(prove);
}

interface Words {
  readonly plan: string;
  readonly planTones?: boolean;
  readonly tone?: string;
  readonly out?: string;
  readonly sourceOhms?: number;
  readonly noiseUnder: number;
  readonly force?: boolean;
  readonly json?: boolean;
}

async function prove(rigFile: string, recordings: readonly string[], words: Words, command: Command) {
  const { readRig } = await import("../work.js");
  const rig = { rig: await readRig(rigFile), rigFile: rigFile === "-" ? null : rigFile };
  if (words.planTones) return planned(rigFile, rig, recordings, words, command);
  const { terminal, paint, progress, note } = showFor(command);
  if (words.out !== undefined && !/\.html?$/i.test(words.out))
    throw new UserError({ file: words.out, message: "is no name for an HTML page. End it in .html." });
  const { proveRig, refuseOther, writeOwn } = await import("../work.js");
  if (words.out !== undefined) refuseOther(words.out, words.force ?? false);
  const bar = progress("reading recordings");
  const report = await proveRig({
    ...rig,
    plan: words.plan,
    recordings,
    ...(words.tone === undefined ? {} : { toneFile: words.tone }),
    ...(words.sourceOhms === undefined ? {} : { sourceOhms: words.sourceOhms }),
    noiseUnderDb: words.noiseUnder,
    onProgress: bar.at,
  }).finally(bar.end);
  if (words.out !== undefined) {
    const { proofHtml } = await import("../work.js");
    writeOwn([{ path: words.out, content: proofHtml(report) }], { force: words.force ?? false });
    note(`${words.out}: the sheet, to print.`);
  }
  if (words.json) {
    return print(jsonOf(report));
  }
  const { proofText } = await import("../work.js");
  print(proofText(report, terminal.columns, paint));
}

type RigWords = Pick<
  Parameters<typeof import("../../node/proof/planTones.js").planTones>[0],
  "rig" | "rigFile"
>;

async function planned(
  rigFile: string,
  rig: RigWords,
  recordings: readonly string[],
  words: Words,
  command: Command,
) {
  if (recordings.length > 0)
    throw new UserError(
      "--plan-tones writes what to record, and takes no recordings. Leave one of the two out.",
    );
  if (words.out === undefined)
    throw new UserError("--plan-tones needs a folder to write into: add --out FOLDER.");
  const { terminal } = showFor(command);
  const { planTones } = await import("../work.js");
  const written = await planTones({
    ...rig,
    plan: words.plan,
    folder: words.out,
    force: words.force ?? false,
  });
  if (words.json) {
    return print(jsonOf({ schemaVersion: 1, ...written }));
  }
  const { plannedTonesText } = await import("../work.js");
  const files = written.list.map((_, n) => `${n + 1}.wav`);
  const next = commandLine(
    "prove",
    rigFile,
    ...files,
    "--plan",
    words.plan,
    "--tone",
    written.descriptionFile,
    "--out",
    "proof.html",
  );
  print(
    `${plannedTonesText(written, terminal.columns)}\n\nThis list stands in ${written.listFile}. Then:\n  ${next}`,
  );
}

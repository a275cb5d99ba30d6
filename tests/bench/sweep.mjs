// Sweeps by the command, as a person runs them, on a 60 s take: mixer settings by algebra against rendering and measuring
// each (timed on a sample), pedal settings on two threads against one, and peak memory by the number of settings.
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { writeClip } from "../../src/node/audio/writeClip.ts";
import { readRig } from "../../src/node/rig/readRig.ts";
import { routingsOf } from "../../src/rig/routings/routingsOf.ts";
import { initialiseFft } from "../../src/sound/dsp/fft.ts";
import { StereoMeter } from "../../src/sound/measure/stereoMeter.ts";
import { compile } from "../../src/work/render/compile.ts";
import { render } from "../../src/work/render/render.ts";
import { pluckedTake, ratio } from "./rounds.mjs";

const rateHz = 48_000;
const lengthSeconds = 60;
const rigFile = fileURLToPath(new URL("../../fixtures/rigs/ferry-road.yaml", import.meta.url));
const command = fileURLToPath(new URL("../../dist/cli/main.js", import.meta.url));
const mixed = ["parallel", "parallel-after"];

export async function benchSweep() {
  const folder = mkdtempSync(join(tmpdir(), "splitsum-bench-"));
  const take = pluckedTake(lengthSeconds, rateHz);
  writeClip(join(folder, "take.wav"), { rateHz, channels: [take] }, { bits: 24, force: false });
  const each = await secondsForEach(take);
  const many = run(folder, "many", ["--routings", mixed.join(), ...mixer(100, 100)]);
  const few = run(folder, "few", ["--routings", mixed.join(), ...mixer(10, 10)]);
  const pedals = [
    "--vary",
    "Ledger.delayMs=200..600/20",
    "--vary",
    "Boiler tank.mix=0.1..0.6/10",
    "--tail",
    "4",
  ];
  const short = ["--threads", "1"];
  const one = run(folder, "one", [...pedals, ...short]);
  const two = run(folder, "two", pedals);
  const alone = await secondsForOneSetting(take);
  rmSync(folder, { recursive: true });
  return [
    `sweep, 10,000 mixer settings x 2 routings, ${lengthSeconds} s: ${many.seconds.toFixed(1)} s in all (wanted under 15)`,
    `  against rendering and measuring each (${each.toFixed(2)} s a setting): ${ratio((20_000 * each) / many.seconds)} (wanted 2000)`,
    `  peak ${many.megabytes.toFixed(0)} MB, with 100 settings ${few.megabytes.toFixed(0)} MB (wanted within 10 %)`,
    `sweep, 200 pedal settings x 8 routings: two threads against one ${ratio(one.seconds / two.seconds)} (wanted 1.7)`,
    `  against each setting compared by itself on one thread (${alone.toFixed(1)} s): ${ratio((200 * alone) / one.seconds)} (wanted 1.5)`,
  ];
}

const mixer = (gains, pans) => [
  ...["--vary", `mixer.returnDb=-30..6/${gains}`],
  ...["--vary", `mixer.returnPan=-1..1/${pans}`],
];

/** Seconds to render and measure one setting of one routing, the mean of the two. */
async function secondsForEach(take) {
  await initialiseFft();
  const rig = await readRig(rigFile);
  const wirings = routingsOf(rig).filter(({ id }) => mixed.includes(id));
  const start = performance.now();
  for (const { wiring } of wirings) {
    const meter = new StereoMeter(rateHz);
    render(compile([wiring], { rateHz }), {
      take,
      rateHz,
      tail: { dropDb: 60, capSeconds: 10, silenceSeconds: 1 },
      sink: ([left, right], frames) => meter.push(left, right, frames),
    });
    meter.result();
  }
  return (performance.now() - start) / 1000 / wirings.length;
}

/** Seconds to render and measure all routings of one setting by themselves, the mean of three. */
async function secondsForOneSetting(take) {
  await initialiseFft();
  const rig = await readRig(rigFile);
  const wirings = routingsOf(rig).filter(({ wiring }) => wiring !== null);
  const rounds = 3;
  const start = performance.now();
  for (let round = 0; round < rounds; round++) {
    const meters = wirings.map(() => new StereoMeter(rateHz));
    render(
      compile(
        wirings.map(({ wiring }) => wiring),
        { rateHz },
      ),
      {
        take,
        rateHz,
        tail: { dropDb: 60, capSeconds: 4, silenceSeconds: 1 },
        sink: (outputs, frames) => {
          meters.forEach((meter, n) => {
            meter.push(outputs[2 * n], outputs[2 * n + 1], frames);
          });
        },
      },
    );
    for (const meter of meters) meter.result();
  }
  return (performance.now() - start) / 1000 / rounds;
}

/** Seconds and peak megabytes of one run of the command. */
function run(folder, name, words) {
  const script = `
    process.argv = [process.argv[0], ${JSON.stringify(command)}, ...JSON.parse(process.env.WORDS)];
    process.on("exit", () => process.stderr.write("\\npeak " + process.resourceUsage().maxRSS + "\\n"));
    await import(${JSON.stringify(command)});
  `;
  const all = ["sweep", rigFile, join(folder, "take.wav"), "--out", join(folder, name), "--quiet", ...words];
  const start = performance.now();
  const { status, stderr } = spawnSync(process.execPath, ["--input-type=module", "-e", script], {
    env: { ...process.env, WORDS: JSON.stringify(all) },
    encoding: "utf8",
  });
  const seconds = (performance.now() - start) / 1000;
  if (status !== 0) throw new Error(stderr);
  return { seconds, megabytes: Number(/peak (\d+)/.exec(stderr)?.[1]) / 1024 };
}

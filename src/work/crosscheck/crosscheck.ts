import type { Rig } from "../../rig/model/rig.js";
import type { PedalUse } from "../../rig/pedals/pedalModel.js";
import type { Routing } from "../../rig/routings/routing.js";
import type { Wiring } from "../../rig/wiring/wiring.js";
import type { HeldTake } from "../../sound/audio/takeSource.js";
import { initialiseFft } from "../../sound/dsp/fft.js";
import type { OpenOffline } from "../../sound/standard/loop.js";
import { type Nearness, type Renderer, rounding } from "../../sound/standard/nearness.js";
import { quirksOf } from "../../sound/standard/quirks.js";
import { BalanceCheck, type CheckedBalance } from "./balance.js";
import { byEngine } from "./byEngine.js";
import { afterSilence, leadFrames } from "./checkedSound.js";
import { type Difference, differenceOf, worstOf } from "./difference.js";
import type { JudgedBy, JudgedEffect } from "./judgedEffects.js";
import { SecondEngine } from "./secondEngine.js";

export interface CrosscheckOptions {
  readonly rig: Rig;
  readonly routings: readonly Routing[];
  readonly take: { readonly samples: HeldTake; readonly rateHz: number };
  /** Sound files that settings name, at the take's rate. */
  readonly clips: PedalUse["clips"];
  /** The engine to check against, and which sort it is. */
  readonly openContext: OpenOffline;
  readonly renderer: Renderer;
  /** Told the share that is done. */
  readonly onProgress?: (done: number, what: string) => void;
  /** What the second engine builds in a wiring's place: the wiring itself, unless a difference is there to be found. */
  readonly built?: (wiring: Wiring) => Wiring;
}

/** A pedal of a routing whose effect is heard, and how that was judged. */
export interface CheckedPedal {
  readonly name: string;
  readonly model: string;
  readonly by: JudgedBy;
  /** Why no standard nodes make its effect, as the end of a sentence; null where they do. */
  readonly why: string | null;
}

/** One routing, rendered twice; or why it was not. */
export interface CrosscheckedRouting extends Difference {
  readonly id: string;
  readonly label: string;
  /** How much was compared, tail included; 0 when nothing was. */
  readonly comparedSeconds: number;
  /** RMS of the loudest signal inside it; null when it was not compared. */
  readonly loudestDbfs: number | null;
  /** What the RMS of the difference may be at the most; null when it was not compared. */
  readonly targetDbfs: number | null;
  /** What sets that limit: "rounding", "Swirl: a delay that swings"; null when it was not compared. */
  readonly targetBy: string | null;
  readonly withinTarget: boolean | null;
  readonly pedals: readonly CheckedPedal[];
  /** Wet to dry of units whose return's level the rig leaves open. */
  readonly balance: readonly CheckedBalance[];
  /** Why it was not compared; null when it was. */
  readonly skipped: string | null;
}

/**
 * Every routing, rendered by the engine and by an implementation of the W3C Web Audio API, and how far the two are apart.
 * Of standard nodes are cables, splitters, sums, mixers, latencies, dry paths, levels, polarities, and every effect that
 * such nodes make. Another effect is a ConvolverNode with its own response where that tells all of it; else the engine's
 * own sound of it is played in its place, and what it would have heard is compared by itself. The engine reads swinging
 * delays by straight lines for this, as the standard's DelayNode does.
 */
export async function crosscheck(options: CrosscheckOptions): Promise<readonly CrosscheckedRouting[]> {
  const { rig, routings, clips, openContext, renderer, onProgress = () => {} } = options;
  const { samples, rateHz } = options.take;
  const sound = afterSilence({ take: samples, rateHz, clips });
  const wirings = routings.flatMap(({ wiring }) => wiring ?? []);
  await initialiseFft();
  const ours = wirings.length > 0 ? byEngine(rig, wirings, sound) : [];
  const whole = ours[0]?.[0].length ?? 0;
  const second = new SecondEngine({
    sound,
    frames: whole,
    openContext,
    quirks: await quirksOf(openContext, rateHz),
    mostConvolved:
      renderer === "library"
        ? mostConvolvedSeconds(samples.length / rateHz) * rateHz ** 2
        : Number.POSITIVE_INFINITY,
    built: options.built ?? ((wiring) => wiring),
  });
  const balances = new BalanceCheck(rig, (wiring) => second.played(wiring));
  const results: CrosscheckedRouting[] = [];
  for (const { id, label, wiring, reason, plan } of routings) {
    if (!wiring) {
      results.push({ id, label, ...nothing, skipped: reason ?? "it is not possible with this rig" });
      continue;
    }
    const place = wirings.indexOf(wiring);
    onProgress(place / wirings.length, id);
    await aTurn();
    const { played, effects, heardApart, loudestDbfs } = await second.compared(wiring);
    const frames = played[0].length;
    const here = ours[place].map((channel) => channel.subarray(0, frames));
    const difference = worstOf([differenceOf(here, played), heardApart]);
    const { nearDb, targetBy } = loosest(effects, renderer);
    const targetDbfs = loudestDbfs + nearDb;
    results.push({
      id,
      label,
      ...difference,
      comparedSeconds: (frames - leadFrames) / rateHz,
      loudestDbfs,
      targetDbfs,
      targetBy,
      withinTarget: difference.rmsDbfs === null || difference.rmsDbfs <= targetDbfs,
      pedals: named(effects),
      balance: await balances.of(wiring, plan),
      skipped: null,
    });
  }
  return results;
}

/**
 * Seconds of sound times seconds of response that a render may convolve: the library takes about 0.4 s for one. More is
 * granted to who has more of the take played.
 */
const mostConvolvedSeconds = (playedSeconds: number): number => Math.max(2.5, playedSeconds / 2) ** 2;

/** Lets what waits have its turn: a bar is drawn, a stop is heard. Rendering may not do so before it is done. */
const aTurn = () => new Promise((go) => setTimeout(go, 0));

const nothing = {
  rmsDbfs: null,
  peakDbfs: null,
  comparedSeconds: 0,
  loudestDbfs: null,
  targetDbfs: null,
  targetBy: null,
  withinTarget: null,
  pedals: [],
  balance: [],
};

/** The effect to which the second engine comes least near. */
function loosest(effects: readonly JudgedEffect[], renderer: Renderer) {
  const places = effects.map(({ box, nearness }) => ({ nearness, name: `${box.pedal.name}: ` }));
  const start: { readonly nearness: Nearness; readonly name: string } = { nearness: rounding, name: "" };
  const { nearness, name } = places.reduce(
    (worst, each) => (each.nearness[renderer] > worst.nearness[renderer] ? each : worst),
    start,
  );
  return { nearDb: nearness[renderer], targetBy: `${name}${nearness.why}` };
}

/** One row for boxes of one pedal. */
const named = (effects: readonly JudgedEffect[]): readonly CheckedPedal[] => [
  ...new Map(
    effects.map(({ box: { pedal }, by, why }) => [
      `${pedal.name}\n${by}\n${why}`,
      { name: pedal.name, model: pedal.model, by, why },
    ]),
  ).values(),
];

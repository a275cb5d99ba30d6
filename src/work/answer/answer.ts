import { chainOf } from "../../rig/model/chain.js";
import type { Place, Rig } from "../../rig/model/rig.js";
import type { Routing } from "../../rig/routings/routing.js";
import type { SheetPart } from "../../rig/wiring/parts.js";
import type { SheetSetting } from "../../rig/wiring/settingsList.js";
import type { Measures } from "../../sound/measure/measures.js";
import { type AskFound, type AskName, asksOf, brokenBy } from "./asks.js";
import { beats, choose, soundAlike, tie } from "./choose.js";
import { type Candidate, candidatesOf, type FoundRouting, type Merits, worstOf } from "./merits.js";

/** What a comparison found, as far as an answer goes. */
export interface FoundSounds {
  /** What width is compared with. */
  readonly reference: string | null;
  readonly routings: readonly FoundRouting[];
  /** The dry take as it goes in: a side share of 0 where both outputs of an instrument give the same. */
  readonly take?: { readonly measures: Pick<Measures, "sideShare"> };
}

/** Which wiring to build, and why: data, that command line, page and reply put into the same words. */
export interface Answer {
  /** Null where nothing can be chosen: no wiring is rendered. */
  readonly plan: AnswerPlan | null;
  /** True when it keeps every ask, as far as that is known. */
  readonly keepsAll: boolean;
  readonly next: (AnswerPlan & { readonly soundsAlike: boolean }) | null;
  readonly ruledOut: readonly RuledOut[];
  /** What every wiring that was rendered makes of the asks; empty lists where nothing is asked. */
  readonly held: readonly { readonly id: string; readonly asks: readonly AskFound[] }[];
  /** Where nothing keeps all: what giving up one ask alone would win, the most first. Else empty. */
  readonly givingUp: readonly GivingUp[];
  readonly toBuy: readonly SheetPart[];
  readonly toSet: readonly SheetSetting[];
  readonly reference: string | null;
  /** True where an instrument with two outputs was played alike on both: its own width is then in no figure. */
  readonly sidesPlayedAlike: boolean;
}

export interface AnswerPlan {
  readonly id: string;
  readonly label: string;
  readonly says: string;
  readonly merits: Merits;
  readonly asks: readonly AskFound[];
}

/** A wiring that is not the answer. */
export interface RuledOut {
  readonly id: string;
  readonly label: string;
  /** The ask that it breaks; the wiring that is at least as good in all; or what else speaks against it. */
  readonly why:
    | { readonly kind: "impossible" | "senseless" | "leans" | "not-for-sale"; readonly reason: string }
    | { readonly kind: "breaks"; readonly asks: readonly AskFound[] }
    | { readonly kind: "beaten"; readonly by: string; readonly merits: Merits }
    | { readonly kind: "after"; readonly merits: Merits };
}

export interface GivingUp {
  readonly ask: AskName;
  readonly unit: string | null;
  readonly wins: AnswerPlan;
}

/**
 * Of the wirings that keep all asks, one that no other beats in width kept, mono loss, cost and boxes; among those, by
 * what the player puts first (`choose`). A stereo unit that the rig does not name is the reference for width, not
 * something to buy, and sides that differ since one of them lacks a unit are no width: both are the answer only where
 * there is no other wiring. Where none keeps all asks, the one that breaks the fewest.
 *
 * @param others  the same wirings on other takes: each then counts by the worst that it gives on any
 */
export function answerOf(
  rig: Rig,
  routings: readonly Routing[],
  report: FoundSounds,
  others: readonly FoundSounds[] = [],
): Answer {
  const byId = new Map(report.routings.map((routing) => [routing.id, routing]));
  const rendered = overAll(
    [report, ...others].map((found) => candidatesOf(routings, found.routings, referenceIn(found))),
  );
  const sensible = rendered.filter(({ routing }) => routing.doubt === null);
  const free = sensible.filter(({ routing }) => !needsUnnamed(routing) && !leans(routing));
  const open = withWidth(rig, free.length > 0 ? free : sensible);
  const fewest = Math.min(...open.map((candidate) => brokenBy(rig, candidate).length));
  const chosen = choose(
    open.filter((candidate) => brokenBy(rig, candidate).length === fewest),
    rig.asks.first,
  );
  const hasUnits = chainOf(rig).units.length > 0;
  const described = (candidate: Candidate): AnswerPlan => planOf(rig, candidate);
  const next = chosen?.rest[0];
  const build = chosen && byId.get(chosen.best.routing.id)?.build;
  return {
    plan: chosen ? described(chosen.best) : null,
    keepsAll: fewest === 0,
    next:
      chosen && next
        ? { ...described(next), soundsAlike: soundAlike(chosen.best.merits, next.merits) }
        : null,
    // Where there is no unit, there is no place for one either, and nothing to rule out.
    ruledOut: routings
      .filter(({ wiring }) => hasUnits || wiring !== null)
      .flatMap((routing) => ruledOut(rig, routing, byId.get(routing.id), rendered, chosen)),
    held: rendered.map((candidate) => ({ id: candidate.routing.id, asks: asksOf(rig, candidate) })),
    givingUp: fewest === 0 ? [] : givingUp(rig, open),
    toBuy: build?.parts.filter(({ toBuy }) => toBuy > 0) ?? [],
    toSet: build?.settings ?? [],
    reference: report.reference,
    sidesPlayedAlike:
      rig.instrument.outputs === 2 && [report, ...others].some(({ take }) => take?.measures.sideShare === 0),
  };
}

const referenceIn = ({ reference, routings }: FoundSounds): Measures | null =>
  routings.find(({ id }) => id === reference)?.measures ?? null;

/** Candidates that there are on every take, each by its worst. */
const overAll = ([first, ...others]: readonly (readonly Candidate[])[]): readonly Candidate[] =>
  first.flatMap(({ routing, merits }): readonly Candidate[] => {
    const more = others.flatMap(
      (each) => each.find((other) => other.routing.id === routing.id)?.merits ?? [],
    );
    return more.length < others.length ? [] : [{ routing, merits: worstOf([merits, ...more]) }];
  });

/** To who asks for stereo a wiring without any width is no answer, unless there is no other. */
function withWidth(rig: Rig, candidates: readonly Candidate[]): readonly Candidate[] {
  if (rig.asks.stereo === null) return candidates;
  const wide = candidates.filter(({ merits: { width } }) => width === null || width > tie.width);
  return wide.length > 0 ? wide : candidates;
}

/** True where a unit's place is taken by a stereo unit that the rig does not name. */
const needsUnnamed = ({ plan }: Routing): boolean =>
  plan?.seats.some(({ place, takes }) => place === "stereo" && takes === null) ?? false;

/** True where one side lacks a unit that the other has. */
function leans({ plan }: Routing): boolean {
  const on = (side: Place) => plan?.seats.filter(({ place }) => place === side).length ?? 0;
  return on("left") !== on("right");
}

const planOf = (rig: Rig, candidate: Candidate): AnswerPlan => {
  const { id, label, says } = candidate.routing;
  return { id, label, says, merits: candidate.merits, asks: asksOf(rig, candidate) };
};

function ruledOut(
  rig: Rig,
  routing: Routing,
  report: FoundRouting | undefined,
  rendered: readonly Candidate[],
  chosen: ReturnType<typeof choose>,
): readonly RuledOut[] {
  const { id, label } = routing;
  const said = (why: RuledOut["why"]): readonly RuledOut[] => [{ id, label, why }];
  if (chosen?.best.routing.id === id || chosen?.rest[0]?.routing.id === id) return [];
  if (report === undefined || routing.reason !== null)
    return said({ kind: "impossible", reason: routing.reason ?? "It was not rendered." });
  if (routing.doubt !== null) return said({ kind: "senseless", reason: routing.doubt });
  if (leans(routing)) return said({ kind: "leans", reason: leaning });
  if (needsUnnamed(routing)) return said({ kind: "not-for-sale", reason: notForSale });
  const own = rendered.find((candidate) => candidate.routing.id === id);
  if (!own) return said({ kind: "impossible", reason: "It was not measured." });
  const asks = brokenBy(rig, own);
  if (asks.length > 0) return said({ kind: "breaks", asks });
  const better = chosen && [chosen.best, ...chosen.rest].find(({ merits }) => beats(merits, own.merits));
  if (better) return said({ kind: "beaten", by: better.routing.id, merits: own.merits });
  return said({ kind: "after", merits: own.merits });
}

const leaning = "One side lacks a unit that the other has: the image leans, which is not counted as width.";
const notForSale = "The rig names no stereo unit to buy; this one is the measure of width.";

/** For each ask: the best of those that break it and nothing else. */
function givingUp(rig: Rig, open: readonly Candidate[]): readonly GivingUp[] {
  const groups = new Map<string, { ask: AskName; unit: string | null; candidates: Candidate[] }>();
  for (const candidate of open) {
    const [only, ...more] = brokenBy(rig, candidate);
    if (!only || more.length > 0) continue;
    const key = `${only.ask} ${only.unit}`;
    const group = groups.get(key) ?? { ask: only.ask, unit: only.unit, candidates: [] };
    group.candidates.push(candidate);
    groups.set(key, group);
  }
  const best = [...groups.values()].flatMap(({ ask, unit, candidates }) => {
    const chosen = choose(candidates, rig.asks.first);
    return chosen ? [{ ask, unit, candidate: chosen.best }] : [];
  });
  const order = choose(
    best.map(({ candidate }) => candidate),
    rig.asks.first,
  );
  const ranked = order ? [order.best, ...order.rest] : [];
  return ranked.flatMap((candidate) =>
    best
      .filter((group) => group.candidate === candidate)
      .map(({ ask, unit }) => ({ ask, unit, wins: planOf(rig, candidate) })),
  );
}

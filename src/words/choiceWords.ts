import { andList, capital } from "../text/words.js";
import { meritsOf } from "../work/answer/merits.js";
import type { Report } from "../work/compare/report.js";
import { askPhrase } from "./askPhrases.js";
import { buildMerits, soundMerits } from "./meritWords.js";

/**
 * What a choice costs whoever plays, in a line: width, mono, boxes, money, and what it gives up of what was asked. Of the
 * take that is heard.
 */
export function choiceWords(report: Report, id: string): string {
  const { answer, routings, rig, take } = report;
  const found = routings.find((routing) => routing.id === id);
  if (!found) return dryWords;
  const { measures, build, says } = found;
  if (!measures || !build) return says;
  const reference = routings.find((routing) => routing.id === report.reference)?.measures ?? null;
  const merits = meritsOf({ measures, build }, reference);
  const about = { rig: rig.name, takes: [take.file], currency: build.currency };
  const why = answer.ruledOut.find((ruled) => ruled.id === id)?.why;
  const sound = soundMerits(merits, about);
  const toBuild = buildMerits(merits, about);
  const held = answer.held.find((each) => each.id === id);
  const asks = held?.asks ?? [];
  const asksThat = (keeps: boolean | null) =>
    asks.filter((ask) => ask.keeps === keeps).map((ask) => askPhrase(ask, build.currency));
  return [
    ...(why && "reason" in why ? [why.reason] : []),
    // Of a lean no width is told, of what nobody sells no price.
    ...(why?.kind === "leans" ? [does(toBuild)] : []),
    ...(why?.kind === "not-for-sale" ? [does(sound)] : []),
    ...(why?.kind === "leans" || why?.kind === "not-for-sale" ? [] : [does([...sound, ...toBuild])]),
    // What was kept may be of another rig.
    ...(held === undefined && merits.width !== null ? [keptWidth] : []),
    ...told("Goes against", asksThat(false)),
    ...told("Not known whether it keeps", asksThat(null)),
  ].join(" ");
}

const does = (parts: readonly string[]): string => (parts.length > 0 ? `${capital(andList(parts))}.` : "");

const keptWidth = "Its width is told against the reference of the rig as it is now.";

const told = (how: string, asks: readonly string[]): readonly string[] =>
  asks.length > 0 ? [`${how}: ${asks.join("; ")}.`] : [];

/** Of the dry take. */
const dryWords = "The take as it was played, before any pedal.";

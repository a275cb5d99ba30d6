import { chainOf } from "../rig/model/chain.js";
import { deciderChoices, type Pedal, type PlaysInto, type Rig } from "../rig/model/rig.js";
import { modelOf } from "../rig/pedals/models.js";
import { andList, capital } from "../text/words.js";
import type { Report } from "../work/compare/report.js";
import { askPhrase } from "./askPhrases.js";

/** What is to be decided, for who plays: the rig in a sentence, the question, and what is asked for. */
export function questionWords(
  rig: Pick<Rig, "pedals" | "instrument" | "asks" | "playsInto" | "currency">,
  report: Report,
): readonly string[] {
  const { units, stereoPedals } = chainOf(rig);
  const isStereoInstrument = rig.instrument.outputs === 2;
  const inStereo = [...(isStereoInstrument ? ["the instrument"] : []), ...stereoPedals.map(named)];
  if (inStereo.length === 0)
    return ["Every pedal of this rig is in mono: there is one way to wire it, and nothing to decide."];
  const stereo = `${capital(andList(inStereo))} ${inStereo.length === 1 ? "plays" : "play"} in stereo`;
  if (units.length === 0)
    return [`${stereo}, and no mono unit comes after that: there is one way to wire it.`];
  const [come, each] = units.length === 1 ? ["comes", ""] : ["come", " each"];
  const rest = `${andList(units.map(named))} ${come} after the split, with one input and one output${each}`;
  return [
    `${stereo}; ${rest}. How should ${andList(units.map(({ name }) => name))} be wired?${monoPlaces[rig.playsInto] ?? ""}`,
    askedWords(rig, report),
  ];
}

/** "Boiler tank (reverb)"; a name that says the kind needs no other word. */
function named({ name, model }: Pedal): string {
  const kind = modelOf(model).kind.toLowerCase();
  return name.toLowerCase().includes(kind) ? name : `${name} (${kind})`;
}

function askedWords({ asks: { first }, currency }: Pick<Rig, "asks" | "currency">, report: Report): string {
  const asked = report.answer.held[0]?.asks ?? [];
  const [decides, ...then] = first.map((word) => deciders[word]);
  if (asked.length === 0)
    return `Nothing is ruled out beforehand: ${decides} decides first, then ${andList(then)}.`;
  const phrases = asked.map((ask) => askPhrase(ask, currency));
  const order = first[0] === deciderChoices[0] ? "" : ` Of what keeps all of it, ${decides} decides.`;
  return `Asked for: ${phrases.join("; ")}.${order}`;
}

/** Where it is heard in mono whatever is built. */
const monoPlaces: Readonly<Partial<Record<PlaysInto, string>>> = {
  "one-amp": " It plays into one amp, so nothing of it is heard in stereo.",
  "mono-desk": " It plays into a desk in mono, so nothing of it is heard in stereo.",
};

const deciders = { width: "width", cost: "cost", boxes: "the number of boxes", monoLoss: "loss in mono" };

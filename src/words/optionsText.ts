import type { BuildSheet } from "../rig/wiring/buildSheet.js";
import type { SheetPart } from "../rig/wiring/parts.js";
import { type Column, columnsText, widest, wrapped } from "../text/columns.js";
import { count, fixed, money, trimmed } from "../text/numbers.js";
import type { OptionsReport, RoutingOption } from "../work/options/optionsReport.js";
import { loadingSummary } from "./loadingText.js";
import { cablesText, plugsText } from "./patchList.js";
import { settingLines } from "./settingsText.js";
import { type Paint, plainPaint } from "./table.js";

/** Every wiring in one list, and why others are left out: no sheets. */
export function allPlansText(options: OptionsReport, columns: number, paint: Paint = plainPaint): string {
  const possible = options.routings.filter(({ build }) => build !== null);
  const impossible = options.routings.filter(({ build }) => build === null);
  const { shown, total } = options.mixedPlans;
  const more = total - shown;
  const reasons = options.leftOut.map(({ what, reason }) => wrapped(`${what}: ${reason}`, columns, 4, "  "));
  const parts = [
    heading(options, columns, paint),
    overview(possible, columns),
    ...(more > 0
      ? [wrapped(`${count(more, "more plan")} that mix places are not listed: the list is cut.`, columns)]
      : []),
    ...(impossible.length > 0 ? [impossibleText(impossible, columns, paint)] : []),
    ...(reasons.length > 0
      ? [`${paint.bold("Left out of plans that mix places")}\n${reasons.join("\n")}`]
      : []),
  ];
  return parts.join("\n\n");
}

/** The routings of a rig as a person reads them: an overview, then a sheet for each, then what holds for all. */
export function optionsText(options: OptionsReport, columns: number, paint: Paint = plainPaint): string {
  const { routings, mixedPlans } = options;
  const possible = routings.filter(({ build }) => build !== null);
  const impossible = routings.filter(({ build }) => build === null);
  const shared = sharedCautions(possible);
  const parts = [
    heading(options, columns, paint),
    overview(possible, columns),
    ...mixedNote(mixedPlans, columns),
    ...possible.map((option) => sheet(option, columns, shared, paint)),
    ...(impossible.length > 0 ? [impossibleText(impossible, columns, paint)] : []),
    ...(shared.size > 0 ? [`${paint.bold("For each wiring above")}\n${bullets([...shared], columns)}`] : []),
  ];
  return parts.join("\n\n");
}

const heading = ({ rig }: OptionsReport, columns: number, paint: Paint): string =>
  paint.bold(wrapped(`${rig.name}, into ${intoWords[rig.playsInto] ?? rig.playsInto}`, columns));

const mixedNote = ({ shown, total }: OptionsReport["mixedPlans"], columns: number): readonly string[] =>
  total > shown
    ? [
        wrapped(
          `${count(total - shown, "more plan")} that give several mono units different places: --all lists them, and says what is left out.`,
          columns,
        ),
      ]
    : [];

const intoWords: Readonly<Record<string, string>> = {
  "stereo-desk": "a stereo desk",
  "two-amps": "two amps",
  "one-amp": "one amp",
  "mono-desk": "a mono desk",
};

function overview(options: readonly RoutingOption[], columns: number): string {
  const rows = options.flatMap(({ id, label, build }) =>
    build === null
      ? []
      : [
          {
            id,
            label,
            figures: [String(build.extraBoxes), priceText(build), milliampsText(build), areaText(build)],
            isOpen: isAnyOpen(build),
          },
        ],
  );
  const currency = options[0]?.build?.currency ?? "";
  const legend = rows.some(({ isOpen }) => isOpen)
    ? "\n\n+ and more, ? all of it: what the rig file does not give"
    : "";
  const figureColumns: readonly Column[] = [
    { heading: ["extra", "boxes"], align: "right" },
    { heading: ["to buy", currency], align: "right" },
    { heading: ["supply", "mA"], align: "right" },
    { heading: ["board", "cm2"], align: "right" },
  ];
  const labelWidth = Math.min(31, widest(rows.map(({ label }) => label)));
  const names: readonly Column[] = [
    { heading: ["routing", ""], align: "left" },
    { heading: ["", ""], align: "left", width: labelWidth },
  ];
  const left = columns - figuresWidth;
  const table =
    widest(rows.map(({ id }) => id)) + 2 + labelWidth <= left
      ? columnsText(
          [...names, ...figureColumns],
          rows.map(({ id, label, figures }) => [id, label, ...figures]),
        )
      : columnsText(
          [{ heading: ["routing", ""], align: "left", width: left }, ...figureColumns],
          rows.map(({ id, label, figures }) => [`${id}: ${label}`, ...figures]),
        );
  return table + legend;
}

/** Room for the four figures and what parts them. */
const figuresWidth = 4 * (2 + 7);

/** "+": more than that, by what is not known. */
const plus = (unknown: readonly string[]): string => (unknown.length > 0 ? "+" : "");
const isAnyOpen = ({ price, priceUnknown, supplyUnknown, boardAreaCm2, areaUnknown }: BuildSheet): boolean =>
  price === null ||
  boardAreaCm2 === null ||
  [priceUnknown, supplyUnknown, areaUnknown].some(({ length }) => length > 0);
const priceText = ({ price, priceUnknown }: BuildSheet): string =>
  price === null ? "?" : `${fixed(price, 0)}${plus(priceUnknown)}`;
const milliampsText = ({ supply, supplyUnknown }: BuildSheet): string =>
  `${supply.reduce((sum, { milliamps }) => sum + milliamps, 0)}${plus(supplyUnknown)}`;
const areaText = ({ boardAreaCm2, areaUnknown }: BuildSheet): string =>
  boardAreaCm2 === null ? "?" : `${fixed(boardAreaCm2, 0)}${plus(areaUnknown)}`;

function sheet(
  { id, label, says, build, loading }: RoutingOption,
  columns: number,
  shared: ReadonlySet<string>,
  paint: Paint,
): string {
  if (build === null) return "";
  const item = (text: string) => wrapped(text, columns, 4, "  ");
  const loaded = loading && loadingSummary(loading);
  const own = build.cautions.filter((caution) => !shared.has(caution));
  return [
    paint.bold(wrapped(`${id}: ${label}`, columns, 2)),
    item(says),
    item(`${count(build.cables.length, "cable")}:`),
    cablesText(build, columns),
    item(`Plugs: ${plugsText(build)}`),
    item(`To buy: ${partsText(build)}`),
    ...(build.settings.length > 0 ? [item(`To set: ${settingLines(build.settings).join("; ")}.`)] : []),
    item(`Supply: ${supplyText(build)}`),
    item(`Board: ${boardText(build)}`),
    ...(loaded === null ? [] : [item(`Loading: ${loaded}`)]),
    ...(own.length > 0 ? [bullets(own, columns)] : []),
  ].join("\n");
}

function partsText({ parts, price, priceUnknown, currency }: BuildSheet): string {
  const toBuy = parts.filter((part) => part.toBuy > 0);
  const onHand = parts.filter(({ count: needed, toBuy: missing }) => needed > missing);
  const have = onHand.map((part) => `${part.count - part.toBuy} x ${part.what}`).join("; ");
  const buy = toBuy.map((part) => `${part.toBuy} x ${part.what}${eachText(part, currency)}`).join("; ");
  const total =
    toBuy.length > 1 && price !== null && priceUnknown.length === 0
      ? `; together ${money(price, currency)}`
      : "";
  return `${buy || "nothing"}${total}.${have ? ` From the drawer: ${have}.` : ""}`;
}

function eachText({ price, toBuy }: SheetPart, currency: string): string {
  if (price === null) return " (price not given)";
  return ` (${money(price, currency)}${toBuy > 1 ? " each" : ""})`;
}

function supplyText({ supply, supplyUnknown }: BuildSheet): string {
  const lines = supply.map(
    ({ volts, milliamps, outlets }) =>
      `${trimmed(volts, 1)} V ${trimmed(milliamps, 1)} mA on ${count(outlets, "outlet")}`,
  );
  return `${lines.join(", ") || "none is given"}.${unknownText(supplyUnknown)}`;
}

function boardText({ boardAreaCm2, areaUnknown }: BuildSheet): string {
  return boardAreaCm2 === null
    ? "no sizes are given."
    : `${fixed(boardAreaCm2, 0)} cm2 of boxes.${unknownText(areaUnknown)}`;
}

const unknownText = (names: readonly string[]): string =>
  names.length > 0 ? ` Not given: ${[...new Set(names)].join("; ")}.` : "";

function impossibleText(options: readonly RoutingOption[], columns: number, paint: Paint): string {
  const lines = options.map(({ id, reason }) =>
    wrapped(`${id}: ${reason ?? "no reason is known"}`, columns, 4, "  "),
  );
  return `${paint.bold("Not possible")}\n${lines.join("\n")}`;
}

/** Cautions that every possible wiring has: told once, at the end. */
function sharedCautions(options: readonly RoutingOption[]): ReadonlySet<string> {
  if (options.length < 2) return new Set();
  const lists = options.map(({ build }) => build?.cautions ?? []);
  return new Set((lists[0] ?? []).filter((caution) => lists.every((list) => list.includes(caution))));
}

const bullets = (lines: readonly string[], columns: number): string =>
  lines.map((line) => wrapped(line, columns, 4, "  ! ")).join("\n");

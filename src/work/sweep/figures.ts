import type { Known } from "../../sound/measure/facts.js";
import type { Figure, FigureColumn, Wording } from "../../sound/measure/measure.js";
import { measures } from "../../sound/measure/measures.js";
import { widthKeptMeasure } from "../../sound/measure/widthKept.js";

/** Every figure of a setting, by the name of its column in report.csv. */
export const figureColumns: readonly FigureColumn[] = measures.flatMap(({ figures }) => figures);

export const figureNames: readonly string[] = figureColumns.map(({ id }) => id);

/** Side share over that of the reference routing at the same setting: known once both are. */
export const widthKept = widthKeptMeasure.id;

/** Every name that a wish may use; those of bands stand apart, as they are many. */
export const wishNames: readonly string[] = [...figureNames, widthKept];
export const wholeNames: readonly string[] = [
  ...measures.filter(({ shape }) => shape !== "bands").flatMap(({ figures }) => figures.map(({ id }) => id)),
  widthKept,
];

const columnsById = new Map(figureColumns.map((column) => [column.id, column]));

/** @throws RangeError for a name that is none */
export function wordingOf(name: string): Wording {
  const wording = name === widthKept ? widthKeptMeasure : columnsById.get(name);
  if (!wording) throw new RangeError(`"${name}" is no measure`);
  return wording;
}

/** Takes a render: mixing stems tells no more of it than, of some, a bound. */
export const needsRender = (name: string): boolean => columnsById.get(name)?.isRendered ?? false;

/** The figure that bounds it without a render, if one does. */
export const boundOf = (name: string): string | null => columnsById.get(name)?.atMost ?? null;

/** In the order of `figureNames`; null where the facts do not tell. */
export function figuresOf(facts: Known): Figure[] {
  const found: Figure[] = [];
  for (const { addFigures } of measures) addFigures(facts, found);
  return found;
}

export const namedFigures = (figures: readonly Figure[]): Record<string, Figure> =>
  Object.fromEntries(figureNames.map((name, k) => [name, figures[k] ?? null]));

import { expect, test } from "vitest";
import { glossary, measures } from "../../../src/sound/measure/measures.js";

const isTwice = (name: string, n: number, names: readonly string[]): boolean => names.indexOf(name) < n;

test("every measure, column and figure has a name of its own", () => {
  expect(measures.map(({ id }) => id).filter(isTwice)).toEqual([]);
  const columns = measures.flatMap((measure) => measure.columns.map(({ id }) => id));
  expect(columns.filter(isTwice)).toEqual([]);
  const figures = measures.flatMap((measure) => measure.figures.map(({ id }) => id));
  expect(figures.filter(isTwice)).toEqual([]);
});

test("every measure says what it is and where that is from", () => {
  for (const { id, means, source } of glossary) {
    expect(means, id).toMatch(/\w{3}/);
    expect(source, id).toMatch(/\w{3}/);
  }
});

/** Figures that are ranked by are columns of report.csv by the same name; a bound alone has none. */
test("figures are columns", () => {
  for (const { id, columns, figures } of measures) {
    const names: readonly string[] = columns.map((column) => column.id);
    const bounds = figures.flatMap(({ atMost }) => atMost ?? []);
    for (const figure of figures) {
      expect(names.includes(figure.id) || bounds.includes(figure.id), `${figure.id} of ${id}`).toBe(true);
    }
  }
});

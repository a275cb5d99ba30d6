import { comparedMeasure } from "./comparedMeasure.js";

export const widthKeptMeasure = comparedMeasure({
  id: "widthKept",
  by: ["sideShare"],
  value: (own, reference) =>
    own.sideShare !== null && reference.sideShare !== null && reference.sideShare > 0
      ? own.sideShare / reference.sideShare
      : null,
  why: "the reference has no side, or there is no sound to compare",
  means: "side share over that of the reference",
  source: "closed form",
  name: "width kept",
  unit: "% of the reference",
  heading: ["width", "kept %"],
  format: "percent",
  better: "more",
  tables: { compare: { fromColumns: 0 }, recordings: {}, page: { unit: "%" } },
});

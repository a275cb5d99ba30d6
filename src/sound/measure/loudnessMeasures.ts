import { integratedLufsOfBlocks, loudestLufs } from "./loudness.js";
import { numberMeasure } from "./numberMeasure.js";
import { notLoud, shorterThan } from "./why.js";

const source = "ITU-R BS.1770-5 (2023), Annex 1; EBU Tech 3341 v4 (2023)";

export const integratedLufsMeasure = numberMeasure({
  id: "integratedLufs",
  from: "sound",
  needs: ["loudness"],
  value: ({ loudness }) => integratedLufsOfBlocks(loudness.blocks),
  why: notLoud,
  means: "programme loudness of the 400 ms blocks above both gates, LUFS",
  source,
  name: "loudness",
  unit: "LUFS",
  heading: ["loudness", "LUFS"],
  format: { fixed: 1 },
  better: null,
  tables: { compare: { fromColumns: 96 }, recordings: {}, page: {} },
});

export const shortTermMaxMeasure = numberMeasure({
  id: "shortTermMaxLufs",
  from: "sound",
  needs: ["loudness"],
  value: ({ loudness }) => loudestLufs(loudness.shortTerm),
  why: (facts) => shorterThan(3, facts) ?? "no 3 s have sound",
  means: "the loudest 3 s, LUFS",
  source,
  name: "loudest 3 s",
  unit: "LUFS",
  format: { fixed: 1 },
  better: null,
  tables: {},
});

export const momentaryMaxMeasure = numberMeasure({
  id: "momentaryMaxLufs",
  from: "sound",
  needs: ["loudness"],
  value: ({ loudness }) => loudestLufs(loudness.momentary),
  why: (facts) => shorterThan(0.4, facts) ?? "no 400 ms have sound",
  means: "the loudest 400 ms, LUFS",
  source,
  name: "loudest 400 ms",
  unit: "LUFS",
  format: { fixed: 1 },
  better: null,
  tables: {},
});

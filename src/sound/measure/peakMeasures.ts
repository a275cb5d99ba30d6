import { gainToDb } from "../dsp/units.js";
import { numberMeasure } from "./numberMeasure.js";

export const truePeakMeasure = numberMeasure({
  id: "truePeakDbtp",
  from: "sound",
  needs: ["peaks"],
  value: ({ peaks }) => gainToDb(peaks.truePeak),
  why: () => "silent",
  means: "largest absolute value between and on the frames, interpolated to at least 192 kHz, dBTP",
  source: "ITU-R BS.1770-5 (2023), Annex 2",
  name: "true peak",
  unit: "dBTP",
  heading: ["peak", "dBTP"],
  format: { fixed: 1 },
  better: "less",
  tables: { compare: { fromColumns: 96 }, recordings: {}, page: {} },
  atMost: {
    id: "truePeakAtMostDbtp",
    value: ({ peaksAtMost }) => (peaksAtMost ? gainToDb(peaksAtMost.truePeak) : null),
    name: "true peak, at most",
    unit: "dBTP",
    format: { fixed: 1 },
    better: "less",
  },
});

export const samplePeakMeasure = numberMeasure({
  id: "samplePeakDbfs",
  from: "sound",
  needs: ["peaks"],
  value: ({ peaks }) => gainToDb(peaks.samplePeak),
  why: () => "silent",
  means: "largest absolute value of the frames, dBFS",
  source: "closed form",
  name: "sample peak",
  unit: "dBFS",
  format: { fixed: 1 },
  better: "less",
  tables: {},
  // No frame is above the curve through the frames.
  atMost: {
    id: "samplePeakAtMostDbfs",
    value: ({ peaksAtMost }) => (peaksAtMost ? gainToDb(peaksAtMost.truePeak) : null),
    name: "sample peak, at most",
    unit: "dBFS",
    format: { fixed: 1 },
    better: "less",
  },
});

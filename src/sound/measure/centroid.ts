import { numberMeasure } from "./numberMeasure.js";

export const centroidMeasure = numberMeasure({
  id: "centroidHz",
  from: "sound",
  needs: ["spectrum"],
  value: ({ spectrum: { moments } }) => (moments.zeroth > 0 ? moments.first / moments.zeroth : null),
  why: () => "nothing sounds between 50 Hz and 16 kHz",
  means: "centre of gravity of the power spectrum of both channels, sum(f P(f)) / sum(P(f)), 50 Hz to 16 kHz",
  source: "closed form (first moment of the spectrum)",
  name: "centroid",
  unit: "Hz",
  format: { fixed: 0 },
  better: null,
  tables: { page: { unit: "", format: "frequency" } },
});

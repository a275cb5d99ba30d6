import { powerToDb } from "../dsp/units.js";
import { numberMeasure } from "./numberMeasure.js";

export const wetToDryMeasure = numberMeasure({
  id: "wetToDryDb",
  from: "rig",
  needs: ["wetAndDry"],
  value: ({ wetAndDry }) =>
    wetAndDry && wetAndDry.wet > 0 && wetAndDry.dry > 0 ? powerToDb(wetAndDry.wet / wetAndDry.dry) : null,
  why: ({ wetAndDry }) => {
    if (wetAndDry === null) return "no mono unit in this wiring";
    if (wetAndDry.dry === 0) return "nothing gets round the unit: all of it is wet";
    return "nothing of the unit's effect arrives";
  },
  means: "energy of what the mono units add over that of the rest, at both buses, dB",
  source: "closed form",
  name: "wet to dry",
  unit: "dB",
  heading: ["wet to", "dry dB"],
  format: { fixed: 1 },
  better: null,
  tables: { compare: { fromColumns: 0 }, page: { format: { signed: 1 } } },
});

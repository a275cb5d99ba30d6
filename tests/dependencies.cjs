// Which folder may import from which; see the map in DEVELOPERS.md. Run by `npm run check`.
const only = (name, from, to) => ({
  name,
  severity: "error",
  from: { path: `^src/(${from})/` },
  to: { path: "^src/", pathNot: `^src/(${from}|${to})/|^src/userError` },
});

module.exports = {
  forbidden: [
    {
      name: "no-circular",
      severity: "error",
      from: {},
      to: { circular: true, viaOnly: { dependencyTypesNot: ["type-only"] } },
    },
    only("dsp-knows-nobody", "dsp", "dsp"),
    only("audio-knows-dsp", "audio", "dsp|files"),
    only("pedals-know-dsp", "pedals", "dsp"),
    only("measure-knows-dsp-and-audio", "measure", "dsp|audio"),
    only("rig-knows-pedals", "rig", "dsp|files|pedals|routings|wiring"),
    only("wiring-knows-pedals-and-rig", "wiring", "dsp|pedals|rig|measure"),
    only("routings-know-wiring", "routings", "dsp|pedals|rig|wiring"),
    only("render-knows-wiring-and-pedals", "render", "dsp|pedals|rig|wiring"),
    {
      name: "the-core-runs-in-a-browser",
      severity: "error",
      from: {
        path: "^src/(dsp|pedals|wiring|routings|render|measure|capture|staging)/",
        pathNot: "^src/wiring/layout",
      },
      to: { dependencyTypes: ["core"] },
    },
  ],
  options: {
    tsConfig: { fileName: "tsconfig.json" },
    tsPreCompilationDeps: true,
    doNotFollow: { path: "node_modules" },
  },
};

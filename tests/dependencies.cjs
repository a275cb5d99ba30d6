// The storeys of the house, from the ground up: a folder imports from itself and from those that stand before it, by
// value or by type. A folder that is not listed fails. Run by `npm run check`.
const storeys = [
  "text",
  "sound/dsp",
  "sound/audio",
  "sound/measure",
  "rig/pedals",
  "rig/model",
  "rig/wiring",
  "rig/routings",
  "rig/knobs",
  "rig/file",
  "work/render",
  "work/levels",
  "work/switches",
  "work/capture",
  "work/recordings",
  "work/compare",
  "work/options",
  "work/sweep",
  "work/crosscheck",
  "words",
  "page/contract",
  "page/live",
  "page/widgets",
  "page/panels",
  "page/frame",
  "page",
  "node/files",
  "node/threads",
  "node/audio",
  "node/rig",
  "node/page",
  "node/capture",
  "node/recordings",
  "node/compare",
  "node/switches",
  "node/levels",
  "node/crosscheck",
  "node/sweep",
  "demo",
  "cli",
];
/** They stand outside: the library's page, and what builds it all. */
const outside = ["index\\.ts$", "build/"];
const within = (folders) => `^src/(${folders.map((folder) => `${folder}/`).join("|")})`;

module.exports = {
  forbidden: [
    { name: "no-circle", severity: "error", from: {}, to: { circular: true } },
    {
      name: "every-folder-has-a-storey",
      severity: "error",
      from: { path: "^src/", pathNot: `${within(storeys)}|^src/(${outside.join("|")})` },
      to: {},
    },
    ...storeys.map((folder, n) => ({
      name: `${folder}-knows-what-is-below`,
      severity: "error",
      from: { path: `^src/${folder}/` },
      to: { path: "^src/", pathNot: within(storeys.slice(0, n + 1)) },
    })),
    {
      name: "what-is-drawn-reaches-the-live-half-by-the-contract-alone",
      severity: "error",
      from: { path: "^src/page/(widgets|panels|frame)/" },
      to: { path: "^src/page/live/" },
    },
    {
      name: "a-panel-knows-no-other",
      severity: "error",
      from: { path: "^src/page/panels/([^/]+)/" },
      to: { path: "^src/page/panels/[^/]+/", pathNot: "^src/page/panels/($1|playing)/" },
    },
    {
      name: "only-hosts-use-node",
      severity: "error",
      from: { path: "^src/", pathNot: "^src/(node|cli|demo|build)/" },
      to: { dependencyTypes: ["core"] },
    },
  ],
  options: {
    tsConfig: { fileName: "tsconfig.json" },
    tsPreCompilationDeps: true,
    doNotFollow: { path: "node_modules" },
  },
};

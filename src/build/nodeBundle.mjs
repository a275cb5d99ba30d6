// How code is bundled for Node: ours alone, as it was written, so that a stack names functions and files.

/** Settings of esbuild. */
export const nodeBundle = {
  bundle: true,
  format: "esm",
  platform: "node",
  target: "node20",
  packages: "external",
  // One copy, for runs from src too.
  external: ["#loops"],
};

import { mountView } from "../../src/page/frame/mount.js";
import { FakeBench, type FakeFacts } from "./fakeBench.js";

declare global {
  interface Window {
    fakeBench: FakeBench;
  }
}

/** The script of a page that has the real face and a fake bench, which tests reach as `window.fakeBench`. */
const facts: FakeFacts = JSON.parse(document.getElementById("facts")?.textContent ?? "");
const bench = new FakeBench(facts);
window.fakeBench = bench;
const root = document.getElementById("root");
if (root) mountView(bench, root, { report: facts.report, opensOn: "everything" });

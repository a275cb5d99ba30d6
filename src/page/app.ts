import { mountView } from "./frame/mount.js";
import { LiveBench } from "./live/liveBench.js";
import { readPageInputs } from "./live/pageInputs.js";

declare global {
  interface Window {
    /** The bench of this page, for the browser's console. */
    splitsum?: LiveBench;
  }
}

/** What the page runs when it opens: the bench first, so that it renders while its face is drawn. */
const page = readPageInputs(document);
const bench = new LiveBench(page);
window.splitsum = bench;
const root = document.getElementById("bench");
if (root) mountView(bench, root, page.data);

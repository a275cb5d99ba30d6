import { svg } from "../../widgets/dom.js";
import type { View } from "../view.js";
import { setLoopFrom, setLoopTo } from "./loopEnds.js";

/** The drawing's own units: it is stretched to the width it has. */
const width = 1000;
const height = 64;

/** How near the pointer must be to an end of the loop to take it, px on the screen. */
const reachPx = 12;

/**
 * The take at a glance, with the position and the loop: press to go there, drag an end of the loop, or drag across to
 * draw a new one. What it does by the pointer the sliders below do by the keyboard, so it is kept from screen readers.
 */
export function overviewStrip(view: View): { readonly node: SVGSVGElement; update(): void } {
  const { player } = view.bench;
  const wave = svg("path", { class: "wave" });
  const region = svg("rect", { class: "region", y: 0, height });
  const ends = [
    svg("line", { class: "end", y1: 0, y2: height }),
    svg("line", { class: "end", y1: 0, y2: height }),
  ];
  const cursor = svg("line", { class: "cursor", y1: 0, y2: height });
  const node = svg(
    "svg",
    { class: "strip", viewBox: `0 0 ${width} ${height}`, preserveAspectRatio: "none", "aria-hidden": true },
    region,
    wave,
    ...ends,
    cursor,
  );
  const at = (seconds: number) => (player.lengthSeconds > 0 ? (seconds / player.lengthSeconds) * width : 0);
  const moveCursor = () => place(cursor, at(player.position));
  let drawn: Float32Array | undefined;
  const update = () => {
    const { on, from, to } = player.loop;
    node.classList.toggle("looping", on);
    region.setAttribute("x", String(at(from)));
    region.setAttribute("width", String(Math.max(0, at(to) - at(from))));
    place(ends[0], at(from));
    place(ends[1], at(to));
    moveCursor();
    if (drawn !== view.bench.overview) {
      drawn = view.bench.overview;
      wave.setAttribute("d", wavePath(drawn));
    }
    if (player.playing) frame();
  };
  let framed = false;
  const frame = () => {
    if (framed) return;
    framed = true;
    requestAnimationFrame(() => {
      framed = false;
      moveCursor();
      if (player.playing && node.isConnected) frame();
    });
  };
  listenToPointer(node, view);
  return { node, update };
}

const place = (line: SVGLineElement, x: number): void => {
  line.setAttribute("x1", String(x));
  line.setAttribute("x2", String(x));
};

/** A closed shape from the peaks, alike above and below the middle. */
function wavePath(peaks: Float32Array): string {
  if (peaks.length === 0) return "";
  const loudest = Math.max(0.05, ...peaks);
  const x = (n: number) => ((n / Math.max(1, peaks.length - 1)) * width).toFixed(1);
  const y = (peak: number, sign: number) =>
    (height / 2 + (sign * peak * (height / 2 - 3)) / loudest).toFixed(1);
  const points = [...peaks];
  const above = points.map((peak, n) => `${x(n)},${y(peak, -1)}`);
  const below = points.map((peak, n) => `${x(n)},${y(peak, 1)}`).reverse();
  return `M${[...above, ...below].join("L")}Z`;
}

function listenToPointer(node: SVGSVGElement, view: View): void {
  const { player } = view.bench;
  let move: ((seconds: number) => void) | null = null;
  const secondsAt = (event: PointerEvent): number => {
    const { left, width: across } = node.getBoundingClientRect();
    return Math.min(1, Math.max(0, (event.clientX - left) / across)) * player.lengthSeconds;
  };
  node.addEventListener("pointerdown", (event) => {
    if (event.button !== 0) return;
    node.setPointerCapture(event.pointerId);
    const seconds = secondsAt(event);
    const reach = (reachPx / node.getBoundingClientRect().width) * player.lengthSeconds;
    const { on, from, to } = player.loop;
    if (on && Math.abs(seconds - from) < reach) move = (now) => setLoopFrom(view, now);
    else if (on && Math.abs(seconds - to) < reach) move = (now) => setLoopTo(view, now);
    else {
      player.seek(seconds);
      move = (now) => {
        if (Math.abs(now - seconds) > reach)
          player.setLoop({ on: true, from: Math.min(now, seconds), to: Math.max(now, seconds) });
      };
    }
  });
  node.addEventListener("pointermove", (event) => move?.(secondsAt(event)));
  for (const end of ["pointerup", "pointercancel"] as const) {
    node.addEventListener(end, () => {
      move = null;
    });
  }
}

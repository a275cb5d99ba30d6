import { drawing } from "../../rig/drawing/boxSize.js";
import type { Point } from "../../rig/drawing/channel.js";
import type { LaidBox, LaidCable, WiringLayout } from "../../rig/drawing/layout.js";
import { newId, svg } from "./dom.js";

/** Boxes by id and cables by number that something is wrong with. */
export interface WrongParts {
  readonly boxes: ReadonlySet<string>;
  readonly cables: ReadonlySet<number>;
}
const nothingWrong: WrongParts = { boxes: new Set(), cables: new Set() };

/** The wiring of a routing as a drawing, laid out beforehand. Its text is text. */
export function wiringDiagram(
  layout: WiringLayout,
  title: string,
  wrong: WrongParts = nothingWrong,
): SVGSVGElement {
  const { width, height, boxes, cables } = layout;
  const name = newId("wiring");
  return svg(
    "svg",
    {
      class: "wiring",
      viewBox: `0 0 ${width} ${height}`,
      width,
      height,
      role: "img",
      "aria-labelledby": name,
    },
    svg("title", { id: name }, `${title}: ${inWords(layout)}`),
    ...cables.map((cable, n) => cablePath(cable, wrong.cables.has(n))),
    ...boxes.map((box) => boxGroup(box, wrong.boxes.has(box.id))),
  );
}

/** "Undertow out left to Mixer in 1 left; ..." */
function inWords({ boxes, cables }: WiringLayout): string {
  const label = new Map(boxes.map((box) => [box.id, box.label]));
  return cables
    .map(({ from, to }) => `${label.get(from.box)} ${from.jack} to ${label.get(to.box)} ${to.jack}`)
    .join("; ");
}

/** Corners are rounded a little, so that crossing cables and bending ones look different. */
const cornerRadius = 5;

function cablePath({ points }: LaidCable, isWrong: boolean): SVGPathElement {
  return svg("path", { class: isWrong ? "cable wrong" : "cable", d: roundedPath(points) });
}

function roundedPath(points: readonly Point[]): string {
  if (points.length === 0) return "";
  const [start, ...rest] = points;
  const parts = [`M${start.x},${start.y}`];
  rest.forEach((corner, n) => {
    const next = rest[n + 1];
    if (!next) parts.push(`L${corner.x},${corner.y}`);
    else {
      const before = toward(corner, points[n]);
      const after = toward(corner, next);
      parts.push(`L${before.x},${before.y}Q${corner.x},${corner.y},${after.x},${after.y}`);
    }
  });
  return parts.join("");
}

/** The point `cornerRadius` away from a corner on the way to another, or half way if that is nearer. */
function toward(corner: Point, other: Point): Point {
  const length = Math.hypot(other.x - corner.x, other.y - corner.y);
  const share = length === 0 ? 0 : Math.min(cornerRadius / length, 0.5);
  return { x: corner.x + (other.x - corner.x) * share, y: corner.y + (other.y - corner.y) * share };
}

function boxGroup(box: LaidBox, isWrong: boolean): SVGGElement {
  const { x, y, width, height, lines, note, jacks, isUnit, kind } = box;
  const { padding, lineHeight } = drawing;
  const middle = x + width / 2;
  const firstLine = y + padding + lineHeight * 0.72;
  return svg(
    "g",
    { class: `box ${kind}${isUnit ? " unit" : ""}${isWrong ? " wrong" : ""}` },
    svg("rect", { x, y, width, height, rx: kind === "take" || kind === "destination" ? height / 5 : 2 }),
    ...lines.map((line, n) =>
      svg("text", { class: "name", x: middle, y: firstLine + n * lineHeight, "text-anchor": "middle" }, line),
    ),
    note
      ? svg(
          "text",
          { class: "note", x: middle, y: firstLine + lines.length * lineHeight - 1, "text-anchor": "middle" },
          note,
        )
      : null,
    ...jacks.flatMap((jack) => [
      svg("circle", { class: "jack", cx: jack.x, cy: jack.y, r: 3.2 }),
      svg(
        "text",
        {
          class: "jack-name",
          x: jack.x + (jack.side === "in" ? padding : -padding),
          y: jack.y + 3.8,
          "text-anchor": jack.side === "in" ? "start" : "end",
        },
        jack.name,
      ),
    ]),
  );
}

import type { ELK as Elk, ElkExtendedEdge, ElkNode } from "elkjs/lib/elk-api.js";
import { type SizedBox, sizeBox } from "./boxSize.js";
import type { Box, Cable, Jack, Wiring } from "./wiring.js";

/** Where a wiring is drawn: boxes, jacks on their edges, and cables in straight pieces. Left to right, in CSS pixels. */
export interface WiringLayout {
  readonly width: number;
  readonly height: number;
  readonly boxes: readonly LaidBox[];
  readonly cables: readonly LaidCable[];
}
export interface LaidBox {
  readonly id: string;
  readonly kind: Box["kind"];
  readonly label: string;
  /** The label as it is set, broken into lines. */
  readonly lines: readonly string[];
  /** Under the label: model of a pedal and how wet it runs, buffered or not, and so on; may be empty. */
  readonly note: string;
  /** A mono unit after the split. */
  readonly isUnit: boolean;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly jacks: readonly LaidJack[];
}
interface LaidJack {
  readonly name: string;
  readonly side: "in" | "out";
  readonly x: number;
  readonly y: number;
}
export interface LaidCable {
  readonly from: Jack;
  readonly to: Jack;
  /** Corners from jack to jack, every piece level or upright. */
  readonly points: readonly Point[];
}
export interface Point {
  readonly x: number;
  readonly y: number;
}

/** Widest drawing that is not folded, px: on a sheet of A4 on its side its 13 px names print at 7 point. */
const widestPx = 1400;

/** Shapes that a folded drawing is asked to have, width to height, until one is narrow enough. */
const foldedShapes = ["6", "4", "3", "2", "1.4"];

/**
 * Draws a wiring from left to right: signal flows rightwards, cables run level and upright from jack to jack and
 * around boxes. A drawing too wide for a sheet is folded, to go on in a second row, and so on. The same wiring gives
 * the same drawing on every run. The library is slow to load (a third of a second) and large, so never in the page.
 */
export async function layoutWiring(wiring: Wiring): Promise<WiringLayout> {
  let best = await laidOut(wiring, {});
  for (const shape of best.width > widestPx ? foldedShapes : []) {
    const folded = await laidOut(wiring, { ...foldedOptions, "elk.aspectRatio": shape });
    if (folded.width < best.width) best = folded;
    if (best.width <= widestPx) break;
  }
  return best;
}

async function laidOut(wiring: Wiring, shape: Record<string, string>): Promise<WiringLayout> {
  const sized = wiring.boxes.map(sizeBox);
  const laid = await (await engine()).layout(graphOf(wiring, sized, shape));
  const nodes = new Map(laid.children?.map((node) => [node.id, node]));
  const edges = new Map((laid.edges ?? []).map((edge) => [edge.id, edge]));
  return {
    width: Math.ceil(laid.width ?? 0),
    height: Math.ceil(laid.height ?? 0),
    boxes: wiring.boxes.map((box, n) => laidBox(box, sized[n], nodes.get(nodeId(n)))),
    cables: wiring.cables.map((cable, n) => ({ ...cable, points: pointsOf(edges.get(cableId(n))) })),
  };
}

let shared: Promise<Elk> | undefined;

/** The layout library: Eclipse Layout Kernel's layered algorithm, after Sugiyama, Tagawa and Toda 1981. */
function engine(): Promise<Elk> {
  shared ??= import("elkjs/lib/elk.bundled.js").then(({ default: Engine }) => new Engine.default());
  return shared;
}

const nodeId = (n: number): string => `box ${n}`;
const cableId = (n: number): string => `cable ${n}`;
const portId = (box: number, side: string, jack: string): string => `${box} ${side} ${jack}`;

const options = {
  "elk.algorithm": "layered",
  "elk.direction": "RIGHT",
  "elk.edgeRouting": "ORTHOGONAL",
  "elk.padding": "[top=12,left=12,bottom=12,right=12]",
  "elk.spacing.nodeNode": "26",
  "elk.spacing.edgeEdge": "12",
  "elk.spacing.edgeNode": "16",
  "elk.layered.spacing.nodeNodeBetweenLayers": "32",
  "elk.layered.spacing.edgeNodeBetweenLayers": "12",
  "elk.layered.spacing.edgeEdgeBetweenLayers": "10",
  "elk.layered.nodePlacement.strategy": "NETWORK_SIMPLEX",
  "elk.layered.considerModelOrder.strategy": "NODES_AND_EDGES",
};

const foldedOptions = {
  "elk.layered.wrapping.strategy": "MULTI_EDGE",
  "elk.layered.wrapping.additionalEdgeSpacing": "20",
};

function graphOf(
  { boxes, cables }: Wiring,
  sized: readonly SizedBox[],
  shape: Record<string, string>,
): ElkNode {
  const number = new Map(boxes.map(({ id }, n) => [id, n]));
  const port = ({ box, jack }: Jack, side: "in" | "out") => portId(number.get(box) ?? -1, side, jack);
  return {
    id: "wiring",
    layoutOptions: { ...options, ...shape },
    children: boxes.map((_, n) => ({
      id: nodeId(n),
      width: sized[n].width,
      height: sized[n].height,
      layoutOptions: { "elk.portConstraints": "FIXED_POS" },
      ports: sized[n].jacks.map(({ name, side, x, y }) => ({
        id: portId(n, side, name),
        x,
        y,
        width: 0,
        height: 0,
        layoutOptions: { "elk.port.side": side === "in" ? "WEST" : "EAST" },
      })),
    })),
    edges: cables.map(({ from, to }: Cable, n) => ({
      id: cableId(n),
      sources: [port(from, "out")],
      targets: [port(to, "in")],
    })),
  };
}

function laidBox(box: Box, sized: SizedBox, node: ElkNode | undefined): LaidBox {
  const { x = 0, y = 0 } = node ?? {};
  const { lines, note, width, height, jacks } = sized;
  return {
    id: box.id,
    kind: box.kind,
    label: box.label,
    lines,
    note,
    isUnit: box.kind === "pedal" && box.isUnit,
    x,
    y,
    width,
    height,
    jacks: jacks.map((jack) => ({ ...jack, x: x + jack.x, y: y + jack.y })),
  };
}

/** All sections of a cable in a row; there is one unless a cable joins others, which it never does. */
function pointsOf(edge: ElkExtendedEdge | undefined): readonly Point[] {
  return (edge?.sections ?? []).flatMap(({ startPoint, bendPoints = [], endPoint }) =>
    [startPoint, ...bendPoints, endPoint].map(({ x, y }) => ({ x, y })),
  );
}

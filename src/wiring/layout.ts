import type { Box } from "./wiring.js";

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
  /** A mono unit after the split. */
  readonly isUnit: boolean;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly jacks: readonly LaidJack[];
}
export interface LaidJack {
  readonly name: string;
  readonly side: "in" | "out";
  readonly x: number;
  readonly y: number;
}
export interface LaidCable {
  readonly from: { readonly box: string; readonly jack: string };
  readonly to: { readonly box: string; readonly jack: string };
  /** Corners from jack to jack. */
  readonly points: readonly { readonly x: number; readonly y: number }[];
}

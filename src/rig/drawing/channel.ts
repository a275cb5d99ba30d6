import { spacing } from "./spacing.js";
import { inTracks, type Upright } from "./tracks.js";

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** The room between two layers, in which cables change their levels. */
export interface Channel {
  readonly width: number;
  /** Corners of one of its uprights, when the channel begins at `x`; none where it runs straight on. */
  corners(upright: number, x: number): readonly Point[];
}

/** A channel as narrow as its tracks and `least` let it be. */
export function channel(uprights: readonly Upright[], least: number): Channel {
  const { count, steps } = inTracks(uprights);
  const tracksWidth = Math.max(0, count - 1) * spacing.tracks;
  const width = Math.max(least, count > 0 ? tracksWidth + 2 * spacing.boxAndTrack : 0);
  const first = (width - tracksWidth) / 2;
  return {
    width,
    corners(upright, x) {
      let y = uprights[upright].from;
      return steps[upright].flatMap(({ track, to }) => {
        const at = x + first + track * spacing.tracks;
        const corners = [
          { x: at, y },
          { x: at, y: to },
        ];
        y = to;
        return corners;
      });
    },
  };
}

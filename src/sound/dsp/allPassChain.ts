import { diffuserLoopBytes } from "../loops/diffusers.js";
import { type Room, roomBytes } from "../loops/room.js";

/** One Schroeder section: its delay in frames and its coefficient, 0 to under 1. */
export interface AllPassSection {
  readonly delayFrames: number;
  readonly coefficient: number;
}

/**
 * Schroeder all-passes in series, in place: each spreads a click over time and leaves every frequency at its level.
 * H(z) = (g + z^-D) / (1 + g z^-D), as a lattice: v[n] = x[n] - g v[n - D], y[n] = v[n - D] + g v[n].
 * The response to an impulse is g, then (1 - g^2)(-g)^(k-1) every D frames; its energy is 1.
 * Source: M. R. Schroeder, "Natural sounding artificial reverberation", J. Audio Eng. Soc. 10(3), 1962.
 */
export class AllPassChain {
  /** Changes the first so many frames of the signal. */
  readonly process: (frames: number) => void;

  /** @param signal  of the room, with what `allPassBytes` says to spare */
  constructor(sections: readonly AllPassSection[], signal: Float64Array, room: Room) {
    const rings = sections.map((section) => ({
      coefficient: section.coefficient,
      ring: room.floats(ringFrames(section)),
    }));
    this.process = room.loops.diffuse(rings, signal);
  }
}

const ringFrames = ({ delayFrames }: AllPassSection): number => Math.max(1, Math.round(delayFrames));

/** What a chain takes in a room. */
export const allPassBytes = (sections: readonly AllPassSection[]): number =>
  roomBytes(...sections.map((section) => 4 * ringFrames(section)), ...diffuserLoopBytes(sections.length));

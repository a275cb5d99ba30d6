/** A piece of what came in. */
export interface InputPiece {
  /** Samples, full scale 1. */
  readonly channels: readonly Float32Array[];
  /** When its last frame came in, by `performance.now()`. */
  readonly endMs: number;
  /** Seconds that the browser is found to have lost up to here. */
  readonly lostSeconds: number;
}

/** Gives what a track of the browser hears, unchanged, until it is closed. */
export interface InputTap {
  readonly rateHz: number;
  readonly channels: number;
  close(): void;
}

/** What a tap is opened with. */
export interface TapOptions {
  readonly onPiece: (piece: InputPiece) => void;
  /** The device is gone. */
  readonly onEnd: () => void;
}

/** A device that gives nothing for so long does not give anything. */
export const silentDeviceMs = 4000;

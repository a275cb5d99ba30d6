/** Where the sound of one wiring goes, block by block. */
export interface TrackSink {
  write(left: Float32Array, right: Float32Array, frames: number): void;
  close(): void;
}

import { FactsMeter } from "../../sound/measure/factsMeter.js";
import { soundMeasuresOf } from "../../sound/measure/fill.js";
import type { Reading } from "../render/reading.js";
import type { TrackSink } from "../render/trackSink.js";
import type { Recording } from "./recording.js";

const pieceFrames = 1 << 14;

export interface MeasureHow {
  readonly rateHz: number;
  readonly frames: number;
  readonly sink: TrackSink;
  /** Called every few milliseconds; throw to stop. */
  readonly onPiece?: () => void;
}

/** Measures a recording over as many frames as the renders have, and lets its sound go where theirs goes. */
export function measureRecording(
  { id, channels }: Recording,
  { rateHz, frames, sink, onPiece = () => {} }: MeasureHow,
): Reading {
  const meter = new FactsMeter(rateHz);
  const [left, right] = channels;
  const [leftPiece, rightPiece] = [new Float32Array(pieceFrames), new Float32Array(pieceFrames)];
  for (let at = 0; at < frames; at += pieceFrames) {
    const count = Math.min(pieceFrames, frames - at);
    fill(leftPiece, left, at, count);
    fill(rightPiece, right, at, count);
    meter.push(leftPiece, rightPiece, count);
    sink.write(leftPiece, rightPiece, count);
    onPiece();
  }
  sink.close();
  const sound = meter.facts();
  return {
    id,
    sound: soundMeasuresOf(sound),
    rig: null,
    blockPowers: sound.loudness?.blocks,
  };
}

/** Frames `at` to `at + count` of a side; past its end there is silence. */
function fill(piece: Float32Array, side: Float32Array, at: number, count: number): void {
  const there = Math.max(0, Math.min(count, side.length - at));
  piece.set(side.subarray(at, at + there));
  piece.fill(0, there, count);
}

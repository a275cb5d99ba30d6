import { renderPart } from "../../../work/compare/renderPart.js";
import type { TrackSink } from "../../../work/render/trackSink.js";
import type { FiguresJob, FiguresResult } from "./engineJobs.js";
import { StereoFieldMeter } from "./stereoFieldMeter.js";

/** Measures wirings by the same pass as `compare`, so that figures are the same to the last digit. */
export function readFigures(job: FiguresJob, onFrames: (frames: number) => void): FiguresResult {
  const { wirings, take, rateHz, clips, tail, frames, responseFrames, fieldGains } = job;
  const meters = wirings.map(({ id }) => ({ id, meter: new StereoFieldMeter(fieldGains.get(id) ?? 1) }));
  const openTrack = (n: number): TrackSink => {
    let done = 0;
    return {
      write(left, right, count) {
        meters[n].meter.push(left, right, count);
        done += count;
        if (n === 0) onFrames(done);
      },
      close() {},
    };
  };
  const { readings } = renderPart(
    { wirings, take, rateHz, clips, tail },
    { openTrack, agree: (_needed, round) => (round === 0 ? frames : responseFrames), onFrames: () => {} },
  );
  return { readings, fields: meters.map(({ id, meter }) => ({ id, ...meter.result() })) };
}

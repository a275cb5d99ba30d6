import { expect, test } from "vitest";
import { RecordedSound } from "../../../../src/page/live/record/recordedSound.js";

const rateHz = 1000;
/** Ten frames that end at a time, in two channels: the time of each frame in ms, and less than nothing. */
const piece = (endMs: number, lostSeconds = 0) => {
  const times = Float32Array.from({ length: 10 }, (_, n) => endMs - 10 + n);
  return { channels: [times, times.map((x) => -x)], endMs, lostSeconds };
};
const plan = { rateHz, channels: [0], fromMs: 0, mostFrames: 1000 };

test("what comes in between two times is kept, to the frame", () => {
  const sound = new RecordedSound({ ...plan, fromMs: 105 });
  for (const end of [100, 110, 120]) sound.add(piece(end));
  sound.endAt(123);
  expect(sound.isComplete).toBe(false);
  sound.add(piece(130));
  expect(sound.isComplete).toBe(true);
  expect([...sound.channels()[0]]).toEqual(Array.from({ length: 18 }, (_, n) => 105 + n));
});

test("channels are those that were chosen, in that order", () => {
  const sound = new RecordedSound({ ...plan, channels: [1, 0] });
  sound.add(piece(20));
  expect(sound.channels().map(([first]) => first)).toEqual([-10, 10]);
});

test("it ends by itself where memory does, and tells where sound was lost", () => {
  const sound = new RecordedSound({ ...plan, mostFrames: 25 });
  sound.add(piece(20));
  sound.add(piece(40, 0.01));
  expect(sound.isFull).toBe(false);
  sound.add(piece(50));
  expect([sound.frames, sound.isFull, sound.isComplete]).toEqual([25, true, true]);
  expect(sound.losses).toEqual([{ atSeconds: 0.01, seconds: 0.01 }]);
});

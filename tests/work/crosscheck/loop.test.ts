import { expect, test } from "vitest";
import { openOffline } from "../../../src/node/crosscheck/openOffline.js";
import { loopLateness } from "../../../src/sound/standard/loop.js";

/** W3C Web Audio API: in a loop a DelayNode is read before it is written, so that a lap is as long as its delays say. */
test("loops of web-audio-api are on time", async () => {
  expect(await loopLateness(await openOffline(), 48_000)).toBe(0);
});

test("an engine whose loops are silent has none", async () => {
  const openContext = await openOffline();
  const deaf: typeof openContext = (channels, frames, rateHz) => {
    const context = openContext(channels, frames, rateHz);
    const createDelay = context.createDelay.bind(context);
    context.createDelay = (seconds) => {
      const node = createDelay(seconds);
      node.connect = () => undefined;
      return node;
    };
    return context;
  };
  expect(await loopLateness(deaf, 48_000)).toBe(Number.POSITIVE_INFINITY);
});

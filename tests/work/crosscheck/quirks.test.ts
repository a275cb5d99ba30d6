import { expect, test } from "vitest";
import { openOffline } from "../../../src/node/crosscheck/openOffline.js";
import { loopLateness } from "../../../src/sound/standard/loop.js";
import { noQuirks, quirksOf } from "../../../src/sound/standard/quirks.js";

/** W3C Web Audio API: in a loop a DelayNode is read before it is written, so that a lap is as long as its delays say. */
test("loops of web-audio-api are on time", async () => {
  expect(await loopLateness(await openOffline(), 48_000)).toBe(0);
});

test("filters of web-audio-api follow frame by frame; one that holds them for a quantum is found out", async () => {
  const openContext = await openOffline();
  expect(await quirksOf(openContext, 48_000)).toEqual(noQuirks);
  const holding: typeof openContext = (channels, frames, rateHz) => {
    const context = openContext(channels, frames, rateHz);
    const make = context.createBiquadFilter.bind(context);
    context.createBiquadFilter = () => {
      // What comes to it goes to another one.
      return Object.defineProperty(make(), "detune", { value: make().detune });
    };
    return context;
  };
  expect((await quirksOf(holding, 48_000)).holdsFilters).toBe(true);
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

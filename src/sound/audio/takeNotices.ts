import { gainToDb, powerToDb } from "../dsp/units.js";
import type { ChannelFacts } from "./takeCheck.js";

/** A mean of samples beyond this is told: -60 dBFS. Common practice, no source. */
const dcLimit = 0.001;

/** What a listener should know of the sound itself, one plain sentence each: clipping, level over full scale, DC. */
export function soundNotices(channels: readonly ChannelFacts[], rateHz: number): string[] {
  return [...clipNotice(channels, rateHz), ...overNotice(channels), ...dcNotices(channels)];
}

/** `holds no sound (12.0 s of zeros)`: nothing but zeros. */
export function silenceNotice(channels: readonly ChannelFacts[], rateHz: number): string | null {
  if (channels.some(({ peak }) => peak > 0)) return null;
  return `holds no sound (${(channels[0].frames / rateHz).toFixed(1)} s of zeros), so nothing can be measured`;
}

/** What of a stereo take goes in: both sides, for an instrument with two outputs, or one mono source made of them. */
export const takeChannels = ["both", "mean", "left", "right"] as const;
export type TakeChannel = (typeof takeChannels)[number];

/**
 * Tells that the sides of a stereo take differ, by how much, and what was done; null when they are the same to 0.1 dB
 * and to a correlation of 0.999, or when the take is silent.
 *
 * @param cross  sum of left times right
 */
export function sidesNotice(
  [left, right]: readonly ChannelFacts[],
  cross: number,
  used: TakeChannel,
): string | null {
  if (left.energy === 0 && right.energy === 0) return null;
  if (used === "both") return bothNotice(left, right);
  const done = used === "mean" ? "their mean is used" : `the ${used} side is used`;
  const others = takeChannels.filter((side) => side !== used && side !== "both").join(" or ");
  const instead = `${done}; --take-channel ${others} takes another`;
  if (left.energy === 0) return `the left side is silent; ${instead}`;
  if (right.energy === 0) return `the right side is silent; ${instead}`;
  const correlation = cross / Math.sqrt(left.energy * right.energy);
  const leftOverRightDb = powerToDb(left.energy / right.energy);
  if (correlation > 0.999 && Math.abs(leftOverRightDb) < 0.1) return null;
  const louder = leftOverRightDb > 0 ? "left" : "right";
  const level =
    Math.abs(leftOverRightDb) < 0.1
      ? "equal level"
      : `${louder} louder by ${Math.abs(leftOverRightDb).toFixed(1)} dB`;
  const lossDb = -powerToDb((left.energy + right.energy + 2 * cross) / 2 / (left.energy + right.energy));
  const loss =
    used === "mean" && lossDb > 3.5
      ? ` The mean is ${lossDb > 60 ? "over 60" : lossDb.toFixed(1)} dB weaker than the sides: they cancel in part.`
      : "";
  return `left and right differ (correlation ${correlation.toFixed(2)}, ${level}); ${instead}.${loss}`;
}

/** Sides of an instrument with two outputs may differ: only a silent one is told. */
function bothNotice(left: ChannelFacts, right: ChannelFacts): string | null {
  if (left.energy !== 0 && right.energy !== 0) return null;
  const [silent, other] = left.energy === 0 ? ["left", "right"] : ["right", "left"];
  return `the ${silent} side is silent; --take-channel ${other} feeds both outputs from the other`;
}

function clipNotice(channels: readonly ChannelFacts[], rateHz: number): string[] {
  const runs = channels.reduce((sum, { clippedRuns }) => sum + clippedRuns, 0);
  if (runs === 0) return [];
  const first = Math.min(
    ...channels.map(({ firstClippedFrame }) => firstClippedFrame ?? Number.POSITIVE_INFINITY),
  );
  const places = runs === 1 ? "at one place" : `at ${runs} places`;
  return [
    `clipped ${places} (three or more full-scale samples in a row), first at ${(first / rateHz).toFixed(2)} s; the distortion is part of the take now`,
  ];
}

function overNotice(channels: readonly ChannelFacts[]): string[] {
  const peak = Math.max(...channels.map((channel) => channel.peak));
  if (!(peak > 1)) return [];
  return [`goes over full scale, to +${gainToDb(peak).toFixed(1)} dBFS; it is kept as it is`];
}

function dcNotices(channels: readonly ChannelFacts[]): string[] {
  const sides = channels.length === 2 ? [" on the left", " on the right"] : [""];
  return channels.flatMap(({ sum, frames }, n) => {
    const mean = sum / frames;
    if (!(Math.abs(mean) > dcLimit)) return [];
    const sign = mean < 0 ? "negative" : "positive";
    return [
      `has a DC offset${sides[n]}: ${gainToDb(Math.abs(mean)).toFixed(1)} dBFS, ${sign}; it is kept as it is`,
    ];
  });
}

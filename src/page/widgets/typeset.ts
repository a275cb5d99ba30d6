import type { Format } from "../../sound/measure/measure.js";
import * as printed from "../../text/numbers.js";
import { formatted } from "../../words/figureText.js";

/** Numbers as the page sets them: those of the printed table, with a true minus, the unit behind, and a dash for none. */
export const nothing = "\u2013";

export const decimal = (value: number | null, digits: number): string =>
  typeset(printed.fixed(value, digits));

/** Differences: with their sign. */
export const signed = (value: number | null, digits: number): string =>
  typeset(printed.signed(value, digits));

export const percent = (share: number | null): string => typeset(printed.percent(share));

/** A number as its measure is written. */
export const setFigure = (value: number | null, format: Format): string =>
  format === "frequency" ? hertz(value) : typeset(formatted(value, format));

/** Joined so that no line breaks between number and unit. */
export const withUnit = (number: string, unit: string): string =>
  number === nothing || unit === "" ? number : `${number}\u00a0${unit}`;

export const db = (value: number | null): string => withUnit(signed(value, 1), "dB");

/** 31.5, 125, 1k, 16k: band centres as they are spoken of. */
export const centre = (hz: number): string => (hz < 1000 ? String(hz) : `${hz / 1000}k`);

export const hertz = (hz: number | null): string =>
  hz === null ? nothing : printed.frequency(hz).replace(" ", "\u00a0");

export const lasting = (seconds: number): string => printed.duration(seconds).replaceAll(" ", "\u00a0");

/** 0:03.2 */
export function clock(seconds: number): string {
  const tenths = Math.max(0, Math.round(seconds * 10));
  const minutes = Math.floor(tenths / 600);
  return `${minutes}:${((tenths - 600 * minutes) / 10).toFixed(1).padStart(4, "0")}`;
}

/** "3.2 seconds", for voices that read. */
export const spokenSeconds = (seconds: number): string => `${printed.fixed(seconds, 1)} seconds`;

/** A sentence in which no line breaks between a number and its unit, or a currency and its sum. */
export const glued = (sentence: string): string =>
  sentence.replace(/(\d) (?=%|dB\b|mA\b|cm2\b)/g, "$1\u00a0").replace(/\b([A-Z]{3}) (?=\d)/g, "$1\u00a0");

const typeset = (text: string): string => (text === printed.noFigure ? nothing : trueMinus(text));

/** A hyphen ahead of a number as the sign that it stands for. */
export const trueMinus = (number: string): string => number.replace(/^-/, "\u2212");

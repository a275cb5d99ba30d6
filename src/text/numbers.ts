/**
 * How numbers are written for people: a point, no thousands marks, as many decimals as the figure is good for.
 * Machines get full precision from `json.ts` and `csv.ts`.
 */
const formatters = new Map<string, Intl.NumberFormat>();

/** What stands where a figure does not exist. */
export const noFigure = "-";

/** `1.40`; null gives `-`. */
export function fixed(value: number | null, decimals: number): string {
  return value === null ? noFigure : formatter(decimals, "negative").format(value);
}

/** `+1.4`, `-0.3`, `0.0`: for differences, where the sign is the message. */
export function signed(value: number | null, decimals: number): string {
  return value === null ? noFigure : formatter(decimals, "exceptZero").format(value);
}

/** A share of 1 in per cent, without the sign: 0.234 gives `23`, 0.0034 gives `0.3`. */
export function percent(share: number | null): string {
  if (share === null) return noFigure;
  const value = share * 100;
  return fixed(value, value !== 0 && Math.abs(value) < 9.95 ? 1 : 0);
}

/** `417 Hz`, `1.25 kHz`. */
export function frequency(hz: number): string {
  return hz < 1000 ? `${trimmed(hz, hz < 100 ? 1 : 0)} Hz` : `${trimmed(hz / 1000, 2)} kHz`;
}

/** A number with at most so many decimals: `1.2`, `9`. */
export function trimmed(value: number, decimals: number): string {
  const key = `trimmed ${decimals}`;
  const options = { maximumFractionDigits: decimals, useGrouping: false, signDisplay: "negative" } as const;
  return cached(key, options).format(value);
}

/** `EUR 175`, `EUR 64.50`. */
export function money(amount: number | null, currency: string): string {
  if (amount === null) return noFigure;
  return `${currency} ${Number.isInteger(amount) ? fixed(amount, 0) : fixed(amount, 2)}`;
}

/** `12.0 s`, `3 min 20 s`. */
export function duration(seconds: number): string {
  if (seconds < 59.95) return `${fixed(seconds, 1)} s`;
  const whole = Math.round(seconds);
  const hours = Math.floor(whole / 3600);
  const minutes = Math.floor((whole % 3600) / 60);
  return hours > 0 ? `${hours} h ${minutes} min` : `${minutes} min ${whole % 60} s`;
}

/** `1 file`, `3 files`. */
export const count = (amount: number, one: string, many = `${one}s`): string =>
  `${amount} ${amount === 1 ? one : many}`;

function formatter(decimals: number, signDisplay: "negative" | "exceptZero"): Intl.NumberFormat {
  const options = { minimumFractionDigits: decimals, maximumFractionDigits: decimals };
  return cached(`${signDisplay} ${decimals}`, { ...options, useGrouping: false, signDisplay });
}

function cached(key: string, options: Intl.NumberFormatOptions): Intl.NumberFormat {
  const known = formatters.get(key);
  if (known) return known;
  const made = new Intl.NumberFormat("en-GB", options);
  formatters.set(key, made);
  return made;
}

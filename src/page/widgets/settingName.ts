/** Ends of keys that tell a unit, and the unit as it is printed. */
const units: readonly (readonly [ending: string, unit: string])[] = [
  ["Hz", "Hz"],
  ["Ms", "ms"],
  ["Seconds", "s"],
  ["Degrees", "°"],
  ["Db", "dB"],
  ["Metres", "m"],
];

/** "lfoHz" is the "LFO" in Hz, "decaySeconds" the "decay" in s, "pingPong" the "ping pong" in nothing. */
export function settingName(key: string): { readonly name: string; readonly unit: string } {
  const [ending, unit] = units.find(([end]) => key.endsWith(end) && key.length > end.length) ?? ["", ""];
  const words = key.slice(0, key.length - ending.length).replace(/([a-z])([A-Z0-9])/g, "$1 $2");
  return { name: words.toLowerCase().replace(/\blfo\b/, "LFO"), unit };
}

import type { SheetSetting } from "../rig/wiring/settingsList.js";
import { trimmed } from "../text/numbers.js";
import { unitOf } from "../text/words.js";

/** What to set, a line a channel or box: "Mixer, in 2 (mono): level -4.1 dB, pan 0, mute off". */
export function settingLines(settings: readonly SheetSetting[]): readonly string[] {
  const places = [...new Set(settings.map(placeOf))];
  return places.map((place) => {
    const own = settings.filter((setting) => placeOf(setting) === place);
    return `${place}: ${own.map(settingWords).join(", ")}`;
  });
}

const placeOf = ({ box, jack }: SheetSetting): string => (jack === null ? box : `${box}, ${jack}`);

function settingWords({ key, value }: SheetSetting): string {
  switch (key) {
    case "gainDb":
      return `level ${typeof value === "number" ? trimmed(value, 1) : value} dB`;
    case "pan":
      return `pan ${panWords(Number(value))}`;
    case "muted":
      return `mute ${value ? "on" : "off"}`;
    case "killDry":
      return "kill-dry on, its mix at maximum";
    case "fullyWet":
      return value
        ? "fully wet (kill-dry on, or its mix at maximum)"
        : "its mix at maximum (it cannot go fully wet)";
    default:
      return [key, typeof value === "number" ? trimmed(value, 3) : String(value), unitOf(key)]
        .filter((word) => word !== "")
        .join(" ");
  }
}

/** `hard left`, `centre`, `0.3 right`. */
function panWords(pan: number): string {
  if (pan === 0) return "centre";
  const side = pan < 0 ? "left" : "right";
  return Math.abs(pan) >= 1 ? `hard ${side}` : `${trimmed(Math.abs(pan), 2)} ${side}`;
}

/** Longest file name made here, in UTF-8 bytes: disks allow 255, and endings such as `.mono.wav` come behind. */
const longestBytes = 120;

/** Names that Windows keeps for devices. Source: Microsoft, "Naming Files, Paths, and Namespaces", from memory. */
const deviceName = /^(con|prn|aux|nul|conin|conout|clock|(com|lpt)[0-9¹²³])$/u;

/**
 * A file name without ending made from any name: letters and digits of every script stay, in small letters; all else
 * (slashes, quotes, dots, spaces, control and invisible characters) becomes a single hyphen. Never empty, never longer
 * than 120 bytes, never a name that a system keeps for itself, never beginning with a dot or a hyphen.
 *
 * `Ferry Road baritone` gives `ferry-road-baritone`. Different names may give the same one: see `uniqueFileNames`.
 */
export function safeFileName(name: string): string {
  const words = name
    .normalize("NFC")
    .toLowerCase()
    .normalize("NFC")
    .replace(/[^\p{L}\p{M}\p{N}_]+/gu, "-");
  const short = shorten(words.replace(/^[-\p{M}]+/u, ""), longestBytes).replace(/-+$/u, "");
  if (short === "") return "unnamed";
  return deviceName.test(short) ? `${short}-file` : short;
}

/**
 * Safe names for all, in order, no two the same: a later one that collides gets `-2`, `-3` and so on.
 */
export function uniqueFileNames(names: readonly string[]): string[] {
  const safe = names.map(safeFileName);
  const taken = new Set<string>();
  return safe.map((name) => {
    let free = name;
    for (let n = 2; taken.has(free) || (free !== name && safe.includes(free)); n++) {
      const ending = `-${n}`;
      free = shorten(name, longestBytes - ending.length) + ending;
    }
    taken.add(free);
    return free;
  });
}

/** The longest run of whole characters from the start that fits. */
function shorten(text: string, bytes: number): string {
  // Letters of ASCII are characters of a byte each; the rest needs the language's tables, which take a while to load.
  if (/^[\x20-\x7e]*$/.test(text)) return text.slice(0, bytes);
  let used = 0;
  let kept = "";
  for (const { segment } of new Intl.Segmenter("en").segment(text)) {
    used += new TextEncoder().encode(segment).length;
    if (used > bytes) break;
    kept += segment;
  }
  return kept;
}

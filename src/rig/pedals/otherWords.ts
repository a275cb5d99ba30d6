/** Words that players use for kinds of pedals that stand here as several models, or under another name. */
export const otherWords: readonly (readonly [words: readonly string[], models: readonly string[]])[] = [
  [
    ["reverb", "verb", "ambience", "room"],
    ["plate", "hall", "spring"],
  ],
  [["echo", "looper", "tape"], ["delay"]],
  [["distortion", "fuzz", "drive", "od", "saturation"], ["overdrive"]],
  [["eq", "equaliser", "equalizer", "filter"], ["tone"]],
  [["cab", "cabinet", "amp", "amplifier", "cabsim"], ["speaker"]],
  [["ir", "impulse", "convolution", "convolver"], ["response"]],
  [["panner", "pan", "autopan"], ["tremolo"]],
  [["limiter", "sustainer"], ["compressor"]],
  [["volume", "gain", "preamp", "buffer"], ["boost"]],
];

/** The models that a player's word means; none where it means none of them. */
export function modelsCalled(word: string): readonly string[] {
  const asked = word.toLowerCase().replace(/[^a-z]/g, "");
  return otherWords.find(([words]) => words.includes(asked))?.[1] ?? [];
}

/** The words that players use for a model, the usual ones first. */
export const otherWordsFor = (model: string): readonly string[] =>
  otherWords.flatMap(([words, models]) => (models.includes(model) ? words : []));

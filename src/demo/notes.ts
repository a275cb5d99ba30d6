const semitones: Readonly<Record<string, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };

/**
 * The frequency of a note in Hz: `A4` is 440, `B1` is 61.74, `F#3` is 185.00; twelve equal steps an octave.
 *
 * @throws RangeError when it is not a note
 * Source: ISO 16:1975 (A4 = 440 Hz); equal temperament, closed form.
 */
export function noteHz(name: string): number {
  const [, letter, sharp, octave] = /^([A-G])(#?)(\d)$/.exec(name) ?? [];
  if (letter === undefined) throw new RangeError(`noteHz: ${name} is not a note; write A4, F#3, B1`);
  const stepsFromA4 = semitones[letter] + (sharp ? 1 : 0) - 9 + 12 * (Number(octave) - 4);
  return 440 * 2 ** (stepsFromA4 / 12);
}

/** Printed wherever the bench is used. */
export const benchCautions: readonly string[] = [
  "Hearing: headphones off and monitors down before a tone sounds, every time; a sweep is louder than it looks. Start low and raise levels slowly.",
  "Equipment: record ahead of amplifiers and loudspeakers: the top octaves can burn a tweeter. An interface is far louder than a guitar; peaks between -12 and -3 dBFS in the recording are right.",
  "Mains: never lift a safety earth to cure hum. Break a ground loop in the signal, with an isolating transformer, and leave mains wiring to a qualified person under the local code.",
];

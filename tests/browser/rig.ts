/** A rig with a mono unit after the split, for the page's tests. */
export const rigYaml = `name: Weir and tank
playsInto: stereo-desk
pedals:
  - { name: Weir, model: vibrato, jacks: mono-to-stereo, settings: { lfoHz: 1.3, mix: 0.5 }, latencyMs: 1.2 }
  - { name: Ledger, model: delay, jacks: stereo, settings: { delayMs: 210, feedback: 0.3, mix: 0.3, pingPong: true } }
  - { name: Tank, model: plate, jacks: mono, settings: { mix: 0.35 }, price: 240 }
onHand:
  - { box: splitter, outputs: 2, buffered: true }
boxes:
  splitter: { price: 65 }
  mixer: { price: 175 }
mixer: { returnDb: -8 }
`;

/** A keyboard with two outputs into a mono unit. */
export const keysYaml = `name: Gull keys
playsInto: stereo-desk
instrument: { outputs: 2 }
pedals:
  - { name: Bank, model: plate, jacks: mono, settings: { mix: 0.35 } }
`;

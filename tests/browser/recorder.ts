declare global {
  interface Window {
    /** The audio context of the page, whose whole output is rendered at once and kept; there once the page made it. */
    recorder?: {
      /** Does `action` when the page's clock says `seconds`. */
      at(seconds: number, action: () => void): void;
      /** Lets the clock run to the end and gives what came out, left and right: floats as bytes, bytes as letters. */
      run(): Promise<string[]>;
    };
  }
}

/** Seconds that a recorded page plays. */
export const recordedSeconds = 2.2;

/**
 * A script that runs in a page ahead of its own: its AudioContext becomes an offline one, so that its clock stands still
 * until all that a person does has been arranged, and the whole output can be looked at, sample by sample.
 */
export const recordInstead = `
window.AudioContext = class extends OfflineAudioContext {
  baseLatency = 0.01;
  outputLatency = 0;
  constructor({ sampleRate }) {
    super(2, ${recordedSeconds} * sampleRate, sampleRate);
    const done = [];
    window.recorder = {
      at: (seconds, action) => {
        done.push(super.suspend(seconds).then(() => { action(); return super.resume(); }));
      },
      run: async () => {
        const output = await super.startRendering();
        await Promise.all(done);
        return [0, 1].map((side) => {
          const bytes = new Uint8Array(output.getChannelData(side).buffer);
          return bytes.reduce((text, byte) => text + String.fromCharCode(byte), "");
        });
      },
    };
  }
  resume() { return Promise.resolve(); }
  suspend() { return Promise.resolve(); }
  close() { return Promise.resolve(); }
};
`;

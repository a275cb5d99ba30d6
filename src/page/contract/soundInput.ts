/** An audio input of this machine, as the browser names it. */
export interface InputDevice {
  readonly id: string;
  readonly label: string;
}

export type InputState =
  | { readonly kind: "closed" }
  /** The browser asks the person whether this page may listen. */
  | { readonly kind: "asking" }
  /** Why not, and how it is mended. */
  | { readonly kind: "refused"; readonly words: string }
  | {
      readonly kind: "open";
      readonly device: InputDevice;
      readonly rateHz: number;
      readonly channels: number;
    };

/** How loud one channel of the input is. */
export interface InputLevel {
  /** Peak of the last tenth of a second, dBFS; null for digital silence. */
  readonly peakDbfs: number | null;
  /** Highest since the marks were cleared, dBFS. */
  readonly highestDbfs: number | null;
  /** It has come to full scale since the marks were cleared. */
  readonly isClipped: boolean;
}

/** What the page hears of an audio interface: nothing before it is opened. */
export interface SoundInput {
  readonly state: InputState;
  /** Those that the browser names; empty before the first was opened. */
  readonly devices: readonly InputDevice[];
  /** One a channel; empty while it is closed. To be asked for as often as it is drawn. */
  readonly levels: readonly InputLevel[];
  /**
   * Asks the browser to listen; echo cancelling, noise suppression and gain control are off. In a gesture.
   * @param id  of a device; the usual one when left out
   */
  open(id?: string): Promise<void>;
  close(): void;
  /** Highest levels and clip lights begin anew. */
  clearMarks(): void;
}

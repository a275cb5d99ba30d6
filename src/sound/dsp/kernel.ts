/** Channels of one block of sound: `block[channel][frame]`, full scale 1. May be longer than the frames in use. */
export type Block = readonly Float32Array[];

/**
 * A machine that turns blocks into blocks and remembers what it must between them.
 *
 * `process` reads `frames` frames of every input and writes as many of every output. It allocates nothing,
 * may be given blocks of any size, and gives the same bits whatever the sizes are. Outputs never alias inputs.
 */
export interface Kernel {
  process(inputs: Block, outputs: Block, frames: number): void;
}

/** What is told of any setting. */
interface SaidSetting {
  /** What it does, in a few words, for help and page. */
  readonly says?: string;
  /** One of the few that make the sound what it is: it stands first, the rest under "More". */
  readonly isMain?: boolean;
}

/** A number that a person sets. The unit is the end of its key: `depthMs`, `lfoHz`, `levelDb`; none: a fraction. */
export interface NumberSetting extends SaidSetting {
  readonly default: number;
  readonly min: number;
  readonly max: number;
  /** True where equal ratios feel like equal steps (frequencies, times): sliders and sweeps then run on a log scale. */
  readonly log?: boolean;
  /** A whole number, such as a count of voices. */
  readonly whole?: boolean;
}
export interface ChoiceSetting extends SaidSetting {
  readonly default: string;
  readonly choices: readonly string[];
}
export interface SwitchSetting extends SaidSetting {
  readonly default: boolean;
}
/** The name of a file, relative to the rig. */
export interface FileSetting extends SaidSetting {
  readonly default: "";
  readonly file: true;
}
export type Setting = NumberSetting | ChoiceSetting | SwitchSetting | FileSetting;
export type SettingValue = number | string | boolean;

/** The one place where a model's settings, defaults and bounds stand. Rig schema, help, page and messages read it. */
export type SettingTable = Readonly<Record<string, Setting>>;

/**
 * The plain values that go with a table: `Settings<typeof tremoloSettings>` is `{ lfoHz: number, depth: number }`.
 * Of a table that is not known more closely: any settings at all.
 */
export type Settings<T extends SettingTable> = string extends keyof T
  ? Readonly<Record<string, SettingValue>>
  : {
      readonly [K in keyof T]: T[K] extends NumberSetting
        ? number
        : T[K] extends SwitchSetting
          ? boolean
          : T[K] extends { readonly choices: readonly (infer C)[] }
            ? C
            : string;
    };

/** The defaults of a table as plain values. */
export function defaultsOf<T extends SettingTable>(table: T): Settings<T> {
  return Object.fromEntries(
    Object.entries(table).map(([key, setting]) => [key, setting.default]),
  ) as Settings<T>;
}

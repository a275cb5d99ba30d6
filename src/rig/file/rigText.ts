/** A rig file as a text under a name. */
export interface RigText {
  readonly file: string;
  readonly text: string;
}

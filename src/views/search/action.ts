/** Something that can be done, as it is found by its words or struck by its keys. */
export interface Action {
  readonly id: string;
  readonly name: string;
  /** Which part of the work it belongs to. */
  readonly part: string;
  /** As they are shown, 'Ctrl + Z'. */
  readonly keys?: string;
  run(): void;
}

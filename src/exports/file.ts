/** A file as it is handed to a person, whole. */
export interface WrittenFile {
  readonly name: string;
  /** Its media type, with the set of signs where that matters. */
  readonly type: string;
  readonly text: string;
}

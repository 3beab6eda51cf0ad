/** A browser that is driven from outside: what each engine has to be able to do for the journey. */
export interface Engine {
  readonly name: string;
  /** A window of a device that has never been here: nothing is stored in it. One at a time. */
  screen(size: { readonly width: number; readonly height: number }): Promise<Screen>;
  close(): Promise<void>;
}

export interface Screen {
  goto(url: string): Promise<void>;
  reload(): Promise<void>;
  /** What the function gives when it runs in the page. */
  ask<T extends Plain>(inPage: (...of: string[]) => T, ...of: string[]): Promise<T>;
  /** Presses with the engine's own pointer what the function finds in the page; false when it finds nothing. */
  press(find: (...of: string[]) => Element | null, ...of: string[]): Promise<boolean>;
  /** Strikes keys wherever the cursor is, so many milliseconds apart; a line feed is the Enter key. */
  type(keys: string, apart_ms: number): Promise<void>;
  /** A picture of what stands there, as PNG. */
  picture(): Promise<Buffer>;
  close(): Promise<void>;
}

/** What comes out of a page. */
type Plain = string | boolean | null | readonly string[];

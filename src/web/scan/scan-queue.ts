/** Takes the raw text of a scan; the next scan waits until what it gives back is settled. */
export type ScanTaker = (raw: string) => unknown;

/** Between two screens there is a moment in which none takes scans; what is read in it waits for the next one this long. */
const between_ms = 3000;

/**
 * Scans, handed on one at a time in the order in which they were read: to the last one who asked, a dialog before the
 * page under it. While something is being kept they wait, so that a second scan within one save is never lost.
 */
export class ScanQueue {
  private readonly takers: ScanTaker[] = [];
  private readonly waiting: string[] = [];
  private holds = 0;
  private atWork = false;
  private giveUp: ReturnType<typeof setTimeout> | undefined;

  /** Asks for the scans from now on; gives back how to stop. */
  take(taker: ScanTaker): () => void {
    this.takers.push(taker);
    void this.handOn();
    return () => {
      const at = this.takers.lastIndexOf(taker);
      if (at >= 0) this.takers.splice(at, 1);
    };
  }

  /** Lets scans wait until the returned function is called. */
  hold(): () => void {
    this.holds += 1;
    let held = true;
    return () => {
      if (!held) return;
      held = false;
      this.holds -= 1;
      void this.handOn();
    };
  }

  hear(raw: string): void {
    this.waiting.push(raw);
    void this.handOn();
  }

  private async handOn(): Promise<void> {
    if (this.atWork) return;
    this.atWork = true;
    try {
      while (this.waiting.length > 0 && this.holds === 0 && this.takers.length > 0) {
        clearTimeout(this.giveUp);
        this.giveUp = undefined;
        try {
          await this.takers.at(-1)?.(this.waiting.shift() ?? '');
        } catch (error) {
          // One scan that goes wrong does not take those behind it along; the page reports it as any other error.
          reportError(error);
        }
        // What was kept is drawn first: the scan behind it belongs to the screen that stands then.
        await new Promise<void>((done) => setTimeout(done));
      }
    } finally {
      this.atWork = false;
    }
    if (this.waiting.length > 0 && this.holds === 0 && this.giveUp === undefined) {
      this.giveUp = setTimeout(() => {
        this.giveUp = undefined;
        if (this.takers.length === 0) this.waiting.length = 0;
      }, between_ms);
    }
  }
}

/** The scans of this page. */
export const scans = new ScanQueue();

import { cpSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
// Brings the type of `window.roundhandClock` along.
import type {} from '../../src/web/clock.js';
import type { Served } from '../journey/served.js';
import type { Screen } from './screen.js';

declare global {
  interface Window {
    roundhandAhead?: number;
    /** What went wrong in the page unseen, in the engine's own words. */
    roundhandFaults?: string[];
  }
}

const built = fileURLToPath(new URL('../../dist/web', import.meta.url));

/**
 * A copy of the built web app whose pages load one file more, before their own: the clock that the journey holds, and the
 * list of what goes wrong unseen. Not every engine lets a script in before those of the page; a file does it in all.
 */
export class HeldApp {
  private ahead_ms = 0;

  constructor(
    readonly root: string,
    private readonly start: string,
  ) {
    cpSync(built, root, { recursive: true });
    // A packed page would be sent instead of the one that loads the clock.
    for (const packed of ['index.html.br', 'index.html.gz']) rmSync(join(root, packed), { force: true });
    const page = readFileSync(join(root, 'index.html'), 'utf8');
    const held = page.replace('<head>', '<head><script src="/held-clock.js"></script>');
    if (held === page) throw new Error('the page of the web app has no head');
    writeFileSync(join(root, 'index.html'), held);
    this.write();
  }

  /** The clock of the server, of the page that stands there and of all that are loaded later. */
  async pass(minutes: number, seconds: number, served: Served, screen: Screen): Promise<void> {
    this.ahead_ms += (minutes * 60 + seconds) * 1000;
    this.write();
    served.setClock(this.ahead_ms);
    await screen.ask((ahead) => {
      window.roundhandAhead = Number(ahead);
      // Pages look at the time when they come back to the front.
      window.dispatchEvent(new Event('focus'));
      return null;
    }, `${this.ahead_ms}`);
  }

  private write(): void {
    const faults = ['error', 'unhandledrejection'].map(
      (fault) => `addEventListener('${fault}', (e) => roundhandFaults.push('${fault}: ' + (e.message ?? e.reason)));`,
    );
    const clock = [
      'window.roundhandFaults = [];',
      ...faults,
      `window.roundhandAhead = ${this.ahead_ms};`,
      `window.roundhandClock = () => ${Date.parse(this.start)} + window.roundhandAhead;`,
    ];
    writeFileSync(join(this.root, 'held-clock.js'), clock.join('\n'));
  }
}

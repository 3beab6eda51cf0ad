import { expect } from 'vitest';
import { patience_ms } from '../support/patience.js';
import type { Screen } from './screen.js';

declare global {
  interface Window {
    /** What was looked for, and where it stood then. */
    roundhandStood?: WeakMap<Element, number>;
  }
}

/** Keys struck slower than any chip reader strikes them, in milliseconds apart. */
const byHand_ms = 60;

/** So long after a scan the page has answered it, and so long after one that it has not heard it at all. */
const answered_ms = 1_500;
const unheard_ms = 15_000;

/** Somebody at a screen: presses what a person would press, by its words, and reads what stands there. */
export class Hands {
  constructor(
    readonly screen: Screen,
    readonly home: string,
  ) {}

  goto(path: string): Promise<void> {
    return this.screen.goto(`${this.home}${path}`);
  }

  /** A button or a link that is called so. */
  press(name: string | RegExp): Promise<void> {
    return this.reach('button, a[href]', name);
  }

  /** One of what can be ticked or chosen, by a part of its words. */
  choose(words: string | RegExp): Promise<void> {
    return this.reach('label.choice', likeIn(words));
  }

  /** One of a list that opens; it closes again when the page is moved under it by what comes above, as it does for a person. */
  async pick(label: string, option: string): Promise<void> {
    const [button, one] = [likeIn(label), likeIn(option)];
    await this.until(`to pick ${option}`, async () => {
      if (await this.screen.press(found, '[role="option"]', one.source, '', '')) return true;
      if (!(await this.screen.ask(() => document.querySelector('[role="option"]') !== null)))
        await this.screen.press(found, 'button', button.source, '', '');
      return false;
    });
  }

  /** Says of a mark of a kit how it is seen. */
  see(zone: string, how: 'seen' | 'faint' | 'not seen'): Promise<void> {
    return this.reach('.zone button', how, zone);
  }

  async type(label: string, text: string): Promise<void> {
    await this.reach('input, textarea', likeIn(label));
    await this.screen.ask(() => {
      const field = document.activeElement;
      if (field instanceof HTMLInputElement || field instanceof HTMLTextAreaElement) field.select();
      return null;
    });
    await this.screen.type(text, byHand_ms);
  }

  /** A chip reader that types like a keyboard, until the page says `then`; scans again where a scan was cut or not heard. */
  async scan(number: string, then: string | RegExp): Promise<void> {
    const like = likeIn(then);
    let scanned_ms = 0;
    await this.until(`${then} after a scan`, async () => {
      if (await this.screen.ask(isSaid, like.source, like.flags)) return true;
      // A busy machine strikes the keys so far apart that no reader would.
      const cut = await this.screen.ask(isSaid, '\\bCut[:,]', '');
      if (Date.now() - scanned_ms < (cut ? answered_ms : unheard_ms)) return false;
      await this.screen.type(`${number}\n`, 0);
      scanned_ms = Date.now();
      return false;
    });
  }

  async says(words: string | RegExp): Promise<void> {
    const like = likeIn(words);
    await this.until(String(words), () => this.screen.ask(isSaid, like.source, like.flags));
  }

  async saysNot(words: string | RegExp): Promise<void> {
    const like = likeIn(words);
    expect(await this.screen.ask(isSaid, like.source, like.flags), String(words)).toBe(false);
  }

  /** A button that is called so stands there and takes no press. */
  async refuses(name: string): Promise<void> {
    const like = likeWhole(name);
    await this.until(`a dead button ${name}`, () => this.screen.ask(isDead, like.source, like.flags));
  }

  /** Counts every drop that the kit asks for. */
  async countDrops(): Promise<void> {
    while (await this.screen.ask(() => document.querySelector('button.drops:not([disabled])') !== null))
      await this.screen.press(() => document.querySelector('button.drops:not([disabled])'));
  }

  private async reach(among: string, name: string | RegExp, within = ''): Promise<void> {
    const like = likeWhole(name);
    await this.until(`to press ${name}`, () => this.screen.press(found, among, like.source, like.flags, within));
  }

  private async until(what: string, holds: () => Promise<boolean>): Promise<void> {
    const end = Date.now() + patience_ms;
    for (;;) {
      if (await holds()) break;
      if (Date.now() > end) throw new Error(`waited for ${what}; the page says: ${await this.screen.ask(allSaid)}`);
      await new Promise((done) => setTimeout(done, 50));
    }
    expect(await this.screen.ask(() => window.roundhandFaults ?? ['the page has no list of faults'])).toEqual([]);
  }
}

const spaced = (words: string): string => words.replace(/[.*+?^${}()|[\]\\]/g, '\\$&').replaceAll(' ', '\\s+');
const likeIn = (words: string | RegExp): RegExp => (words instanceof RegExp ? words : new RegExp(spaced(words)));
const likeWhole = (words: string | RegExp): RegExp =>
  words instanceof RegExp ? words : new RegExp(`^\\s*${spaced(words)}\\s*$`);

// What follows runs in the page: each stands for itself and takes nothing from this file.

/** The first that is called so and takes a press; null until it stands still in sight with nothing over it. */
const found = (among: string, source: string, flags: string, within: string): Element | null => {
  const like = new RegExp(source, flags);
  for (const one of document.querySelectorAll(among)) {
    const labels = one instanceof HTMLInputElement || one instanceof HTMLTextAreaElement ? [...(one.labels ?? [])] : [];
    const named = (one.getAttribute('aria-labelledby')?.split(' ') ?? []).map((id) => document.getElementById(id));
    const words = [...labels, ...named].map((label) => label?.textContent ?? '').join(' ');
    const name = one.getAttribute('aria-label') ?? (words || (one.textContent ?? ''));
    if (!like.test(name.trim())) continue;
    if (one.matches(':disabled, [aria-disabled="true"], [data-held]')) continue;
    if (within !== '' && !(one.closest('.zone')?.textContent ?? '').includes(within)) continue;
    // Words of a link that go on in a second line have two boxes; the pointer goes to the first.
    const [box] = one.getClientRects();
    if (box === undefined) continue;
    const over = document.elementFromPoint(box.left + box.width / 2, box.top + box.height / 2);
    // What has only just come to stand there may still be moved on by what comes above it.
    window.roundhandStood ??= new WeakMap();
    const still = window.roundhandStood.get(one) === box.top;
    window.roundhandStood.set(one, box.top);
    if (over !== null && one.contains(over)) return still ? one : null;
    // Only what is not in sight: a list that opens is closed by scrolling.
    one.scrollIntoView({ block: 'center', inline: 'nearest', behavior: 'instant' });
    return null;
  }
  return null;
};

const isDead = (source: string, flags: string): boolean => {
  const like = new RegExp(source, flags);
  return [...document.querySelectorAll('button')].some((one) => like.test(one.textContent ?? '') && one.disabled);
};

// biome-ignore lint/performance/useDomNodeTextContent: what is drawn, not what lies hidden in the page
const isSaid = (source: string, flags: string): boolean => new RegExp(source, flags).test(document.body.innerText);

// biome-ignore lint/performance/useDomNodeTextContent: what is drawn, not what lies hidden in the page
const allSaid = (): string => document.body.innerText;

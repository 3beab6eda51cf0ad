import AxeBuilder from '@axe-core/playwright';
import type { Locator, Page } from 'playwright-core';
import { expect } from 'vitest';
import { patience_ms } from '../../support/patience.js';
import { rawIn } from './raw-text.js';

/**
 * A phone or a desk computer in somebody's hands: presses what a person would press, by its words. Every screen that is
 * looked at is held to the same marks: nothing for axe to find, nothing that scrolls sideways.
 */
export class Device {
  readonly seen: string[] = [];

  constructor(
    readonly page: Page,
    readonly home: string,
  ) {
    page.setDefaultTimeout(patience_ms);
    page.on('pageerror', (error) => {
      throw error;
    });
  }

  open(path: string): Promise<unknown> {
    return this.page.goto(`${this.home}${path}`);
  }

  button(name: string | RegExp) {
    return this.page.getByRole('button', { name, ...(typeof name === 'string' ? { exact: true } : {}) }).first();
  }

  /** What is called so and takes a press: a second press within half a second is taken for the same one. */
  ready(name: string | RegExp) {
    return this.button(name).and(this.page.locator(':not([data-held])'));
  }

  /** When the page has drawn what was asked of it so far, however slow it is. */
  async drawn(): Promise<void> {
    await this.page.evaluate(
      () => new Promise<void>((done) => requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(done)))),
    );
  }

  /** Presses once. */
  async press(name: string | RegExp): Promise<void> {
    await this.ready(name).click();
  }

  /**
   * Presses what is there, one after the other, until none is left. What goes between the look and the press has been
   * pressed enough; that is no reason to wait for it.
   */
  async pressAway(what: Locator): Promise<void> {
    const ready = what.and(this.page.locator(':not([data-held]):not([disabled])'));
    while ((await what.count()) > 0) {
      await ready
        .first()
        .click({ timeout: 2_000 })
        .catch(() => undefined);
      await this.drawn();
    }
  }

  /** A double tap whose second touch lands on what the first one has brought: as soon as that stands, in its own frame. */
  async tapTwice(name: string, brings: string): Promise<void> {
    const box = await this.ready(name).boundingBox();
    if (box === null) throw new Error(`${name} is not on the page`);
    const at = { x: box.x + box.width / 2, y: box.y + box.height / 2, brings };
    await this.page.evaluate(async ({ x, y, brings }) => {
      const touch = (): void => (document.elementFromPoint(x, y)?.closest('button, a') as HTMLElement | null)?.click();
      touch();
      while (!(document.body.textContent ?? '').includes(brings)) await new Promise(requestAnimationFrame);
      touch();
    }, at);
  }

  async choose(label: string | RegExp): Promise<void> {
    await this.page.locator('label.choice', { hasText: label }).first().click();
  }

  /** One of a list that opens. */
  async pick(label: string | RegExp, option: string | RegExp, which = 0): Promise<void> {
    const name = typeof label === 'string' ? new RegExp(label) : label;
    await this.page.getByRole('button', { name }).nth(which).click();
    await this.page.getByRole('option', { name: option }).first().click();
  }

  async says(text: string | RegExp): Promise<void> {
    await this.page.getByText(text).first().waitFor();
  }

  /** Waits until this is said no more. */
  async settles(text: string | RegExp): Promise<void> {
    await expect.poll(() => this.page.getByText(text).count()).toBe(0);
  }

  async saysNot(text: string | RegExp): Promise<void> {
    expect(await this.page.getByText(text).count(), String(text)).toBe(0);
  }

  /** The name of what has the focus. */
  focused(): Promise<string> {
    return this.page.evaluate(nameOfFocused);
  }

  /** Walks with the Tab key to what is called so, as somebody without a mouse does; fails when it is never reached. */
  async tabTo(name: RegExp, most = 60): Promise<void> {
    const met: string[] = [];
    for (let step = 0; step < most; step += 1) {
      await this.page.keyboard.press('Tab');
      const focused = await this.focused();
      if (name.test(focused)) return;
      met.push(focused);
    }
    throw new Error(`${name} is not among what ${most} presses of Tab reach: ${met.join(' | ')}`);
  }

  /**
   * A reader that types like a keyboard: all keys are on their way before the first has been answered, struck 8 ms
   * apart, however busy the machine is that hears them.
   */
  async scan(code: string): Promise<void> {
    const keys = await this.page.context().newCDPSession(this.page);
    const enter = { key: 'Enter', code: 'Enter', windowsVirtualKeyCode: 13, text: '\r' };
    const begun = Date.now() / 1000;
    const strokes = [...[...code].map((key) => ({ key, text: key })), enter].map((stroke, index) => ({
      ...stroke,
      timestamp: begun + index * 0.008,
    }));
    await Promise.all(
      strokes.flatMap((stroke) => [
        keys.send('Input.dispatchKeyEvent', { type: 'keyDown', ...stroke }),
        keys.send('Input.dispatchKeyEvent', { type: 'keyUp', key: stroke.key, timestamp: stroke.timestamp }),
      ]),
    );
    await keys.detach();
  }

  async type(label: string | RegExp, text: string): Promise<void> {
    await this.page.getByLabel(label).first().fill(text);
  }

  /** Holds the screen that stands there now to the marks of every screen; 320 px is the narrowest phone. */
  async lookAt(name: string): Promise<void> {
    const { page } = this;
    this.seen.push(name);
    const size = page.viewportSize();
    if (size !== null && size.width < 600) {
      await page.setViewportSize({ width: 320, height: 700 });
      await this.drawn();
      expect(await sideways(page), `${name} scrolls sideways at 320 px`).toBe(0);
      await page.setViewportSize(size);
      await this.drawn();
    }
    expect(await sideways(page), `${name} scrolls sideways`).toBe(0);
    // biome-ignore lint/performance/useDomNodeTextContent: what is drawn, not what lies hidden in the page
    const drawn = await page.locator('body').innerText();
    expect(rawIn(drawn, new URL(page.url()).pathname), `what no person reads, on ${name}`).toEqual([]);
    const { violations } = await new AxeBuilder({ page }).analyze();
    const found = violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html).join(' | ')}`);
    expect(found, `axe on ${name}`).toEqual([]);
  }
}

/** In the page: what assistive technology would call the element with the focus, near enough. */
const nameOfFocused = (): string => {
  const here = document.activeElement;
  if (here === null) return '';
  const ids = here.getAttribute('aria-labelledby')?.split(' ') ?? [];
  const labelled = ids.map((id) => document.getElementById(id)?.textContent ?? '').join(' ');
  const label = here instanceof HTMLInputElement || here instanceof HTMLTextAreaElement ? here.labels?.[0] : null;
  const text = here.getAttribute('aria-label') ?? (labelled.trim() || label?.textContent || here.textContent);
  return (text ?? '').trim();
};

const sideways = (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);

import { expect } from 'vitest';
import { Device } from './device.js';

/** The phone of a team on its round. */
export class Phone extends Device {
  async takeDemo(): Promise<void> {
    await this.open('/');
    const people = this.page.locator('label.choice');
    const gaveUp = this.page.getByText('The server did not answer');
    await this.press('Try the demo');
    await people.or(gaveUp).first().waitFor();
    // On a crowded machine the phone may give up before the server answers; the demo stands all the same.
    while ((await gaveUp.count()) > 0) {
      await this.open('/');
      await people.or(this.button('Try the demo')).first().waitFor();
      if ((await people.count()) === 0) await this.press('Try the demo');
      await people.or(gaveUp).first().waitFor();
    }
  }

  async workAs(name: string): Promise<void> {
    await this.choose(name);
    await this.press('Begin');
    await this.says('all sent');
  }

  /** After a pause the phone asks whose hands it is in. */
  async stillUs(): Promise<void> {
    await this.says(/It records for Tove Margin with Jonas Blotter/);
    await this.press('Yes, still us');
  }

  /** From the list of a section to one animal; which one comes next is the plan's business. */
  async turnTo(animal: string): Promise<void> {
    await this.page.getByRole('link', { name: animal }).first().click();
    await this.freshGloves();
  }

  /** Puts fresh gloves on where the page of an animal asks for them before anything else. */
  async freshGloves(): Promise<void> {
    await this.page.locator('.animal-head, .stop-screen').first().waitFor();
    const fresh = this.button('✓ Fresh gloves on');
    if ((await fresh.count()) > 0) {
      await this.press('✓ Fresh gloves on');
      // A scan that comes before the change of gloves is kept is refused.
      await fresh.waitFor({ state: 'detached' });
    }
    await this.drawn();
  }

  async goIn(wear: readonly string[]): Promise<void> {
    for (const item of wear) await this.choose(item);
    // Waits for no minutes: what is wet is left outside.
    const wet = this.page.locator('label.choice', { hasText: 'is still wet from' });
    if ((await wet.count()) > 0) await wet.click();
    await this.press('Go in');
    // Kept, and the list of the section stands: whoever leaves the page before that has not gone in.
    await this.button('Go in').waitFor({ state: 'detached' });
  }

  /** Out of a section, whoever is open there; says that they are left, and blood thrown away, where it is asked. */
  async goOut(cleaned: readonly string[] = ['Gloves off', 'Hands washed', 'Table, scale and cart']): Promise<void> {
    for (const item of cleaned) await this.choose(item);
    const blood = await this.page.locator('label.choice', { hasText: /The blood of .* is thrown away/ }).all();
    for (const one of blood) await one.click();
    const known = this.page.locator('label.choice', { hasText: /We leave .* open/ });
    if ((await known.count()) > 0) await known.click();
    await this.press('We are out');
  }

  /** Ticks every mark on record and says that this is the animal. */
  async compareMarks(animal: string): Promise<void> {
    const marks = this.page.locator('main label.choice');
    for (let index = 0; index < (await marks.count()); index += 1) await marks.nth(index).click();
    await this.press(`This is ${animal}`);
  }

  /** Counts the drops and goes through the steps of the kit to the one that starts its clock. */
  async toTheClock(): Promise<void> {
    await this.pressAway(this.page.locator('button.drops:not([disabled])'));
    await this.pressAway(this.button('Done, next'));
  }

  /** The same, and starts it. */
  async runKit(): Promise<void> {
    await this.toTheClock();
    await this.press('Pressed: start the clock');
  }

  /** Answers each zone of the kit by its name. */
  async see(zones: Readonly<Record<string, 'seen' | 'faint' | 'not seen'>>): Promise<void> {
    for (const [zone, answer] of Object.entries(zones)) {
      const box = this.page.locator('.zone', { hasText: zone });
      await box.getByRole('button', { name: answer, exact: true }).click();
    }
  }

  /** Records on this phone that are not sent yet, as its top line says. */
  async unsent(): Promise<number> {
    const text = await this.page.locator('.who-line').textContent();
    return Number(/(\d+) not sent/.exec(text ?? '')?.[1] ?? 0);
  }

  async isSent(): Promise<void> {
    await expect.poll(() => this.unsent()).toBe(0);
  }

  /** How many records of a kind this device holds, read from its own database. */
  records(kind: string): Promise<number> {
    return this.page.evaluate(async (wanted) => {
      const open = indexedDB.open('roundhand');
      const db = await new Promise<IDBDatabase>((resolve, reject) => {
        open.onsuccess = () => resolve(open.result);
        open.onerror = () => reject(open.error);
      });
      const all = db.transaction('records').objectStore('records').getAll();
      const rows = await new Promise<{ kind: string }[]>((resolve, reject) => {
        all.onsuccess = () => resolve(all.result);
        all.onerror = () => reject(all.error);
      });
      db.close();
      return rows.filter((row) => row.kind === wanted).length;
    }, kind);
  }
}

import { Device } from './device.js';

/** The desk: a wide screen, a supervisor. */
export class Desk extends Device {
  async workAs(name: string): Promise<void> {
    await this.open('/');
    await this.choose(name);
    await this.press('Begin');
    await this.says('all sent');
  }

  async acceptRound(round: string, note: string): Promise<void> {
    await this.open(`/rounds/${round}`);
    await this.page.locator('textarea').last().fill(note);
    await this.press(/^Accept/);
  }
}

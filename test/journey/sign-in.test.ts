import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { type Opened, openShelter } from './open-shelter.js';

/** A Thursday afternoon; the shelter is set up by the people of the journey, who are invented. */
const start = '2026-05-14T18:30:00.000Z';
const shelter = openShelter('sign-in', start, { script: './serve-own.mjs' });
let { folder, clock, phone, desk }: Opened = {} as Opened;

beforeAll(() => {
  ({ folder, clock, phone, desk } = shelter());
});

const shownCode = async (): Promise<string> => {
  const code = desk.page.locator('.dialog p.mono');
  await code.waitFor();
  return (await code.textContent()) ?? '';
};

describe.sequential('people sign in to a shelter of their own', () => {
  it('whoever sets it up types the code that was printed, and is its administrator (Verifies: LOG-R206)', async () => {
    await desk.open('/');
    await desk.press('Set up a shelter');
    await desk.type('Name of the shelter', 'Reed House (invented)');
    await desk.type('Your name', 'Wren Alder (invented)');
    await desk.press('Add a person');
    await desk.page.getByLabel('Name', { exact: true }).last().fill('Nell Sedge (invented)');
    await desk.type('Your new password', 'seven quiet kittens');
    await desk.type('The code that was printed', 'WRONGCODE2');
    await desk.press('Set up this shelter');
    await desk.says(/This code is not known/);
    await desk.type('The code that was printed', readFileSync(join(folder, 'first-code.txt'), 'utf8'));
    await desk.lookAt('setting up with a code');
    await desk.press('Set up this shelter');
    await desk.says('all sent');
  });

  it('a phone is enrolled by a code, and its volunteer chooses a PIN (Verifies: LOG-R204, LOG-R207, LOG-R209)', async () => {
    await desk.open('/device');
    await desk.press('Enrol a device…');
    await desk.type(/^How it is called/, 'Phone 1');
    await desk.press('Make a code');
    const device = await shownCode();
    await desk.lookAt('a code for a device');
    await desk.open('/people');
    await desk.press('How Nell Sedge (invented) signs in');
    await desk.press('Make a code');
    const own = await shownCode();
    await phone.open(`/#enrol=${device}`);
    await phone.says('Who is holding this device?');
    expect(phone.page.url()).not.toContain(device);
    await phone.type('The code for you', own);
    await phone.type('Your new password or PIN', '402917');
    await phone.lookAt('a code for a person');
    await phone.press('Set it and sign in');
    await phone.says('all sent');
  });

  it('she signs out and in again, without the network too (Verifies: LOG-R213)', async () => {
    await phone.press(/^Nell Sedge/);
    await phone.press('Sign out');
    await phone.choose('Nell Sedge (invented)');
    await phone.type('Your password or PIN', '402918');
    await phone.press('Begin');
    await phone.says(/do not belong together/);
    await phone.type('Your password or PIN', '402917');
    await phone.press('Begin');
    await phone.says('all sent');
    await phone.press(/^Nell Sedge/);
    await phone.press('Sign out');
    await phone.page.context().setOffline(true);
    await phone.choose('Nell Sedge (invented)');
    await phone.type('Your password or PIN', '402917');
    await phone.press('Begin');
    await phone.says('Needs somebody now');
    await phone.page.context().setOffline(false);
  });

  it('a stranger learns nothing of who works there, and a revoked phone is out (Verifies: LOG-R212, LOG-R209)', async () => {
    const browser = desk.page.context().browser();
    const other = await browser?.newContext();
    const page = await other?.newPage();
    await page?.goto(desk.home);
    await page?.getByText('Your password').first().waitFor();
    expect(await page?.getByText(/Nell|Reed House/).count()).toBe(0);
    await other?.close();
    await desk.open('/device');
    await desk.press('Revoke Phone 1');
    await desk.page.locator('.dialog').getByRole('button', { name: 'Revoke…' }).click();
    await desk.says(/^revoked/);
    await desk.lookAt('the devices of the shelter');
    await phone.open('/');
    await phone.says(/The server does not know who is working here/);
  });

  it('a desk that nobody touched for ten minutes asks for the password, and is as it was then (Verifies: LOG-R217)', async () => {
    await desk.open('/people');
    await desk.says('all sent');
    await clock.pass(9);
    await desk.says('all sent');
    await clock.pass(2);
    await desk.says(/Nobody has touched this device for a while/);
    await desk.lookAt('a desk that locked itself');
    await desk.page.reload();
    await desk.says(/Nobody has touched this device for a while/);
    const nell = desk.page.getByRole('button', { name: 'How Nell Sedge (invented) signs in' });
    expect(await nell.count()).toBe(0);
    await desk.type('Your password or PIN', 'seven quiet kitten');
    await desk.press('Go on');
    await desk.says(/do not belong together/);
    await desk.type('Your password or PIN', 'seven quiet kittens');
    await desk.press('Go on');
    await nell.waitFor();
  });
});

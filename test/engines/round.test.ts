import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, it } from 'vitest';
import { enginesHere } from '../../scripts/engines.mjs';
import { type Served, serve } from '../journey/served.js';
import { openFirefox } from './firefox.js';
import { Hands } from './hands.js';
import { HeldApp } from './held-app.js';
import type { Engine } from './screen.js';
import { openWebKit } from './webkit.js';

/** A Thursday evening; the ward of this journey is in UTC. */
const start = '2026-05-14T18:30:00.000Z';
/** Invented, as the kittens are; the second is of the ward's box and in no animal. */
const chips = { reed: '900000000301113', fresh: '900000000301126' };
const seen = { control: 'seen', antigen: 'not seen', invalid: 'not seen' } as const;
const phoneSize = { width: 412, height: 900 };
const deskSize = { width: 1280, height: 900 };

const { programs, missing } = enginesHere();
/** What the phone says of its browser, and which of it is to be said in which engine: seen here, on Debian. */
const withheld = {
  shake: 'cannot make the phone vibrate',
  kept: 'does not promise to keep what is on this phone',
  opens: 'Leave it open until the round is handed back',
};
const engines = [
  { name: 'Firefox', open: () => openFirefox(programs.firefox), withholds: ['shake'] },
  { name: 'WebKit', open: () => openWebKit(programs.webkit), withholds: ['shake', 'kept'] },
];

describe.sequential.each(engines)('a whole round in $name', ({ name, open, withholds }) => {
  const closing: (() => unknown)[] = [];
  let engine: Engine;
  let served: Served;
  let app: HeldApp;
  let hands: Hands;
  let round = '';

  const pass = (minutes: number, seconds = 0): Promise<void> => app.pass(minutes, seconds, served, hands.screen);

  beforeAll(async () => {
    if (missing.length > 0) throw new Error(`Not on this computer: ${missing.join(', ')}.`);
    const folder = mkdtempSync(join(tmpdir(), `roundhand-${name}-`));
    closing.push(() => rmSync(folder, { recursive: true, force: true }));
    app = new HeldApp(join(folder, 'web'), start);
    served = await serve(join(folder, 'data'), start, '../engines/serve-engines.mjs', app.root);
    closing.push(served.stop);
    engine = await open();
    closing.push(() => engine.close());
    hands = new Hands(await engine.screen(phoneSize), served.url());
    // Closed already where the desk's window did not open.
    closing.push(() => hands.screen.close().catch(() => undefined));
  });

  afterEach(async ({ task }) => {
    if (task.result?.state !== 'fail') return;
    writeFileSync(join(tmpdir(), `roundhand-${name}-failed.png`), await hands.screen.picture());
  });

  afterAll(async () => {
    for (const close of closing.reverse()) await close();
  });

  it('opens the app, and begins a round with its pair', async () => {
    await hands.goto('/');
    await hands.press('Try the demo');
    await hands.choose('Tove Margin');
    await hands.press('Begin');
    await hands.says('all sent');
    await hands.goto('/rounds/prepare');
    await hands.says('Nobody could be done in less than');
    await hands.pick('Holds', 'Jonas Blotter');
    await hands.press('Begin the round');
    await hands.says('Tove Margin treats, Jonas Blotter holds.');
    round = await hands.screen.ask(() => location.pathname);
  });

  it('does not take the program it has just fetched for a newer one', async () => {
    await hands.saysNot('A newer version is ready');
  });

  it('goes on after pages that were left while they read', async () => {
    for (const soon_ms of [0, 40, 80, 160, 320]) {
      await hands.goto('/due');
      await new Promise((done) => setTimeout(done, soon_ms));
      await hands.goto(round);
    }
    await hands.says('all sent');
  });

  it('says on the phone what this browser will not do', async () => {
    for (const [what, words] of Object.entries(withheld))
      await (withholds.includes(what) ? hands.says(words) : hands.saysNot(words));
  });

  it('takes tests out of the cold, and goes through the door with what is worn there', async () => {
    await hands.press('Take tests out of the cold');
    await hands.press(/^Take \d+ out now/);
    await hands.says('warming, out since 18:30');
    await pass(31);
    await hands.press('Yes, still us');
    await hands.press('To the round');
    await hands.press('Go to Kitten room');
    await hands.says('Touch each when it is on');
    await hands.refuses('Go in');
    await hands.choose('gloves');
    await hands.press('Go in');
  });

  it('knows a kitten by its chip, and weighs it', async () => {
    await hands.press(/^Reed/);
    await hands.press('✓ Fresh gloves on');
    await hands.says('Is this Reed?');
    await hands.scan(chips.reed, 'identified by its chip');
    await hands.type('Weight on the scale', '640');
    await hands.press('✓ Record this weight');
  });

  it('draws the test and starts its clock', async () => {
    await hands.says('Blood first: FeLV test');
    await hands.press('✓ Drawn, usable');
    await hands.choose('The bottle says');
    await hands.press('Right box. Next');
    for (const step of [1, 2, 3]) {
      await hands.says(`Step ${step} of 4`);
      await hands.countDrops();
      await hands.press('Done, next');
    }
    await hands.says('Step 4 of 4');
    await hands.press('Pressed: start the clock');
  });

  it('gives the dose that was worked out from the weight', async () => {
    await hands.says('Roundworm treatment');
    await hands.says('0.13 mL');
    await hands.press('✓ Given as drawn');
    // A kitten too young for the treatment on the skin is combed.
    await hands.says('Comb for fleas');
    await hands.press('✓ Done, nothing to report');
    await hands.says('Reed: a test is running');
  });

  it('implants a chip: scanned before, in its pack and after; a test that was refused is said', async () => {
    await hands.goto(round);
    await hands.press('Go on in Kitten room');
    await hands.press(/^Sedge/);
    for (const mark of ['tag “sedge”', 'tabby', 'shaved s']) await hands.choose(mark);
    await hands.press('This is Sedge');
    await hands.press('Not given…');
    await hands.choose('refused or escaped');
    await hands.press('Record as not given');
    await hands.press('None found in 2 passes');
    await hands.says('the chip in its pack');
    await hands.scan(chips.fresh, 'Implant 900');
    await hands.press('✓ It is in');
    await hands.says('It has to show');
    await hands.scan(chips.fresh, 'Roundworm treatment');
  });

  it('reads the test inside its window, after a reload', async () => {
    await hands.screen.reload();
    await hands.says('8:00');
    await pass(8, 5);
    await hands.press(/^Read Reed’s test now/);
    await hands.refuses('✓ Record this reading');
    for (const [mark, how] of Object.entries(seen)) await hands.see(mark, how);
    await hands.press('✓ Record this reading');
    await hands.says('Negative');
  });

  it('leaves the section, and hands back with a reason for what is left', async () => {
    await hands.goto(`${round}/hand-back`);
    await hands.says('You are still in Kitten room.');
    await hands.refuses('Hand back');
    await hands.press('Leave this section');
    await hands.choose(/We leave .* open/);
    await hands.press('We are out');
    await hands.press('Hand the round back');
    await hands.refuses('Hand back');
    await hands.choose('ran out of time');
    await hands.type('A note for the desk', 'Sedge hissed.');
    await hands.press('Hand back');
    await hands.says('The round is handed back');
    await hands.says('all sent');
  });

  it('comes to the desk, to a device that has never been here', async () => {
    await hands.screen.close();
    hands = new Hands(await engine.screen(deskSize), served.url());
    await hands.goto('/');
    await hands.choose('Ada Quill');
    await hands.press('Begin');
    await hands.says('all sent');
    await hands.goto(round.replace('/round/', '/rounds/'));
    await hands.says('Sedge hissed.');
    await hands.says('ran out of time');
    await hands.press('Reed');
    await hands.says(/640\s*g/);
    await hands.says('Negative');
  });
});

import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createServer } from 'node:https';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type BrowserContext, chromium } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { issue } from '../../src/server/lan/authority.js';
import { Phone } from './pages/phone.js';
import { trustIn } from './pages/trusting.js';
import { type Served, serve } from './served.js';

const folder = mkdtempSync(join(tmpdir(), 'roundhand-lan-'));
const key = (name: string): string => readFileSync(join(folder, 'shelter', 'keys', name), 'utf8');
let served: Served;
const open: BrowserContext[] = [];

/** A browser with a profile of its own. Names are found by its own rules; nothing about certificates is switched off. */
async function browser(profile: string): Promise<BrowserContext> {
  const context = await chromium.launchPersistentContext(join(folder, profile), {
    executablePath: process.env.CHROME_PATH ?? '/usr/bin/chromium',
    args: ['--no-sandbox', '--disable-gpu', '--host-resolver-rules=MAP *.test 127.0.0.1, MAP plain.local 127.0.0.1'],
    viewport: { width: 390, height: 844 },
    hasTouch: true,
  });
  open.push(context);
  return context;
}

beforeAll(async () => {
  served = await serve(join(folder, 'shelter'), '', './serve-lan.mjs');
});
afterAll(async () => {
  for (const context of open) await context.close();
  await served.stop();
  rmSync(folder, { recursive: true, force: true });
});

describe.sequential('a phone on the shelter’s network', () => {
  it('refuses the server while it does not know its authority', async () => {
    const page = await (await browser('stranger')).newPage();
    await expect(page.goto(served.url())).rejects.toThrow('ERR_CERT_AUTHORITY_INVALID');
  });

  it('is led through trusting it by a page without https (Verifies: LAN-R4)', async () => {
    const { port } = new URL(served.url());
    const phone = new Phone(await (open[0] as BrowserContext).newPage(), `http://127.0.0.1:${Number(port) + 1}`);
    await phone.open('/');
    await phone.says('Trust this shelter’s server');
    await phone.says('These steps have not been tried on a real phone');
    await phone.page.getByText('Android phone or tablet').click();
    await phone.says(/Open Settings and look for “CA certificate”/);
    await phone.lookAt('the page that leads through trusting');
    await phone.page.close();
  });

  it('that trusts the authority has what a round needs, and opens with the server stopped', async () => {
    trustIn(join(folder, 'trusting'), key('authority.crt'));
    const phone = new Phone(await (await browser('trusting')).newPage(), served.url());
    await phone.takeDemo();
    await phone.workAs('Tove Margin');
    const offered = await phone.page.evaluate(async () => ({
      secure: isSecureContext,
      camera: typeof navigator.mediaDevices?.getUserMedia,
      lit: typeof navigator.wakeLock?.request,
      worker: (await navigator.serviceWorker.ready).active?.scriptURL,
    }));
    expect(offered).toEqual({ secure: true, camera: 'function', lit: 'function', worker: `${served.url()}/sw.js` });
    await phone.open('/rounds');
    await phone.page.locator('a[href^="/rounds/"]:not([href$="/prepare"])').last().click();
    // The summary of a hand-back names the signed head, as it was signed and kept.
    await phone.says('Signed head of the records');
    await phone.says('Key of the server');
    const kept = readFileSync(join(folder, 'shelter', 'heads.jsonl'), 'utf8')
      .trimEnd()
      .split('\n');
    const { root } = JSON.parse(kept.at(-1) ?? '') as { root: string };
    await phone.says(root.match(/.{1,4}/g)?.join(' ') ?? '');
    await phone.lookAt('the summary of a hand-back with its signed head');
    await phone.open('/rounds/prepare');
    await phone.says('Kitten room A');
    await phone.saysNot('This page came without https');
    await served.stop();
    await phone.page.reload();
    await phone.says('Kitten room A');
    await phone.says(/offline/);
    await served.startAgain();
  });

  it('is fooled by nobody who stole the authority’s key: it stands for this shelter alone (Verifies: LAN-R1)', async () => {
    const authority = { certificate: key('authority.crt'), key: key('authority.key') };
    const stolen = await issue(authority, { name: 'bank.test', addresses: [] }, new Date().toISOString());
    const server = createServer({ cert: stolen.certificate, key: stolen.key }, (_request, reply) =>
      reply.end('fooled'),
    );
    await new Promise<void>((listening) => server.listen(0, '127.0.0.1', listening));
    const { port } = server.address() as AddressInfo;
    const page = await (open[1] as BrowserContext).newPage();
    await expect(page.goto(`https://bank.test:${port}/`)).rejects.toThrow('ERR_CERT_INVALID');
    server.closeAllConnections();
    server.close();
  });

  it('is told before a round what is missing without https (Verifies: LAN-R5)', async () => {
    process.env.ROUNDHAND_PLAIN = '1';
    const plain = await serve(join(folder, 'plain'), '', './serve-lan.mjs');
    delete process.env.ROUNDHAND_PLAIN;
    try {
      const { port } = new URL(plain.url());
      const phone = new Phone(await (await browser('plain')).newPage(), `http://plain.local:${port}`);
      await phone.takeDemo();
      await phone.workAs('Tove Margin');
      await phone.open('/rounds/prepare');
      await phone.says('This page came without https');
      for (const missing of [/does not open again/, /screen is not kept lit/, /cannot look through the camera/])
        await phone.says(missing);
      await phone.lookAt('before a round without https');
      for (const section of ['Kitten room B', 'Foster homes', 'Intake', 'Quarantine', 'Isolation']) {
        if ((await phone.page.locator('label.choice', { hasText: section }).count()) > 0) await phone.choose(section);
      }
      await phone.pick('Holds', 'Jonas Blotter');
      await phone.press('Begin the round');
      await phone.says('Sections, in this order');
      await phone.says('This page came without https');
    } finally {
      await plain.stop();
    }
  });
});

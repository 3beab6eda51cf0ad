import { expect, it } from 'vitest';
import { madeMeanwhile } from './made-meanwhile.js';

const none = { ok: true, value: { state: 'empty' } } as never;
const ready = { ok: true, value: { state: 'ready', name: 'Demo' } } as never;
const away = { ok: false, code: 'unreachable' } as never;

it('a set-up whose answer was slow is waited for while the server is at work on it', async () => {
  const answers = [away, none, ready];
  let waited = 0;
  const found = await madeMeanwhile(
    async () => answers.shift() ?? away,
    async () => {
      waited += 1;
    },
  );
  expect(found).toBe(ready);
  expect(waited).toBe(2);
});

it('says so in the end when it was not', async () => {
  expect(
    await madeMeanwhile(
      async () => away,
      async () => undefined,
    ),
  ).toBe(away);
});

import { describe, expect, it } from 'vitest';
import { page } from 'vitest/browser';
import { Held, onPage } from '../../../../test/support/on-page.js';
import { KeyPad } from './key-pad.js';

const pad = (begin: string, decimals = false) =>
  onPage(
    <Held begin={begin}>
      {(text, change) => (
        <>
          <output>{text === '' ? 'nothing' : text}</output>
          <KeyPad text={text} onText={change} decimals={decimals} />
        </>
      )}
    </Held>,
  );
const tap = (key: string) => page.getByRole('button', { name: key, exact: true }).click();
const text = page.getByRole('status');

describe('the keys under a scale', () => {
  it('make a text of what is tapped, in its order, and take the last sign back', async () => {
    pad('');
    for (const key of ['4', '0', '5', '5']) await tap(key);
    await expect.element(text).toHaveTextContent('4055');
    await page.getByRole('button', { name: /delete|last|back/i }).click();
    await expect.element(text).toHaveTextContent(/^405$/);
  });

  it('have a decimal sign for a scale that shows one only', async () => {
    pad('1', true);
    await page.getByRole('button', { name: /point/i }).click();
    await tap('5');
    await expect.element(text).toHaveTextContent('1.5');
  });

  it('have none for a scale in grams', async () => {
    pad('1');
    await expect.element(text).toBeVisible();
    expect(page.getByRole('button', { name: /point/i }).elements()).toEqual([]);
  });

  it('take no more signs than any scale shows', async () => {
    pad('1234567');
    await tap('8');
    await expect.element(text).toHaveTextContent(/^1234567$/);
  });
});

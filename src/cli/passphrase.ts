import { no, type Outcome, ok } from '../core/said.js';
import { readKeyFile } from '../store/private/keys.js';
import type { Given } from './command.js';

/** Characters that a passphrase has at least: what OWASP ASVS 5.0.0 V6.2.1 advises; a copy can be guessed at for years. */
const least = 15;

/** The passphrase in the file that was given, its first line; null without one. Never from the command line, where others see it. */
export function readPassphrase(given: Given): Outcome<string | null> {
  const file = given.text('passphrase-file');
  if (file === null) return ok(null);
  const read = readKeyFile(file);
  if (!read.ok) return read;
  if (read.value === null) return no('copies.passphrase-missing', { file });
  const passphrase = read.value.split(/\r?\n/)[0] ?? '';
  return [...passphrase].length < least ? no('copies.passphrase-short', { file }) : ok(passphrase);
}

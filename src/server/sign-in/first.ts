import type { Context } from '../context.js';
import { newCode, tokenHash } from './secrets.js';

/** It holds as long as the program runs: whoever reads the console is trusted with the records anyway. */
const forever = '9999-12-31T00:00:00.000Z';

/** Whether a shelter stands in which nobody can sign in as an administrator. */
export async function wantsFirst({ shelter, signIns }: Pick<Context, 'shelter' | 'signIns'>): Promise<boolean> {
  const { demo, people } = await shelter();
  const active = new Set(people.filter((one) => one.active).map(({ id }) => id));
  return (
    !demo && !signIns.administrators().some((one) => active.has(one) && signIns.secretOf(one, 'password') !== null)
  );
}

/** Prints a code for the first administrator while there is none, another one at each start. */
export async function offerFirst(context: Pick<Context, 'shelter' | 'signIns' | 'printCode'>): Promise<void> {
  if (!(await wantsFirst(context))) return;
  const code = newCode();
  context.signIns.putCode({ id: tokenHash(code), use: 'first', whom: '', by: null, until: forever });
  context.printCode(code);
}

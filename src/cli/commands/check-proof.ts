import { readFileSync } from 'node:fs';
import { type Said, said } from '../../core/said.js';
import { checkProof, Proof } from '../../log/tree/signed-head.js';
import { isSigned } from '../../store/private/signer.js';
import { say } from '../../words/say.js';
import type { Command } from '../command.js';
import { done, failed } from '../exit.js';
import { tell } from '../output.js';

/** Look at a proof: needs no records, no server and no key but the one on the paper. */
export const checking: Command = {
  name: 'check-proof',
  argument: { word: 'FILE', required: true },
  options: { key: { value: 'HEX' }, root: { value: 'HEX' } },
  example: 'check-proof proof.json',
  run: async (given) => {
    const file = given.argument ?? '-';
    let proof: Proof;
    try {
      const read = Proof.safeParse(JSON.parse(readFileSync(file === '-' ? 0 : file, 'utf8')));
      if (!read.success) return failed(said('cli.check-proof.malformed'));
      proof = read.data;
    } catch (error) {
      if (error instanceof SyntaxError) return failed(said('cli.check-proof.malformed'));
      return failed(
        said('cli.file-unreadable', { file, detail: error instanceof Error ? error.message : String(error) }),
      );
    }
    const { head } = proof;
    const [key, root] = [given.text('key')?.toLowerCase(), given.text('root')?.toLowerCase()];
    const checked = checkProof(proof, isSigned);
    const fault: Said | null = !checked.ok
      ? checked.why
      : key !== undefined && key !== head.key
        ? said('cli.check-proof.other-key', { key })
        : root !== undefined && root !== head.root
          ? said('cli.check-proof.other-root', { root })
          : null;
    if (fault !== null) return failed(said('cli.check-proof.fault', { why: fault }));
    // In UTC: no shelter's zone is known here.
    const { at } = head;
    if (proof.of === 'record') {
      const { id, kind, seq } = proof.record;
      tell(say('cli.check-proof.record', { id: String(id), kind: String(kind), place: seq, size: head.size, at }));
    } else
      tell(say('cli.check-proof.beginning', { since: proof.from.size, size: head.size, root: proof.from.root, at }));
    tell(say('cli.check-proof.compare', { root: head.root, key: head.key }));
    return done;
  },
};

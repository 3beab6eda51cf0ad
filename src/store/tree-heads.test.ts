import { appendFileSync, existsSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import SqliteDatabase from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { at } from '../../test/support/log.js';
import { shelterLog, weighed } from '../../test/support/shelter-log.js';
import { canonical } from '../log/canonical.js';
import { chainStart, hash } from '../log/hash.js';
import { checkProof, type Proof, type SignedHead } from '../log/tree/signed-head.js';
import { isSigned } from './private/signer.js';
import { sha256 } from './sha256.js';
import { openStore, type SqliteStore, storeFile } from './sqlite/open.js';
import { headFaults, headsFile, headsOf, proveBeginning, proveRecord } from './tree-heads.js';

const noon = at('2026-03-02', '12:00');
let data: string;
let store: SqliteStore;
let log: ReturnType<typeof shelterLog>;
beforeEach(async () => {
  data = mkdtempSync(join(tmpdir(), 'roundhand-heads-'));
  store = await opened();
  log = shelterLog(5);
  await store.append(log.records, noon);
});
afterEach(async () => {
  await store.close();
  rmSync(data, { recursive: true, force: true });
});

async function opened(): Promise<SqliteStore> {
  const outcome = await openStore(data);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.why));
  return outcome.value;
}
const signer = () => headsOf(store, data, () => noon);
async function signed(): Promise<SignedHead> {
  const head = await signer().sign();
  if (!head.ok) throw new Error(JSON.stringify(head.why));
  return head.value;
}
const more = (grams: number) => store.append(log.add([weighed(1, grams, noon)]), noon);
const holds = (proof: unknown): boolean => checkProof(JSON.parse(JSON.stringify(proof)), isSigned).ok;

describe('a signed head', () => {
  it('is kept beside the records, once for the same log, by a key for the server alone (Verifies: HEAD-R2, LAN-R2)', async () => {
    const head = await signed();
    expect(head).toMatchObject({ size: log.records.length, at: noon });
    expect(await signed()).toEqual(head);
    expect(readFileSync(join(data, headsFile), 'utf8')).toBe(`${canonical(head)}\n`);
    expect(statSync(join(data, 'keys', 'head.key')).mode & 0o777).toBe(0o600);
    await more(700);
    const next = await signed();
    expect([next.size, next.key]).toEqual([head.size + 1, head.key]);
    expect(await headFaults(store, data)).toEqual({ kept: 2, wrong: [] });
  });

  it('is the same whether the log was read at once or as it grew', async () => {
    const grown = signer();
    await grown.sign();
    await more(700);
    await more(710);
    const [one, other] = await Promise.all([grown.sign(), grown.sign()]);
    expect(one).toEqual(other);
    rmSync(join(data, headsFile));
    const anew = await signed();
    expect(one.ok && one.value.root).toBe(anew.root);
  });

  it('is not given of an empty log, nor of one that does not prove itself', async () => {
    const empty = mkdtempSync(join(tmpdir(), 'roundhand-heads-'));
    const made = await openStore(empty);
    if (!made.ok) throw new Error('no store');
    expect(await headsOf(made.value, empty, () => noon).sign()).toMatchObject({ ok: false, why: { say: 'head.none' } });
    // Nobody who only looks has a key made.
    expect(existsSync(join(empty, 'keys'))).toBe(false);
    await made.value.close();
    rmSync(empty, { recursive: true });
    spoil((db) => db.exec(`update records set device = 'another' where seq = 3`));
    expect(await signer().sign()).toMatchObject({
      ok: false,
      why: { say: 'server.verify.chain-broken', with: { seq: 3 } },
    });
  });

  it('survives a line that a loss of power cut off', async () => {
    const head = await signed();
    appendFileSync(join(data, headsFile), '{"size":9,"ro');
    expect(signer().kept()).toEqual([head]);
  });
});

describe('a proof by a signed head (Verifies: HEAD-R3)', () => {
  it('shows of each record that it is there, without the log', async () => {
    const head = await signed();
    await more(700);
    for (const { id } of log.records.slice(0, head.size)) expect(holds(await proveRecord(store, id, head))).toBe(true);
    expect(await proveRecord(store, log.records.at(-1)?.id ?? '', head)).toBeNull();
    expect(await proveRecord(store, 'none', head)).toBeNull();
  });

  it('falls with anything in it that is changed', async () => {
    const head = await signed();
    const proof = (await proveRecord(store, log.records[4]?.id ?? '', head)) as Extract<Proof, { of: 'record' }>;
    const with_ = (more: object) => ({ ...proof, ...more });
    const turned = (hex: string) => (hex.startsWith('0') ? '1' : '0') + hex.slice(1);
    for (const wrong of [
      with_({ record: { ...proof.record, kind: 'other' } }),
      with_({ record: { ...proof.record, seq: 4 } }),
      with_({ path: proof.path.map((one, index) => (index === 0 ? turned(one) : one)) }),
      with_({ path: proof.path.slice(1) }),
      with_({ head: { ...head, root: turned(head.root) } }),
      with_({ head: { ...head, size: head.size + 1 } }),
      with_({ head: { ...head, at: at('2026-03-03', '12:00') } }),
      with_({ head: { ...head, signature: turned(head.signature) } }),
      with_({ head: { ...head, key: turned(head.key) } }),
    ])
      expect(holds(wrong)).toBe(false);
    expect(holds(proof)).toBe(true);
  });

  it('shows that an older log is the beginning of this one', async () => {
    const old = await signed();
    await more(700);
    await more(710);
    const head = await signed();
    const proof = await proveBeginning(store, old.size, head);
    expect(proof).toMatchObject({ from: { size: old.size, root: old.root } });
    expect(holds(proof)).toBe(true);
    expect(holds({ ...proof, from: { size: old.size - 1, root: old.root } })).toBe(false);
    expect(holds({ ...proof, from: { size: old.size, root: head.root } })).toBe(false);
    for (const size of [0, head.size + 1]) expect(await proveBeginning(store, size, head)).toBeNull();
  });
});

describe('a log that was written anew (Verifies: HEAD-R4)', () => {
  it('with every hash worked out again is found by the heads that were signed before', async () => {
    const head = await signed();
    await more(700);
    const whole = await signed();
    const records = await store.read();
    spoil((db) => {
      let before = chainStart.hash;
      for (const record of records) {
        const body = record.seq === head.size ? { ...(record.body as object), forged: true } : record.body;
        const mine = hash(before, { ...record, body }, sha256);
        db.prepare('update records set body = ?, hash = ?, before_hash = ? where seq = ?').run(
          canonical(body),
          mine,
          before,
          record.seq,
        );
        before = mine;
      }
      db.prepare('update log_head set hash = ?').run(before);
    });
    expect((await headFaults(store, data)).wrong).toEqual([head, whole]);
  });

  it('or cut off, and so is a head that was changed', async () => {
    const head = await signed();
    writeFileSync(join(data, headsFile), `${canonical({ ...head, at: at('2026-03-01', '12:00') })}\n`);
    expect((await headFaults(store, data)).wrong).toHaveLength(1);
    writeFileSync(join(data, headsFile), `${canonical(head)}\n`);
    spoil((db) => db.exec(`delete from records where seq = ${head.size}`));
    expect((await headFaults(store, data)).wrong).toEqual([head]);
  });
});

function spoil(act: (db: SqliteDatabase.Database) => void): void {
  const db = new SqliteDatabase(join(data, storeFile));
  act(db);
  db.close();
}

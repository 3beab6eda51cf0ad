import { describe, expect, it } from 'vitest';
import { shelter, value } from '../../test/support/app.js';
import { at, day } from '../../test/support/log.js';
import { orderSchedule } from '../core/animal/vet-order.js';
import { type Draft, draft, type LogRecord } from '../log/record.js';

const on = '2026-03-10';
const say = (...parts: Parameters<typeof draft>): Draft => draft(...parts);
const dose = (kit: number, body: object, time = '10:00'): Draft =>
  say(
    'treatment-given',
    `animal:kit-${kit}`,
    { lot: null, volume_ul: null, route: 'by mouth', ...body } as never,
    at(on, time),
  );
const seen = (code: string, time: string): Draft =>
  say('observation-noted', 'animal:kit-1', { code, state: 'present', on: day(on) }, at(on, time));

/** The server at noon of the day, with what it is told and the flags that come of it. */
async function there() {
  const app = await shelter(2);
  app.time.now = at(on, '12:00');
  const send = async (by: string, drafts: readonly Draft[], device = 'phone-a'): Promise<readonly LogRecord[]> => {
    const records = app.log.add(drafts, by, device);
    const { outcomes } = value(await app.as(by).append({ records }));
    expect(outcomes.map(({ outcome }) => outcome)).toEqual(records.map(() => 'stored'));
    return records;
  };
  const flagged = async (code: string) =>
    (await app.store.rows('flags')).filter((row) => (row as { code: string }).code === code);
  return { ...app, send, flagged };
}

describe('what comes in is kept, judged and told', () => {
  it('a dose by a phone that did not know of the hold (Verifies: LOG-R120)', async () => {
    const { send, flagged, store } = await there();
    const hold = { schedules: 'all' as const, code: 'veterinarian', from: day(on), until: null };
    await send('vera', [say('hold-placed', 'animal:kit-1', hold, at(on, '09:59'))], 'desk-1');
    await send('ines', [dose(1, { schedule: 'roundworm', product: 'pyrantel-50' })], 'phone-b');
    expect(await flagged('given-while-held')).toMatchObject([{ severity: 'stop', animal: 'kit-1', state: 'open' }]);
    expect(await store.rows('given')).toHaveLength(1);
  });

  it('a volume that the phone had planned so itself (Verifies: DOSE-R64)', async () => {
    const { send, flagged } = await there();
    await send('ines', [say('animal-weighed', 'animal:kit-1', { grams: 437, entered: '437 g' }, at(on, '08:00'))]);
    const flea = { schedule: 'flea', product: 'imidacloprid-100', route: 'on the skin' };
    await send('ines', [dose(1, { ...flea, volume_ul: 400, planned_ul: 400, grams: 4000 })]);
    expect(await flagged('outside-limits')).toMatchObject([{ severity: 'stop', animal: 'kit-1' }]);
  });

  it('an observation of the medical team that a volunteer withdraws (Verifies: LOG-R122)', async () => {
    const { send, flagged } = await there();
    const [noted] = await send('vera', [seen('fever', '09:00')], 'desk-1');
    if (noted === undefined) throw new Error('nothing noted');
    await send('ines', [say('record-withdrawn', 'animal:kit-1', { reason: 'A slip.' }, at(on, '11:00'), noted.id)]);
    expect(await flagged('observation-taken-back')).toMatchObject([{ animal: 'kit-1', state: 'open' }]);
  });

  it('a move of an animal with suspected ringworm into the quarantine (Verifies: ROUND-R63)', async () => {
    const { send, flagged } = await there();
    await send('vera', [seen('ringworm-suspected', '09:00')], 'desk-1');
    const moved = { section: 'quarantine' as never, kennel: 'N1' };
    await send('ines', [say('animal-moved', 'animal:kit-1', moved, at(on, '11:00'))]);
    expect(await flagged('moved-too-clean')).toMatchObject([{ severity: 'stop', animal: 'kit-1' }]);
  });

  it('an order of which nothing was given, in the list of what is due (Verifies: LOG-R121)', async () => {
    const { send, flagged, app, asking, time } = await there();
    const order = {
      name: 'Worms',
      treat: { is: 'product', product: 'pyrantel-50' },
      starts: '2026-03-06',
      timing: { is: 'times', times: ['08:00', '20:00'] },
      ends: { is: 'after-days', days: 3 },
      vet: 'vera',
    };
    const [written] = await send('vera', [
      say('order-written', 'animal:kit-1', { order } as never, at('2026-03-06', '07:00')),
    ]);
    if (written === undefined) throw new Error('no order');
    time.now = at(on, '12:30');
    const answer = await app.inject({
      method: 'GET',
      url: `/api/due?on=${on}&status=ended-missed`,
      headers: asking('vera'),
    });
    expect(answer.statusCode).toBe(200);
    expect(answer.json()).toMatchObject({
      lines: [{ animal: 'kit-1', schedule: orderSchedule(written.id), status: 'ended-missed' }],
    });
    expect(await flagged('order-missed')).toMatchObject([{ severity: 'stop', animal: 'kit-1', state: 'open' }]);
  });
});

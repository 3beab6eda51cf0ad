import { describe, expect, it } from 'vitest';
import { noon, shelter, value } from '../../test/support/app.js';
import { day } from '../../test/support/log.js';
import { weighed } from '../../test/support/shelter-log.js';
import { PersonId } from '../core/ids.js';
import { writeOrder } from '../log/commands/order.js';
import type { LogRecord } from '../log/record.js';
import { buildWorld } from '../log/views/world.js';

describe('a field with an impossible name (Verifies: LOG-R136)', () => {
  it('turns away its own record and no other', async () => {
    const { as, log, store } = await shelter();
    const [good, bad] = log.add([weighed(1, 620, noon), weighed(2, 630, noon)], 'ines') as [LogRecord, LogRecord];
    const odd = JSON.parse(`{"__proto__":{"grams":1},${JSON.stringify(bad.body).slice(1)}`);
    const { outcomes } = value(await as('ines').append({ records: [good, { ...bad, body: odd }] }));
    expect(outcomes.map(({ outcome, problem }) => problem?.code ?? outcome)).toEqual(['stored', 'record-malformed']);
    expect(await store.rows('weighings')).toHaveLength(1);
  });
});

describe('an order that is due (Verifies: LOG-R134)', () => {
  it('is called by its name', async () => {
    const { as, log } = await shelter();
    const world = buildWorld(log.records);
    const vera = { id: PersonId.parse('vera'), licence: 'INVENTED-1' };
    const order = {
      name: 'Pyrantel, 3 days',
      treat: { is: 'product', product: 'pyrantel-50' as never },
      starts: day('2026-03-02'),
      timing: { is: 'times', times: ['08:30'] },
      ends: { is: 'after-days', days: 3 },
    } as const;
    const drafts = writeOrder(world.shelter, vera, 'kit-1' as never, order as never, noon);
    if (!drafts.ok) throw new Error(JSON.stringify(drafts.why));
    await as('vera').append({ records: log.add(drafts.value, 'vera') });
    const { lines } = value(await as('sol').due({}));
    expect(lines.filter(({ schedule }) => schedule.startsWith('order-')).map((line) => line.scheduleName)).toEqual([
      'Pyrantel, 3 days',
    ]);
  });
});

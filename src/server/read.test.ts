import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { noon, shelter, value } from '../../test/support/app.js';
import { at, day } from '../../test/support/log.js';
import { starterProtocol, wormed } from '../../test/support/shelter-log.js';
import { limits } from '../api/wire.js';
import { SectionId } from '../core/ids.js';
import { fileProtocol } from '../log/commands/shelter.js';
import { draft } from '../log/record.js';

describe('reading', () => {
  it('gives the log by place, page by page, the same to everybody (Verifies: LOG-R1)', async () => {
    const { as, store } = await shelter(8);
    const all = await store.read();
    const read = [];
    for (let after = 0; ; ) {
      const page = value(await as('ines').records({ after, limit: 5 }));
      if (page.records.length === 0) break;
      read.push(...page.records);
      after = page.next;
    }
    expect(read).toEqual(all);
    const end = value(await as('ines').records({ after: all.length }));
    expect(end).toMatchObject({ records: [], next: all.length, head: { seq: all.length } });
  });

  it('cuts a page short when its text grows too long', async () => {
    const { as, log, store } = await shelter(1);
    const drafts = fileProtocol({ ...starterProtocol, version: '2' }, noon);
    const each = JSON.stringify(drafts).length;
    const many = Math.ceil((1.5 * limits.pageText) / each);
    log.add(Array.from({ length: many }, () => drafts).flat(), 'sol');
    await store.append(log.records, noon);
    const page = value(await as('ines').records({ after: 0, limit: 1000 }));
    expect(page.records.length).toBeLessThan(log.records.length);
    const rest = value(await as('ines').records({ after: page.next, limit: 1000 }));
    expect(rest.records[0]?.seq).toBe(page.next + 1);
  });

  it('lists what is due today and on another day, by section, schedule and status', async () => {
    const { as, log } = await shelter(3);
    await as('ines').append({ records: log.add([wormed(1, noon)], 'ines') });
    const today = value(await as('ines').due());
    expect(today.on).toBe('2026-03-02');
    expect(today.lines.map(({ name }) => name)).toEqual(expect.arrayContaining(['Kit 1', 'Kit 2', 'Kit 3']));
    const worms = value(await as('ines').due({ schedule: 'roundworm' })).lines;
    expect(worms.map(({ name, status }) => [name, status === 'not-yet'])).toEqual([
      ['Kit 1', true],
      ['Kit 2', false],
      ['Kit 3', false],
    ]);
    expect(worms[0]).toMatchObject({ label: '001', sectionName: 'Nursery', protocol: 'starter@1', dose: 2 });
    expect(worms[0]?.scheduleName).not.toBe('roundworm');
    const open = value(await as('ines').due({ schedule: 'roundworm', status: ['due', 'overdue'] })).lines;
    expect(open.map(({ name }) => name)).toEqual(['Kit 2', 'Kit 3']);
    const later = value(await as('ines').due({ schedule: 'roundworm', on: day('2026-05-01'), status: ['overdue'] }));
    expect(later.lines.map(({ name }) => name)).toEqual(['Kit 1', 'Kit 2', 'Kit 3']);
    expect(value(await as('ines').due({ section: SectionId.parse('quarantine') })).lines).toEqual([]);
  });

  it('writes the due list as CSV that reads back as the same text (RFC 4180)', async () => {
    const { app, as, asking, log } = await shelter(2);
    const odd = { name: '=HYPERLINK("x")', label: '0012', notes: '' };
    await as('sol').append({ records: log.add([draft('animal-described', 'animal:kit-1', odd, noon)], 'sol') });
    const answer = await app.inject({ url: '/api/due?format=csv', headers: asking('ines') });
    expect(answer.headers['content-type']).toContain('text/csv');
    const read = Papa.parse<Record<string, string>>(answer.body, { header: true, skipEmptyLines: true });
    expect(read.errors).toEqual([]);
    const lines = value(await as('ines').due()).lines;
    expect(read.data.map(({ label, due_on, status }) => [label, due_on, status])).toEqual(
      lines.map(({ label, due, status }) => [label, due ?? '', status]),
    );
    // A spreadsheet must not run what somebody typed as a name.
    expect(read.data.find(({ label }) => label === '0012')?.name).toBe(`'=HYPERLINK("x")`);
  });

  it('lists animals and flags, with sentences', async () => {
    const { as, log } = await shelter(3);
    const twice = log.add([wormed(1, noon), wormed(1, at('2026-03-02', '12:30'))], 'ines');
    const left = log.add(
      [draft('animal-left', 'animal:kit-2', { how: 'adopted', on: day('2026-03-02') }, noon)],
      'sol',
    );
    await as('sol').append({ records: [...twice, ...left] });
    expect(value(await as('ines').animals()).animals.map(({ name }) => name)).toEqual(['Kit 1', 'Kit 3']);
    expect(value(await as('ines').animals({ inCare: 'no' })).animals.map(({ name }) => name)).toEqual(['Kit 2']);
    const stops = value(await as('sol').flags({ severity: 'stop', state: ['open'] })).flags;
    expect(stops.map(({ code: flag }) => flag)).toContain('given-twice');
    const all = value(await as('sol').flags()).flags;
    expect(all.map(({ severity }) => severity)).toEqual([...all.map(({ severity }) => severity)].sort().reverse());
  });

  it('verifies itself', async () => {
    const { as } = await shelter();
    expect(value(await as('sol').verify())).toMatchObject({ whole: true, unreadable: [], chain: { whole: true } });
  });

  it('works out the new day by itself when it is asked after midnight of the shelter', async () => {
    const { as, log, time } = await shelter(1, 'America/Chicago');
    await as('ines').append({ records: log.add([wormed(1, noon)], 'ines') });
    time.now = '2026-03-03T05:30:00.000Z';
    expect(value(await as('ines').due()).on).toBe('2026-03-02');
    time.now = '2026-03-03T06:30:00.000Z';
    expect(value(await as('ines').due()).on).toBe('2026-03-03');
  });
});

import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { ProtocolDocument } from '../../../../core/protocol/document/document.js';
import { readAt } from '../../../../core/protocol/document/paths.js';
import { sideBySide } from './changes.js';
import { withFrame, withoutValue, withValue } from './edited.js';
import { missingLimits } from './frame-tools.js';
import { readProtocolFile } from './read-file.js';
import { spanIn } from './span-text.js';

const text = readFileSync(new URL('../../../../../protocols/starter-protocol.json', import.meta.url), 'utf8');
const starter = ProtocolDocument.parse(JSON.parse(text));
const grounds = { source: 'starter-choice', standing: 'common-practice' } as const;
const dose = ['schedules', 'core-vaccine', 'series', 'kitten', 'targets', 'until-grown'];
const weeks = (n: number) => ({ span: { weeks: n }, ...grounds, note: '' });

describe('limits of a dose', () => {
  it('can be added where there is none, and taken out again', () => {
    const target = starter.schedules.find((one) => one.id === 'core-vaccine')?.series[0]?.targets[0];
    if (target === undefined) throw new Error('no dose');
    const missing = missingLimits(target, dose, String);
    const way = [...dose, 'age', 'maximum'];
    expect(missing.map((one) => one.way.slice(dose.length).join(' '))).toContain('age maximum');
    const added = withValue(starter, way, { ...weeks(30), of: 'youngest' }, grounds);
    if (!added.ok) throw new Error(JSON.stringify(added.problems));
    expect(readAt(added.document, way).found).toBe(true);
    const back = withoutValue(added.document, way);
    expect(back.ok && back.document).toEqual(starter);
    expect(withoutValue(starter, ['schedules', 'core-vaccine', 'series', 'kitten', 'targets']).ok).toBe(false);
  });

  it('another trigger is written, and shows when versions are compared', () => {
    const edited = withFrame(starter, [...dose, 'on'], { is: 'age' });
    if (!edited.ok) throw new Error(JSON.stringify(edited.problems));
    const rows = sideBySide(starter, edited.document).filter((row) => row.change !== 'same');
    expect(rows.map((row) => [row.schedule, row.what])).toEqual([
      ['Core vaccine', 'kitten, until-grown: What makes it due'],
    ]);
  });

  it('what sets a hold off shows when versions are compared', () => {
    const hold = ['schedules', 'core-vaccine', 'holds', 'pregnant', 'when', 'code'];
    const edited = withFrame(starter, hold, 'nursing');
    if (!edited.ok) throw new Error(JSON.stringify(edited.problems));
    expect(sideBySide(starter, edited.document).filter((row) => row.change === 'changed')).toHaveLength(1);
  });
});

describe('a length of time that is typed', () => {
  it('is read in its own units, or says why not', () => {
    expect(spanIn({ weeks: '2', days: ' 1 ' })).toEqual({ ok: true, span: { weeks: 2, days: 1 } });
    expect(spanIn({ months: '12', days: '−4' })).toEqual({ ok: true, span: { months: 12, days: -4 } });
    expect(spanIn({ weeks: ' ' })).toEqual({ ok: false, why: 'empty' });
    expect(spanIn({ weeks: '2 1/2' })).toEqual({ ok: false, why: 'not-whole' });
    expect(spanIn({ weeks: '2.0' })).toEqual({ ok: false, why: 'not-whole' });
    expect(spanIn({ weeks: '-3' })).toEqual({ ok: false, why: 'less-than-nothing' });
  });
});

describe('a file with a slip in a name', () => {
  it('is refused with the way to it, instead of losing the value', () => {
    const raw = JSON.parse(text);
    const age = raw.schedules.find((one: { id: string }) => one.id === 'core-vaccine').series[0].targets[0].age;
    // A choice between sources speaks of these ages, so this slip breaks it too.
    age.maximun = age.minimum;
    delete age.minimum;
    const read = readProtocolFile(JSON.stringify(raw));
    const way = 'schedules › core-vaccine › series › kitten › targets › until-grown › age › maximun';
    expect(!read.ok && read.problems[0]?.where).toBe(way);
    expect(!read.ok && read.problems[0]?.sentence).toMatch(/no such field/);
  });
});

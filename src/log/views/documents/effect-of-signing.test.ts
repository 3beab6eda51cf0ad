import { describe, expect, it } from 'vitest';
import { demoOn } from '../../../../test/support/demo.js';
import { starter, starterWith } from '../../../../test/support/protocol.js';
import { changedChoices, changedValues } from '../../../core/protocol/document/compare.js';
import type { ProtocolDocument } from '../../../core/protocol/document/document.js';
import { writeAt } from '../../../core/protocol/document/paths.js';
import { buildWorld, dueIn, inCare } from '../world.js';
import { effectOfSigning } from './effect-of-signing.js';

const demo = demoOn('2026-03-12');
const world = buildWorld(demo.records);
const { shelter } = world;
const inForce = shelter.protocol ?? starter;
const animals = inCare(world);
const effectOf = (draft: ProtocolDocument) => effectOfSigning({ shelter, animals }, draft, demo.today);
const changed = (at: readonly string[], value: unknown): ProtocolDocument =>
  writeAt(inForce, at, value) as ProtocolDocument;
const minimum = ['schedules', 'roundworm', 'series', 'kitten', 'targets', 'two-weekly', 'age', 'minimum'];

describe('what signing would change', () => {
  it('is nothing for the version in force', () => {
    const { effects, animals: count, values, choices, counts } = effectOf(inForce);
    expect({ effects, count, values, choices }).toEqual({ effects: [], count: 0, values: [], choices: [] });
    expect(counts).toEqual({ 'newly-due': 0, 'no-longer-due': 0, moved: 0, otherwise: 0 });
  });

  it('names what is no longer due when a schedule is switched off, and newly due when it is back', () => {
    const off = changed(['schedules', 'roundworm', 'active'], false);
    const due = animals.filter((animal) =>
      dueIn(world, animal, demo.today).some(
        (item) => item.schedule === 'roundworm' && (item.status === 'due' || item.status === 'overdue'),
      ),
    );
    const { effects, counts, bySchedule } = effectOf(off);
    const gone = effects.filter((one) => one.change === 'no-longer-due');
    expect(gone.map((one) => one.animal.name)).toEqual(due.map((animal) => animal.name));
    expect(due.length).toBeGreaterThan(3);
    expect(counts['newly-due']).toBe(0);
    expect(bySchedule.map((one) => one.schedule)).toEqual(['roundworm']);
    const back = effectOfSigning({ shelter: { ...shelter, protocol: off }, animals }, inForce, demo.today);
    expect(back.counts['newly-due']).toBe(gone.length);
  });

  it('names dates that move, and the source the value departs from', () => {
    const until = ['schedules', 'core-vaccine', 'series', 'kitten', 'targets', 'until-grown', 'intervals', '0'];
    const wider = {
      from: { is: 'previous' },
      minimum: { span: { weeks: 3 }, source: 'aaha-aafp-2020-pet', standing: 'read', note: '' },
    };
    const { effects, values } = effectOf(changed(until, wider));
    const moved = effects.filter((one) => one.change === 'moved');
    expect(moved.length).toBeGreaterThan(0);
    for (const one of moved) expect((one.after?.due ?? '') > (one.before?.due ?? '')).toBe(true);
    expect(values.map(({ at, departsFrom, restsOn }) => [at.at(-1), departsFrom, restsOn])).toEqual([
      ['minimum', 'aaha-aafp-2020-shelter', 'aaha-aafp-2020-pet'],
      ['latestRecommended', 'aaha-aafp-2020-shelter', null],
    ]);
  });

  it('counts an animal once', () => {
    const { effects, animals: count } = effectOf({ ...inForce, schedules: [] });
    expect(count).toBe(new Set(effects.map((one) => one.animal.id)).size);
    expect(effects.length).toBeGreaterThan(count);
  });
});

describe('two versions', () => {
  it('share all but the values of another option, and name it', () => {
    const other = starterWith({ 'roundworm-youngest': 'two-weeks' });
    expect(changedValues(starter, other)).toEqual([
      {
        at: minimum,
        before: {
          span: { weeks: 3 },
          of: 'youngest',
          source: 'capc-guidelines',
          standing: 'read',
          note: expect.any(String),
        },
        after: { span: { weeks: 2 }, of: 'youngest', source: 'parasite-table', standing: 'read', note: '' },
        departsFrom: 'capc-guidelines',
        restsOn: 'parasite-table',
      },
    ]);
    const [choice] = changedChoices(starter, other);
    expect(choice).toMatchObject({ id: 'roundworm-youngest', from: { id: 'three-weeks' }, to: { id: 'two-weeks' } });
  });

  it('differ by a schedule that one of them has not', () => {
    const fewer = { ...starter, schedules: starter.schedules.filter((one) => one.id !== 'flea') };
    expect(changedValues(starter, fewer)).toMatchObject([{ at: ['schedules', 'flea'] }]);
    expect(changedValues(fewer, starter)[0]).not.toHaveProperty('before');
  });
});

import { describe, expect, it } from 'vitest';
import { age, giving, once, starter, starterWith } from '../../../../test/support/protocol.js';
import { changedChoices, changedParts, changedValues } from './compare.js';
import { ProtocolDocument } from './document.js';

/** What a veterinarian is shown before a new version is signed: which values, and whose word is left for whose. */
const sources = [
  { id: 'test-source', title: 'One' },
  { id: 'second-source', title: 'Two' },
];
const protocolWith = (schedules: readonly object[], more: object = {}) =>
  ProtocolDocument.parse({
    id: 'small',
    version: '1',
    title: 'A small protocol',
    caution: 'For tests only.',
    sources,
    schedules,
    ...more,
  });
const second = { source: 'second-source', standing: 'read' } as const;
const wormer = (target: object = {}, more: object = {}) => giving('wormer', [once('only', target)], more);
const at = (changes: ReturnType<typeof changedValues>) => changes.map((one) => one.at.join('/'));

describe('values that two versions do not share', () => {
  it('none in the same document, whatever is left out that the form adds', () => {
    expect(changedValues(starter, starter)).toEqual([]);
    expect(changedParts({ a: 1, list: [] }, { a: 1 })).toEqual([]);
  });

  it('a plain one is shown by itself, with neither source where it rests on none', () => {
    expect(changedValues(protocolWith([wormer()]), protocolWith([wormer({}, { visitOrder: 2 })]))).toEqual([
      { at: ['schedules', 'wormer', 'visitOrder'], before: 1, after: 2, departsFrom: null, restsOn: null },
    ]);
    expect(at(changedValues(protocolWith([wormer()]), protocolWith([wormer()], { ageUnknown: 'ask' })))).toEqual([
      'ageUnknown',
    ]);
  });

  it('an age is one statement: its span and its source are shown together', () => {
    const four = { ...age({ weeks: 4 }), note: '' };
    const six = { ...age({ weeks: 6 }), note: '', ...second };
    const changes = changedValues(
      protocolWith([wormer({ age: { minimum: age({ weeks: 4 }) } })]),
      protocolWith([wormer({ age: { minimum: { ...age({ weeks: 6 }), ...second } } })]),
    );
    expect(changes).toEqual([
      {
        at: ['schedules', 'wormer', 'series', 'only', 'targets', 'only', 'age', 'minimum'],
        before: four,
        after: six,
        departsFrom: 'test-source',
        restsOn: 'second-source',
      },
    ]);
  });

  it('what is new rests on its source and departs from none, what is gone the other way round', () => {
    const without = protocolWith([wormer()]);
    const having = protocolWith([wormer({ age: { minimum: age({ weeks: 4 }) } })]);
    const [added] = changedValues(without, having);
    expect(added).toMatchObject({ departsFrom: null, restsOn: 'test-source', after: { span: { weeks: 4 } } });
    expect(added).not.toHaveProperty('before');
    const [gone] = changedValues(having, without);
    expect(gone).toMatchObject({ departsFrom: 'test-source', restsOn: null, before: { span: { weeks: 4 } } });
    expect(gone).not.toHaveProperty('after');
  });

  it('entries are told by their ids, wherever they stand, in the order of the newer version', () => {
    const a = giving('a', [once('only')]);
    const b = giving('b', [once('only')]);
    expect(at(changedValues(protocolWith([a, b]), protocolWith([{ ...b, visitOrder: 3 }, a])))).toEqual([
      'schedules/b/visitOrder',
    ]);
    expect(at(changedValues(protocolWith([a]), protocolWith([b])))).toEqual(['schedules/b', 'schedules/a']);
    expect(at(changedParts({ times: ['08:00', '12:00'] }, { times: ['08:00', '13:00'] }))).toEqual(['times/1']);
    expect(at(changedParts({ list: [{ id: 7 }] }, { list: [{ id: 8 }] }))).toEqual(['list/0/id']);
  });

  it('a sourced value with sourced values inside is shown by its parts, which keep its source', () => {
    const inner = { span: { weeks: 1 }, ...second };
    const outer = (words: string, span: object) => ({
      words,
      source: 'test-source',
      standing: 'read',
      parts: [{ id: 'x', ...inner, span }],
      deep: { note: 'n' },
    });
    const was = outer('before', { weeks: 1 });
    expect(changedParts(was, outer('after', { weeks: 1 }), ['all'])).toEqual([
      { at: ['all', 'words'], before: 'before', after: 'after', departsFrom: 'test-source', restsOn: 'test-source' },
    ]);
    expect(changedParts(was, outer('before', { weeks: 2 }), ['all'])).toMatchObject([
      { at: ['all', 'parts', 'x'], departsFrom: 'second-source', restsOn: 'second-source' },
    ]);
    const plain = { words: 'before', source: 'test-source', standing: 'read', deep: { note: 'n' } };
    expect(at(changedParts(plain, { ...plain, deep: { note: 'm' } }, ['all']))).toEqual(['all']);
    // Sourced values inside fields count as well as those inside lists.
    for (const deep of [{ least: inner }, { note: 'n', least: inner }, ['n', inner]]) {
      const nested = { source: 'test-source', standing: 'read', words: 'w', deep };
      expect(at(changedParts(nested, { ...nested, words: 'v' }))).toEqual(['words']);
    }
    // One side whole, the other with parts of its own: by parts.
    expect(at(changedParts(plain, { ...plain, deep: { least: inner } }))).toEqual(
      ['deep/note', 'deep/least'].reverse(),
    );
    expect(at(changedParts({ ...plain, deep: { least: inner } }, plain))).toEqual(['deep/note', 'deep/least']);
  });

  it('a source alone, without how far it may be trusted, is a plain field', () => {
    const link = (words: string) => ({ source: 'test-source', words });
    expect(changedParts(link('a'), link('b'))).toEqual([
      { at: ['words'], before: 'a', after: 'b', departsFrom: null, restsOn: null },
    ]);
  });

  it('a list that becomes something else is shown whole', () => {
    expect(changedParts({ a: [1] }, { a: { b: 1 } })).toMatchObject([{ at: ['a'], before: [1], after: { b: 1 } }]);
    expect(changedParts({ a: { b: 1 } }, { a: [1] })).toMatchObject([{ at: ['a'], before: { b: 1 }, after: [1] }]);
    expect(changedParts({ a: null }, { a: { b: 1 } })).toMatchObject([{ at: ['a'], before: null, after: { b: 1 } }]);
  });
});

describe('choices that are answered otherwise', () => {
  it('are shown with the option before and the one now, others not', () => {
    expect(changedChoices(starter, starter)).toEqual([]);
    const changed = changedChoices(starter, starterWith({ 'age-unknown': 'ask' }));
    expect(changed.map((one) => [one.id, one.from?.id, one.to.id])).toEqual([['age-unknown', 'hold', 'ask']]);
  });

  it('one that is new has none before; one whose answer is not there is left out', () => {
    const older = { ...starter, choices: starter.choices.filter((one) => one.id !== 'age-unknown') };
    expect(changedChoices(older, starter).map((one) => [one.id, one.from])).toEqual([['age-unknown', null]]);
    const lost = {
      ...starter,
      choices: starter.choices.map((one) => (one.id === 'age-unknown' ? { ...one, chosen: 'gone' } : one)),
    };
    expect(changedChoices(starter, lost)).toEqual([]);
    expect(changedChoices(lost, starter).map((one) => [one.id, one.from])).toEqual([['age-unknown', null]]);
  });
});

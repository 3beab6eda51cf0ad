import { describe, expect, it } from 'vitest';
import { age, giving, once, starter } from '../../../../test/support/protocol.js';
import { choose } from './choose.js';
import { ProtocolDocument } from './document.js';
import { documentProblems } from './document-problems.js';
import { readAt, sameValue, writeAt } from './paths.js';

const grounds = { source: 'test-source', standing: 'read' } as const;
const hold = (id: string) => ({
  id,
  when: { is: 'observation', code: 'ill' },
  present: 'hold',
  unknown: 'go-on',
  words: 'Ill.',
  ...grounds,
});
const option = (id: string, values: readonly object[] = []) => ({ id, words: id, values, ...grounds });
const choice = (id: string, more: object = {}) => ({
  id,
  question: 'Which?',
  options: [option('one'), option('two')],
  default: 'one',
  chosen: 'one',
  ...more,
});
const variant = (id: string, at: readonly string[] = ['ageUnknown']) => ({
  id,
  name: id,
  words: id,
  values: [{ at, value: 'ask' }],
  ...grounds,
});

/** What is wrong with a small protocol, with the way to it. */
function problems(schedules: readonly object[], more: object = {}): string[] {
  const read = ProtocolDocument.safeParse({
    id: 'small',
    version: '1',
    title: 'A small protocol',
    caution: 'For tests only.',
    sources: [{ id: 'test-source', title: 'None' }],
    schedules,
    ...more,
  });
  return read.success ? [] : read.error.issues.map((issue) => `${issue.path.join('/')}: ${issue.message}`);
}
const wormer = (more: object = {}) => giving('wormer', [once('only')], more);

describe('a protocol is refused, and the place is named, Verifies: PROT-R22', () => {
  it('but not one that is right', () => {
    expect(
      problems([wormer()], { choices: [choice('a'), choice('b')], variants: [variant('a'), variant('b')] }),
    ).toEqual([]);
    expect(problems([giving('wormer', [once('only', { times: ['08:00', '17:00'] })])])).toEqual([]);
  });

  it('when something is there twice', () => {
    const source = { id: 'test-source', title: 'None' };
    expect(problems([wormer()], { sources: [source, source] })).toEqual([
      'sources: source test-source is listed twice',
    ]);
    expect(problems([wormer()], { choices: [choice('a'), choice('a')] })).toEqual([
      'choices: choice a is listed twice',
    ]);
    expect(problems([wormer()], { variants: [variant('a'), variant('a')] })).toEqual([
      'variants: variant a is listed twice',
    ]);
    const way = { id: 'only', name: 'Only', targets: [once('only')] };
    expect(problems([wormer({ series: [way, way] })])).toEqual(['schedules/0: series only is there twice']);
    expect(problems([giving('wormer', [once('a'), once('a')])])).toEqual(['schedules/0: target a is there twice']);
    expect(problems([wormer({ holds: [hold('a'), hold('a')] })])).toEqual(['schedules/0: hold a is there twice']);
    const options = [option('one'), option('one')];
    expect(problems([wormer()], { choices: [choice('a', { options })] })).toEqual([
      'choices/0: option one is there twice',
    ]);
  });

  it('when times of a day are not in order, or one is there twice', () => {
    for (const times of [
      ['17:00', '08:00'],
      ['08:00', '08:00'],
      ['08:00', '17:00', '12:00'],
    ]) {
      expect(problems([giving('wormer', [once('only', { times })])])).toEqual([
        'schedules/0: times of target only are not in order',
      ]);
    }
  });

  it('when a variant or a choice leads nowhere', () => {
    expect(problems([wormer()], { variants: [variant('a', ['gone'])] })).toEqual(['variants/0: nothing at gone']);
    const values = [{ at: ['gone', 'away'], value: 1 }];
    const options = [option('one'), option('two', values)];
    expect(problems([wormer()], { choices: [choice('a', { options })] })).toEqual([
      'choices/0: nothing at gone / away',
    ]);
  });

  it('when a source or schedule is named that is not there, deep inside, and says where', () => {
    const deep = giving('wormer', [
      once('a'),
      once('b', { age: { minimum: { ...age({ weeks: 1 }), source: 'nowhere' } } }),
    ]);
    expect(problems([deep])).toEqual([
      'schedules/0/series/0/targets/1/age/minimum/source: no source nowhere in the list',
    ]);
    const when = { is: 'result', of: 'x-ray', result: 'reactive' };
    expect(problems([wormer({ holds: [{ ...hold('a'), when }] })])).toEqual([
      'schedules/0/holds/0/when/of: no schedule x-ray',
    ]);
    // "youngest" is an end of the birth interval, not a schedule; a schedule of that name would be looked for.
    const odd = { is: 'complete', schedule: 'youngest' };
    const skip = [{ all: [odd], words: 'left out', ...grounds }];
    expect(problems([giving('wormer', [once('only', { skip })])])).toEqual([
      'schedules/0/series/0/targets/0/skip/0/all/0/schedule: no schedule youngest',
    ]);
  });

  it('values inside choices and variants are data, not names', () => {
    const value = { source: 'nowhere', schedule: 'nowhere' };
    const options = [option('one'), { ...option('two'), values: [{ at: ['ageUnknown'], value }] }];
    expect(problems([wormer()], { choices: [choice('a', { options })] })).toEqual([]);
  });

  it('after a fault the next one is named at its own place', () => {
    const bad = { ...age({ weeks: 1 }), source: 'nowhere' };
    const two = giving('wormer', [once('a', { age: { minimum: bad } }), once('b', { age: { maximum: bad } })]);
    expect(problems([two]).map((one) => one.split(':')[0])).toEqual([
      'schedules/0/series/0/targets/0/age/minimum/source',
      'schedules/0/series/0/targets/1/age/maximum/source',
    ]);
  });

  it('the starter has none', () => {
    expect(documentProblems(starter)).toEqual([]);
  });
});

describe('choosing what does not fit', () => {
  it('is refused with the reason', () => {
    const bad = { at: ['schedules', 'wormer', 'visitOrder'], value: 'first' };
    const document = ProtocolDocument.parse({
      id: 'small',
      version: '1',
      title: 'A small protocol',
      caution: 'For tests only.',
      sources: [{ id: 'test-source', title: 'None' }],
      schedules: [wormer()],
      choices: [choice('a', { options: [option('one'), option('two', [bad])] })],
    });
    const answer = choose(document, 'a', 'two');
    expect(answer).toMatchObject({ ok: false, why: { say: 'due.choice.does-not-fit' } });
    expect(answer.ok ? '' : answer.why.with?.detail).toMatch(/number/);
  });
});

describe('ways into a document', () => {
  const document = { list: [{ id: 'a' }, { id: 'b' }, { id: '0' }], plain: [10, 20], one: { two: 3 } };

  it('an id comes before a place, and a place is a number', () => {
    expect(readAt(document, ['list', '0'])).toEqual({ found: true, value: { id: '0' } });
    expect(readAt([{ id: '1' }, { id: 'x' }], ['1'])).toEqual({ found: true, value: { id: '1' } });
    expect(readAt(document, ['list', 'a'])).toEqual({ found: true, value: { id: 'a' } });
    expect(readAt(document, ['plain', '0'])).toEqual({ found: true, value: 10 });
    expect(readAt(document, ['plain', 'x'])).toEqual({ found: false });
    expect(readAt(document, ['plain', '-1'])).toEqual({ found: false });
    expect(readAt(document, ['one', 'two', 'three'])).toEqual({ found: false });
    expect(readAt(document, [])).toEqual({ found: true, value: document });
  });

  it('writing where nothing is changes nothing', () => {
    expect(writeAt(document, ['one', 'three'], 1)).toEqual(document);
    expect(writeAt(document, ['plain', '2'], 1)).toEqual(document);
    expect(writeAt(5, ['a'], 1)).toBe(5);
    expect(writeAt(document, ['plain', '1'], 21)).toMatchObject({ plain: [10, 21] });
    expect(writeAt(document, [], 7)).toBe(7);
  });

  it('a list is no set of fields, and only what is empty counts as left out', () => {
    expect(sameValue([1], { 0: 1 })).toBe(false);
    expect(sameValue(['x'], 'x')).toBe(false);
    expect(sameValue({ a: [] }, {})).toBe(true);
    expect(sameValue({ a: [0] }, {})).toBe(false);
    expect(sameValue({ a: { b: 1 } }, {})).toBe(false);
    expect(sameValue({ a: false }, {})).toBe(false);
    expect(sameValue([1, 2], [1, 2])).toBe(true);
    expect(sameValue([1, 2], [2, 1])).toBe(false);
  });
});

import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { starter } from '../../../../test/support/protocol.js';
import { choose } from './choose.js';
import { ProtocolDocument } from './document.js';
import { readAt, sameValue, writeAt } from './paths.js';

const problemsWith = (document: unknown): string[] => {
  const read = ProtocolDocument.safeParse(document);
  return read.success ? [] : read.error.issues.map((issue) => issue.message);
};

describe('the starter protocol', () => {
  it('is a protocol', () => {
    const text = readFileSync(new URL('../../../../protocols/starter-protocol.json', import.meta.url), 'utf8');
    expect(problemsWith(JSON.parse(text))).toEqual([]);
  });

  it('says that it is not for use until signed', () => {
    expect(starter.caution).toMatch(/not for use until signed by a veterinarian/);
  });

  it('has the schedules and classes that rounds, formulary and demo go by', () => {
    const asked = starter.schedules.map(({ id, action, satisfiedBy }) => [id, action, ...satisfiedBy]);
    expect(asked).toEqual([
      ['weighing', 'weigh'],
      ['health-check', 'look', 'health-check'],
      ['ringworm-lamp', 'look', 'ringworm-lamp'],
      ['felv-test', 'test', 'felv-antigen'],
      ['fiv-test', 'test', 'fiv-antibody'],
      ['chip', 'chip'],
      ['chip-recheck', 'look', 'chip-read'],
      ['chip-exit', 'look', 'chip-read'],
      ['core-vaccine', 'give', 'core-vaccine-live'],
      ['rabies', 'give', 'rabies-vaccine'],
      ['felv-vaccine', 'give', 'felv-vaccine'],
      ['roundworm', 'give', 'roundworm'],
      ['coccidia', 'give', 'coccidia'],
      ['tapeworm', 'give', 'tapeworm'],
      ['flea-tablet', 'give', 'flea-tablet'],
      ['flea-comb', 'look', 'flea-comb'],
      ['flea-bath', 'look', 'flea-bath'],
      ['flea', 'give', 'topical-flea'],
      ['ear-mite', 'give', 'ear-mite'],
      ['neuter-check', 'look', 'neuter-ready'],
    ]);
  });

  it('has one visit in this order: weight, blood, chip, injection, by mouth, on the skin', () => {
    const ids = [...starter.schedules].sort((a, b) => a.visitOrder - b.visitOrder).map((schedule) => schedule.id);
    expect(ids).toEqual([
      'health-check',
      'ringworm-lamp',
      'weighing',
      'felv-test',
      'fiv-test',
      'chip',
      'chip-recheck',
      'chip-exit',
      'core-vaccine',
      'rabies',
      'felv-vaccine',
      'roundworm',
      'coccidia',
      'tapeworm',
      'flea-tablet',
      'flea-comb',
      'flea-bath',
      'flea',
      'ear-mite',
      'neuter-check',
    ]);
  });

  it('uses every source it lists', () => {
    const { sources, ...rest } = starter;
    const text = JSON.stringify(rest);
    expect(sources.filter((source) => !text.includes(`"${source.id}"`)).map((source) => source.id)).toEqual([]);
  });

  it('names sources that are in the list of sources, under the same title', () => {
    const url = new URL('../../../../reference/sources.json', import.meta.url);
    const listed: { id: string; title: string }[] = JSON.parse(readFileSync(url, 'utf8'));
    const titles = new Map(listed.map((source) => [source.id, source.title]));
    expect(starter.sources.filter((source) => titles.get(source.id) !== source.title)).toEqual([]);
  });

  it('has nothing chosen but the default', () => {
    expect(starter.choices.filter((choice) => choice.chosen !== choice.default)).toEqual([]);
  });
});

describe('choosing', () => {
  it('every option of the starter gives a protocol, and going back gives the starter again', () => {
    for (const { id, options, chosen } of starter.choices) {
      for (const option of options) {
        const other = choose(starter, id, option.id);
        if (!other.ok) throw new Error(`${id} ${option.id} ${JSON.stringify(other.why)}`);
        expect(other.value.choices.find((choice) => choice.id === id)?.chosen).toBe(option.id);
        expect(sameValue({ ...other.value, choices: [] }, { ...starter, choices: [] })).toBe(option.id === chosen);
        const back = choose(other.value, id, chosen);
        expect(back.ok && back.value).toEqual(starter);
      }
    }
  });

  it('refuses an option that is not there', () => {
    expect(choose(starter, 'core-vaccine-end', 'thirty-weeks')).toMatchObject({
      ok: false,
      why: { say: 'due.choice.unknown' },
    });
    expect(choose(starter, 'no-choice', 'always').ok).toBe(false);
  });
});

describe('a protocol is refused, Verifies: PROT-R22', () => {
  const core = ['schedules', 'core-vaccine'];
  const changed = (at: readonly string[], value: unknown): unknown => writeAt(starter, at, value);

  it('when a value names a source that is not listed', () => {
    expect(problemsWith(changed([...core, 'holds', 'fever', 'source'], 'somewhere'))).toEqual([
      'no source somewhere in the list',
    ]);
  });

  it('when a value says nothing of its standing', () => {
    expect(problemsWith(changed([...core, 'holds', 'fever', 'standing'], undefined))).not.toEqual([]);
  });

  it('when it waits for a schedule that is not there, or for itself', () => {
    const grounds = { source: 'common-practice', standing: 'common-practice' };
    expect(problemsWith(changed([...core, 'needsFirst'], [{ schedule: 'x-ray', ...grounds }]))).toEqual([
      'no schedule x-ray',
    ]);
    expect(problemsWith(changed([...core, 'needsFirst'], [{ schedule: 'core-vaccine', ...grounds }]))).toEqual([
      'a schedule cannot wait for itself',
    ]);
  });

  it('when what is chosen is not what is in force', () => {
    const at = ['choices', 'core-vaccine-end', 'chosen'];
    expect(problemsWith(changed(at, 'sixteen-weeks'))).toHaveLength(1);
    expect(problemsWith(changed(at, 'thirty-weeks'))).toContain('no option thirty-weeks');
  });

  it('when a choice leads nowhere', () => {
    const at = ['choices', 'roundworm-two-weekly', 'options', 'nine-weeks', 'values', '0', 'at'];
    expect(problemsWith(changed(at, ['schedules', 'gone']))).toEqual(['nothing at schedules / gone']);
  });

  it('when an id is there twice', () => {
    const twice = [...starter.schedules, starter.schedules[0]];
    expect(problemsWith({ ...starter, schedules: twice })).toContain('schedule weighing is listed twice');
  });
});

describe('ways into a document', () => {
  const document = {
    list: [
      { id: 'a', n: 1 },
      { id: 'b', n: 2 },
    ],
    plain: [10, 20],
  };

  it('lead by id or by place', () => {
    expect(readAt(document, ['list', 'b', 'n'])).toEqual({ found: true, value: 2 });
    expect(readAt(document, ['plain', '1'])).toEqual({ found: true, value: 20 });
    expect(readAt(document, ['list', 'c', 'n'])).toEqual({ found: false });
    expect(readAt(document, ['plain', '2'])).toEqual({ found: false });
    expect(readAt(document, ['toString'])).toEqual({ found: false });
  });

  it('write a copy and leave the rest as it is', () => {
    expect(writeAt(document, ['list', 'a', 'n'], 5)).toEqual({
      ...document,
      list: [
        { id: 'a', n: 5 },
        { id: 'b', n: 2 },
      ],
    });
    expect(writeAt(document, ['list', 'c', 'n'], 5)).toEqual(document);
    expect(document.list[0]?.n).toBe(1);
  });

  it('what a schema adds by default is the same as left out', () => {
    expect(sameValue({ a: 1 }, { a: 1, note: '', list: [], more: {}, none: null })).toBe(true);
    expect(sameValue({ a: 1 }, { a: 1, b: 0 })).toBe(false);
    expect(sameValue([1, 2], [1, 2, 3])).toBe(false);
  });
});

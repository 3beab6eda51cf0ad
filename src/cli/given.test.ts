import { describe, expect, test } from 'vitest';
import type { Command, Given } from './command.js';
import { isExit } from './exit.js';
import { readGiven } from './given.js';
import { mappingFrom } from './import-answers.js';

const command: Command = {
  name: 'import',
  argument: { word: 'FILE', required: false },
  options: {
    data: { value: 'DIR' },
    map: { value: 'A=B', many: true },
    json: {},
    decimal: { value: 'SIGN', oneOf: ['point', 'comma'] },
  },
  example: 'import FILE',
  run: async () => ({ code: 0 }),
};
const read = (...args: string[]) => readGiven(command, args);
const why = (...args: string[]) => {
  const given = read(...args);
  return isExit(given) ? [given.code, given.why?.say] : null;
};

describe('arguments of a command', () => {
  test('values, repeated values, switches and the file', () => {
    const given = read('--map', 'a=b', 'list.csv', '--map=c=d', '--json', '--data=-odd-') as Given;
    expect([given.argument, given.texts('map'), given.flag('json'), given.text('data')]).toEqual([
      'list.csv',
      ['a=b', 'c=d'],
      true,
      '-odd-',
    ]);
    expect((read() as Given).text('data')).toBeNull();
  });
  test('help comes before everything else', () => {
    expect(read('--help')).toBe('help');
    expect(read('-h')).toBe('help');
    expect(read('list.csv', '--help')).toBe('help');
  });
  test.each([
    [['--nope'], 'cli.unknown-option'],
    [['-x'], 'cli.unknown-option'],
    [['--constructor'], 'cli.unknown-option'],
    [['--no-json'], 'cli.unknown-option'],
    [['--data'], 'cli.option-needs-value'],
    [['--data', '--json'], 'cli.option-needs-value'],
    [['--data='], 'cli.option-needs-value'],
    [['--json=yes'], 'cli.option-takes-no-value'],
    [['--data', 'a', '--data', 'b'], 'cli.option-twice'],
    [['--decimal', 'dot'], 'cli.not-one-of'],
    [['a', 'b'], 'cli.unexpected'],
  ])('%j', (args, key) => {
    expect(why(...args)).toEqual([2, key]);
  });
  test('a file that is needed', () => {
    const strict = { ...command, argument: { word: 'FILE', required: true } };
    const given = readGiven(strict, []);
    expect(isExit(given) && given.why?.say).toBe('cli.argument-missing');
  });
});

describe('columns that a person names (Verifies: IMP-R20)', () => {
  const headings = ['Tag no', 'Called', 'Seen', 'Colour'];
  const map = (...texts: string[]) =>
    mappingFrom({ argument: null, text: () => null, texts: () => texts, flag: () => false }, headings, {
      name: [0],
      coat: [3],
    });
  test('take the place of what was proposed for them and for their field', () => {
    expect(map('tag NO=label', 'Called=name')).toEqual({ label: [0], name: [1], coat: [3] });
    expect(map('Tag no=nothing')).toEqual({ coat: [3] });
  });
  test('one column may serve two fields', () => {
    expect(map('Seen=left', 'Seen=ageOn')).toEqual({ name: [0], left: [2], ageOn: [2], coat: [3] });
  });
  test('texts are put together from several columns, other fields are not', () => {
    expect(map('Called=coat')).toEqual({ name: [0], coat: [3, 1] });
    expect(map('Called=name')).toEqual({ name: [1], coat: [3] });
  });
  test.each(['Tag no', '=label', 'Nope=label', 'Tag no=nope'])('"%s" is answered with a sentence', (text) => {
    expect(isExit(map(text))).toBe(true);
  });
});

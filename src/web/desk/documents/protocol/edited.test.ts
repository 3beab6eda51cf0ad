import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { ProtocolDocument } from '../../../../core/protocol/document/document.js';
import { readAt } from '../../../../core/protocol/document/paths.js';
import { nextVersion, withSource, withValue } from './edited.js';
import { readProtocolFile } from './read-file.js';
import { linesAt } from './ways.js';

const text = readFileSync(new URL('../../../../../protocols/starter-protocol.json', import.meta.url), 'utf8');
const starter = ProtocolDocument.parse(JSON.parse(text));
const grounds = { source: 'starter-choice', standing: 'common-practice' } as const;
const minimum = ['schedules', 'roundworm', 'series', 'kitten', 'targets', 'two-weekly', 'age', 'minimum'];
const at = (weeks: number) => ({ span: { weeks }, of: 'youngest', ...grounds, note: '' });

describe('changing a value', () => {
  it('finds a way to every line of the protocol, and back', () => {
    const lines = linesAt(starter);
    expect(lines.length).toBeGreaterThan(100);
    for (const { way, line } of lines) {
      const found = readAt(starter, way);
      expect(found.found && found.value === line.part, way.join(' ')).toBe(true);
    }
    expect(new Set(lines.map(({ way }) => way.join(' '))).size).toBe(lines.length);
  });

  it('gives the choice it belongs to an option of its own, and keeps the published ones', () => {
    const edited = withValue(starter, minimum, at(4), grounds);
    if (!edited.ok) throw new Error(JSON.stringify(edited.problems));
    const choice = edited.document.choices.find((one) => one.id === 'roundworm-youngest');
    const before = starter.choices.find((one) => one.id === 'roundworm-youngest');
    expect(choice?.chosen).toBe('own');
    expect(choice?.options.slice(0, -1)).toEqual(before?.options);
    expect(starter.choices.find((one) => one.id === 'roundworm-youngest')?.chosen).toBe('three-weeks');
  });

  it('takes the published option again when its value comes back', () => {
    const published = readAt(starter, minimum);
    const edited = withValue(starter, minimum, at(4), grounds);
    if (!edited.ok || !published.found) throw new Error('not edited');
    const back = withValue(edited.document, minimum, published.value, grounds);
    if (!back.ok) throw new Error(JSON.stringify(back.problems));
    expect(back.document).toEqual(starter);
  });

  it('says what is wrong with a value that does not fit, and where', () => {
    const edited = withValue(starter, minimum, { ...at(4), span: { weeks: 1.5 } }, grounds);
    expect(edited.ok).toBe(false);
    if (!edited.ok) expect(edited.problems[0]?.where).toContain('roundworm › series › kitten');
  });

  it('refuses a source that is not in the list', () => {
    const edited = withValue(starter, minimum, { ...at(4), source: 'nowhere' }, grounds);
    expect(edited.ok).toBe(false);
  });
});

describe('sources and numbers', () => {
  it('gives each new source an id of its own', () => {
    const one = withSource(starter, { title: 'Local rule, 2026', where: '', url: '' });
    const two = withSource(one.document, { title: 'Local rule 2026', where: '', url: '' });
    expect([one.id, two.id]).toEqual(['local-rule-2026', 'local-rule-2026-2']);
    expect(ProtocolDocument.safeParse(two.document).success).toBe(true);
  });

  it('makes an id of any title: a long one is not cut off at a hyphen', () => {
    const title = 'Meeting of the medical team, 14 May 2026 (invented)';
    expect(withSource(starter, { title, where: '', url: '' }).id).toBe('meeting-of-the-medical-team-14-may-2026');
    expect(withSource(starter, { title: '  (…) ', where: '', url: '' }).id).toBe('source');
  });

  it('numbers the next version', () => {
    expect(nextVersion(['1-demo', '7', 'draft'])).toBe('8');
    expect(nextVersion([])).toBe('1');
  });
});

describe('a protocol from a file', () => {
  it('comes back as it was written', () => {
    expect(readProtocolFile(JSON.stringify(starter))).toEqual({ ok: true, document: starter });
    expect(readProtocolFile(`\uFEFF${text}`)).toEqual({ ok: true, document: starter });
  });

  it('is refused with a sentence for each problem and the way to it', () => {
    const bad = JSON.parse(text) as { version: unknown; schedules: { visitOrder: unknown }[] };
    bad.version = 3;
    const second = bad.schedules[1];
    if (second !== undefined) second.visitOrder = 'last';
    const read = readProtocolFile(JSON.stringify(bad));
    expect(read.ok).toBe(false);
    if (read.ok) return;
    expect(read.problems.map((one) => one.where)).toEqual(['version', 'schedules › health-check › visitOrder']);
    for (const { where, sentence } of read.problems) expect(sentence).toContain(where);
  });

  it('is refused when it is no JSON at all', () => {
    const read = readProtocolFile('{"id": ');
    expect(!read.ok && read.problems).toHaveLength(1);
  });
});

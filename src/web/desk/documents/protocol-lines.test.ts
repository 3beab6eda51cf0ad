import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { ProtocolDocument } from '../../../core/protocol/document/document.js';
import { everyLine, keepApartLines, nameIn, weightLines } from './protocol-lines.js';

const starter = ProtocolDocument.parse(
  JSON.parse(readFileSync(new URL('../../../../protocols/starter-protocol.json', import.meta.url), 'utf8')),
);

/** Objects with a source anywhere inside a value. */
function sourced(value: unknown): number {
  if (Array.isArray(value)) return value.reduce<number>((sum, one) => sum + sourced(one), 0);
  if (typeof value !== 'object' || value === null) return 0;
  const own = 'source' in value && 'standing' in value ? 1 : 0;
  return own + sourced(Object.values(value));
}

test('a veterinarian reads every sourced value before signing: none of the starter protocol is left out', () => {
  expect(starter.schedules.length).toBeGreaterThan(5);
  for (const schedule of starter.schedules) {
    const lines = everyLine(schedule, nameIn(starter));
    expect([schedule.id, lines.length]).toEqual([schedule.id, sourced(schedule)]);
    expect(lines.filter((one) => one.value === '' || one.value.startsWith('desk.'))).toEqual([]);
  }
});

test('what keeps an animal out of cleaner sections is read before signing, too', () => {
  const lines = keepApartLines(starter);
  expect(lines.length).toBe(sourced(starter.keepApart));
  expect(lines.length).toBeGreaterThan(0);
  expect(lines.map(({ value }) => value)).toContain('while “ill” is noted; no cleaner than Isolation');
});

test('what of a weight is told is read before signing, too', () => {
  const lines = starter.weightWatch.flatMap(weightLines);
  expect(lines.length).toBe(sourced(starter.weightWatch));
  expect(lines.map(({ what, value }) => `${what}: ${value}`)).toEqual(
    expect.arrayContaining([
      'Under 8 weeks: 10\u00a0percent lost within 30 days: tell the medical team now',
      'Under 8 weeks: any loss within 24 hours: somebody looks',
      'First two days: no gain since a weight of 12 hours to 3 days before: tell the medical team now',
    ]),
  );
});

test('each line names a source of the document', () => {
  const known = new Set<string>(starter.sources.map((source) => source.id));
  const lines = [
    ...keepApartLines(starter),
    ...starter.weightWatch.flatMap(weightLines),
    ...starter.schedules.flatMap((schedule) => everyLine(schedule, nameIn(starter))),
  ];
  expect(lines.filter((one) => !known.has(one.source))).toEqual([]);
});

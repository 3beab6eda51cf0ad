import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { ledgerOf, parts, publishedOf } from './published/value.js';
import { loadPart, loadSources, partNames, ReferenceGroup } from './schema.js';

const files = partNames().map(loadPart);
const groups = files.flatMap((file) => file.groups);
const cases = groups.flatMap((group) => group.cases);

describe('the published check values', () => {
  it('are there', () => {
    expect(cases.length).toBeGreaterThan(20);
  });

  it('name sources that are listed once', () => {
    const ids = loadSources().map((source) => source.id);
    expect(new Set(ids).size).toBe(ids.length);
    const unknown = groups.flatMap((group) => [group.source, ...group.also]).filter((id) => !ids.includes(id));
    expect(unknown).toEqual([]);
  });

  it('have ids of their own', () => {
    const ids = cases.map((one) => one.id);
    expect(ids.filter((id, index) => ids.indexOf(id) !== index)).toEqual([]);
  });

  it('carry the name of their file', () => {
    expect(files.map((file) => file.part).sort()).toEqual(partNames().sort());
  });

  it('are refused without a source', () => {
    const group = { rule: 'CAL-R1', standing: 'read', cases: [cases[0]] };
    expect(ReferenceGroup.safeParse(group).success).toBe(false);
  });

  it('stand under rules that are written down', () => {
    const folder = new URL('../../docs/rules/', import.meta.url);
    const text = readdirSync(folder)
      .map((name) => readFileSync(new URL(name, folder), 'utf8'))
      .join('\n');
    const rules = [...new Set(groups.map((group) => group.rule))];
    expect(rules.filter((rule) => !new RegExp(`\\b${rule}\\b`).test(text))).toEqual([]);
  });

  it('do not leave a rule to memory alone', () => {
    const published = parts.flatMap((part) => {
      const { standing } = ledgerOf(part);
      return publishedOf(part).flatMap(({ id, status }) => {
        const one = standing[id];
        return one === undefined || one.is === 'not-asked' ? [] : [{ rule: one.rule, standing: status }];
      });
    });
    const all = [...groups, ...published];
    const firm = new Set(all.filter((one) => !/^from.memory$/.test(one.standing)).map(({ rule }) => rule));
    const weak = [...new Set(all.map(({ rule }) => rule))].filter((rule) => !firm.has(rule));
    const folder = new URL('../../src/', import.meta.url);
    const unitTests = readdirSync(folder, { recursive: true, encoding: 'utf8' })
      .filter((name) => /\.test\.tsx?$/.test(name))
      .map((name) => readFileSync(new URL(name, folder), 'utf8'))
      .join('\n');
    const cited = (rule: string): boolean => new RegExp(`\\b${rule}\\b`).test(unitTests);
    expect(weak.filter((rule) => !cited(rule))).toEqual([]);
  });
});

import type { z } from 'zod';
import { AnimalList, type AnimalsAsked, FlagList, type FlagsAsked } from '../../api/wire.js';
import { plainForm } from '../../core/intake/compare.js';
import type { Said } from '../../core/said.js';
import type { Asked, Context } from '../context.js';

/** The animals of the read table, by name. */
export async function animalList(
  context: Context,
  { section, inCare, find, limit }: z.output<typeof AnimalsAsked>,
): Promise<z.output<typeof AnimalList>> {
  const rows = await context.store.rows('animals', section === undefined ? {} : { section });
  const words = plainForm(find ?? '')
    .split(' ')
    .filter((word) => word !== '');
  const wanted = rows.filter((row) => {
    if (inCare !== 'all' && (row.left_on === null) !== (inCare === 'yes')) return false;
    const text = [row.name, row.label, row.chip ?? '', row.litter ?? '', row.kennel].map(plainForm).join('\n');
    return words.every((word) => text.includes(word));
  });
  const animals = wanted.map((row) => ({
    animal: row.animal,
    label: row.label,
    name: row.name,
    litter: row.litter,
    section: row.section,
    kennel: row.kennel,
    sex: row.sex,
    neutered: row.neutered,
    bornEarliest: row.born_earliest,
    bornLatest: row.born_latest,
    arrivedOn: row.arrived_on,
    leftOn: row.left_on,
    leftHow: row.left_how,
    chip: row.chip,
    weight_g: row.weight_g,
    weighedOn: row.weighed_on,
    originKey: row.origin_key,
  }));
  animals.sort((a, b) => a.name.localeCompare(b.name, 'en', { numeric: true }));
  return AnimalList.parse({ animals: animals.slice(0, limit), found: animals.length });
}

/** The flags of the read table: open ones first, stops before the rest, newest first. */
export async function flagList(
  context: Context,
  { query, say }: Asked<z.output<typeof FlagsAsked>, undefined>,
): Promise<z.output<typeof FlagList>> {
  const { state, severity, animal } = query;
  const rows = await context.store.rows('flags', {
    ...(severity === undefined ? {} : { severity }),
    ...(animal === undefined ? {} : { animal }),
  });
  const flags = FlagList.parse({
    flags: rows.map((row) => ({
      key: row.key,
      code: row.code,
      severity: row.severity,
      animal: row.animal,
      raisedAt: row.raised_at,
      state: row.state,
      reason: say(JSON.parse(row.why) as Said),
    })),
  }).flags.filter((flag) => state === undefined || state.includes(flag.state));
  const weight = (flag: (typeof flags)[number]): number =>
    (flag.state === 'answered' ? 2 : 0) + (flag.severity === 'stop' ? 0 : 1);
  flags.sort((a, b) => weight(a) - weight(b) || (a.raisedAt > b.raisedAt ? -1 : a.raisedAt < b.raisedAt ? 1 : 0));
  return { flags };
}

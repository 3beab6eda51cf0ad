import type { Animal } from '../core/animal/animal.js';
import type { CalendarDate } from '../core/calendar.js';
import type { DueItem } from '../core/protocol/due.js';
import { type After, type Said, said } from '../core/said.js';
import type { Preparation, PreparedSection } from '../log/prepare/prepare.js';
import type { Shelter } from '../log/views/shelter.js';
import type { World } from '../log/views/world.js';
import { say } from '../words/say.js';

/** A round as lines for people: sections in the order of the round, their animals, and what each is due. */
export function roundInWords(world: World, round: Preparation): string[] {
  const { shelter } = world;
  const animals = round.sections.reduce((sum, section) => sum + section.animals.length, 0);
  const title = { name: shelter.name ?? '', day: { date: round.on }, animals };
  const lines = [say('cli.round.title', title), ...cautions(shelter)];
  const met = round.sections.filter((section) => section.animals.length > 0);
  for (const [at, section] of met.entries()) lines.push('', ...sectionInWords(section, at + 1, round));
  if (met.length === 0) lines.push('', say('cli.round.nothing-due'));
  lines.push('', ...afterwords(world, round));
  return lines;
}

/** What every list of this program says besides what it lists. */
export const cautions = (shelter: Shelter): string[] => [
  ...(shelter.demo ? [say('parts.demo')] : []),
  say('parts.advises'),
];

function sectionInWords({ section, animals }: PreparedSection, number: number, round: Preparation): string[] {
  const rank = say(`parts.rank.${section.rank}`);
  const lines = [say('cli.round.section', { number, name: section.name, rank, animals: animals.length })];
  if (section.wear.length > 0) {
    lines.push(say('cli.round.wear', { list: { list: section.wear.map((item) => wearInWords(item)) } }));
  }
  const kennels = Math.max(...animals.map(({ animal }) => animal.kennel.length));
  for (const { animal, due, waiting } of animals) {
    lines.push(
      `  ${animal.kennel.padEnd(kennels)}  ${say(calledIn({ ...animal, litter: animal.litter?.name ?? null }))}`,
    );
    const indent = ' '.repeat(kennels + 6);
    for (const item of [...due, ...waiting]) {
      lines.push(`${indent}${say(itemInWords(item, round.on))}`);
      const stop = stopIn(round, animal, item);
      if (stop !== null) lines.push(`${indent}  ${say('cli.item.stopped', { why: stop })}`);
    }
  }
  return lines;
}

/** What stands against a dose, said in one sentence; null when nothing does. */
export function stopIn({ stopped }: Preparation, animal: Animal, item: DueItem): Said | null {
  return stopped.find((one) => one.animal === animal.id && one.schedule === item.schedule)?.why ?? null;
}

const wearInWords = (item: string): string => (item.startsWith('wear.') ? say(item as `wear.${After<'wear.'>}`) : item);

/** Name, number and litter, as far as there are any. */
export function calledIn(animal: Pick<Animal, 'name' | 'label'> & { readonly litter: string | null }): Said {
  const { name, label } = animal;
  const called = name === '' ? label : name;
  const litter = animal.litter ?? '';
  if (label === '' || name === '')
    return litter === '' ? said('cli.called', { called }) : said('cli.called-of', { called, litter });
  return litter === ''
    ? said('cli.called-numbered', { called, label })
    : said('cli.called-numbered-of', { called, label, litter });
}

/** One due item in a line: sign, schedule, dose, and since or until when. */
export function itemInWords(item: DueItem, on: CalendarDate): Said {
  const what =
    item.action === 'give'
      ? item.inWords === undefined
        ? said('cli.item.dose', { schedule: item.scheduleName, dose: item.dose })
        : said('cli.item.in-words', { schedule: item.scheduleName, dose: item.dose, words: item.inWords })
      : item.scheduleName;
  if (item.status === 'overdue' && item.overdueAfter !== null) {
    return said('cli.item.overdue', { what, day: { date: item.overdueAfter } });
  }
  if (item.status === 'on-hold') {
    const why = item.hold?.why ?? item.because;
    return item.hold?.until == null
      ? said('cli.item.on-hold', { what, why })
      : said('cli.item.on-hold-until', { what, why, day: { date: item.hold.until } });
  }
  if (item.due === null || item.due === on) return said('cli.item.due', { what });
  return said('cli.item.due-on', { what, day: { date: item.due } });
}

/** Who is weighed first, what goes on the cart, what is missing. */
function afterwords(world: World, { weighFirst, cart, problems }: Preparation): string[] {
  const lines: string[] = [];
  const names = weighFirst.flatMap((id) => {
    const animal = world.animals.get(id);
    return animal === undefined ? [] : [animal.name === '' ? animal.label : animal.name];
  });
  if (names.length > 0) lines.push(say('cli.round.weigh-first', { list: { list: names } }));
  const take = [
    ...cart.products.map(({ product, doses, inWords }) =>
      said('cli.round.doses', { name: product.name, doses, inWords }),
    ),
    ...cart.kits.map(({ kit, tests }) => said('cli.round.tests', { name: kit.name, tests })),
    ...(cart.chips > 0 ? [said('cli.round.chips', { chips: cart.chips })] : []),
  ];
  if (take.length > 0) lines.push(say('cli.round.take', { list: { list: take } }));
  lines.push(...problems.map((problem) => say('cli.round.problem', { problem })));
  return lines;
}

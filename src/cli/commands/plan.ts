import { performance } from 'node:perf_hooks';
import type { Animal } from '../../core/animal/animal.js';
import type { DueItem } from '../../core/protocol/due.js';
import { planFromJson } from '../../core/route-plan/calculate.js';
import type { Said } from '../../core/said.js';
import { type Preparation, prepareRound } from '../../log/prepare/prepare.js';
import { lostInWords } from '../../log/views/documents/lost-documents.js';
import type { World } from '../../log/views/world.js';
import { say } from '../../words/say.js';
import type { Given } from '../command.js';
import { type Command, dataOption } from '../command.js';
import { complainOfUnread, withWorld, worldInCare } from '../data-folder.js';
import { readJson } from '../documents.js';
import { done, type Exit, failed, isExit } from '../exit.js';
import { sectionCalled } from '../find.js';
import { tell, withWords } from '../output.js';
import { itemInWords, roundInWords, stopIn } from '../round-in-words.js';

/** Milliseconds after which a plan is given as good as it is by then; the search stops within two seconds. */
const searchMs = 1900;

/** Today's round over all sections, or over those that are named; or the plan of an instance given as a file. */
export const plan: Command = {
  name: 'plan',
  options: { ...dataOption, section: { value: 'NAME', many: true }, json: {}, instance: { value: 'FILE' } },
  example: 'plan --section "Clean kittens"',
  run: async (given) => {
    const file = given.text('instance');
    if (file !== null) return planInstance(file);
    return withWorld(
      given,
      async (world) => {
        const round = roundToday(world, given, new Date().toISOString());
        if (isExit(round)) return round;
        if (given.flag('json')) tell(JSON.stringify(asJson(world, round)));
        else for (const line of roundInWords(world, round)) tell(line);
        return done;
      },
      worldInCare,
    );
  },
};

/** The plan of one section or round as one line of JSON: steps, end, bound and the reasons in words. */
function planInstance(file: string): Exit {
  const input = readJson(file);
  if (!input.ok) return failed(input.why);
  const until = performance.now() + searchMs;
  const plan = planFromJson(input.value, () => performance.now() < until);
  if (!plan.ok) return failed(plan.why);
  tell(JSON.stringify(withWords(plan.value)));
  return done;
}

export function roundToday(world: World, given: Given, now: string): Preparation | Exit {
  const lost = lostInWords(world.shelter);
  if (lost !== null) return failed(lost);
  const wanted = [];
  for (const name of given.texts('section')) {
    const section = sectionCalled(world.shelter, name);
    if (isExit(section)) return section;
    wanted.push(section.id);
  }
  complainOfUnread(world);
  return prepareRound(world, wanted.length > 0 ? wanted : world.shelter.sections.map((one) => one.id), now);
}

/** The shape is described in docs/command-line.md; fields are added, never re-meant. */
function asJson(world: World, round: Preparation): unknown {
  const { shelter } = world;
  const { cart } = round;
  return {
    on: round.on,
    shelter: shelter.name,
    invented: shelter.demo,
    sections: round.sections.map(({ section, animals }) => ({
      section: section.id,
      name: section.name,
      rank: section.rank,
      animals: animals.map(({ animal, due, waiting }) => ({
        animal: animal.id,
        label: animal.label,
        name: animal.name,
        kennel: animal.kennel,
        due: due.map((item) => itemAsJson(item, round, animal)),
        waiting: waiting.map((item) => itemAsJson(item, round, animal)),
      })),
    })),
    weigh_first: round.weighFirst,
    cart: {
      products: cart.products.map(({ product, doses, inWords, volume_ul }) => ({
        product: product.id,
        doses,
        volume_ul,
        doses_in_words: inWords,
      })),
      syringes: cart.syringes.map(({ syringe, count }) => ({ syringe: syringe.id, count })),
      kits: cart.kits.map(({ kit, tests, readySyringes }) => ({ kit: kit.id, tests, ready_syringes: readySyringes })),
      chips: cart.chips,
      glove_pairs: cart.glovePairs,
    },
    problems: round.problems.map((problem) => say(problem)),
  };
}

const itemAsJson = (item: DueItem, round: Preparation, animal: Animal) => ({
  schedule: item.schedule,
  name: item.scheduleName,
  action: item.action,
  dose: item.dose,
  status: item.status,
  earliest_on: item.earliest,
  due_on: item.due,
  overdue_after: item.overdueAfter,
  hold: item.hold?.code ?? null,
  amount_in_words: item.inWords ?? null,
  hold_until: item.hold?.until ?? null,
  stopped: stopWords(stopIn(round, animal, item)),
  words: say(itemInWords(item, round.on)),
});

const stopWords = (stop: Said | null): string | null => (stop === null ? null : say(stop));

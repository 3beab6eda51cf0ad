import { orderNamed } from '../../core/animal/vet-order.js';
import type { ProductId, ScheduleId } from '../../core/ids.js';
import type { Action } from '../../core/protocol/due.js';
import { pairKinds } from '../../core/route-plan/model/instance.js';
import { scheduleNamed } from '../views/due/schedules.js';
import type { World } from '../views/world.js';

/** One line of an animal as the planner sees it. */
export interface Line {
  readonly schedule: ScheduleId;
  readonly action: Action;
  /** draw, weigh, look, chip, injection, oral or topical: what decides how long it takes. */
  readonly kind: string;
}

/** Whether a second person has to hold: for draws and chips. */
export const needsPair = ({ action }: Pick<Line, 'action'>): boolean =>
  pairKinds.includes(action === 'test' ? 'draw' : action);

/** A step of an animal's visit with the lines it does; weighing and looking before a draw are part of the draw. */
export interface Operation {
  readonly kind: string;
  readonly lines: readonly Line[];
}

/** How a product is given, as a kind of operation; what nobody knows takes as long as an injection. */
export function kindOfGiving(world: World, product: ProductId | null): string {
  const route = world.shelter.formulary?.products.find((one) => one.id === product)?.route;
  if (route === undefined) return 'injection';
  if (route === 'by mouth') return 'oral';
  return route === 'on the skin' || route === 'in the ear' || route === 'in the eye' ? 'topical' : 'injection';
}

export function kindOf(world: World, schedule: ScheduleId, action: Action, product: ProductId | null): string {
  if (action === 'test') return 'draw';
  return action === 'give' ? kindOfGiving(world, product ?? usualProduct(world, schedule)) : action;
}

/** The first product of the formulary that a schedule, or an order's line, asks for. */
function usualProduct(world: World, schedule: ScheduleId): ProductId | null {
  const classes: readonly string[] = scheduleNamed(world.shelter, schedule)?.satisfiedBy ?? [];
  const products = world.shelter.formulary?.products ?? [];
  const own = classes.flatMap((wanted) => products.find((one) => one.classes.some((has) => has === wanted)) ?? [])[0];
  return own?.id ?? orderedProduct(world, schedule);
}

function orderedProduct(world: World, schedule: ScheduleId): ProductId | null {
  for (const animal of world.animals.values()) {
    const order = orderNamed(animal, schedule);
    if (order !== null) return order.terms.treat.is === 'product' ? order.terms.treat.product : null;
  }
  return null;
}

/**
 * An animal's lines as operations in the order of one visit. With a test the draw comes first of all; what is seen or
 * weighed before it counts into it, and two tests share one draw.
 */
export function operationsOf(lines: readonly Line[]): Operation[] {
  const tests = lines.filter((line) => line.action === 'test');
  if (tests.length === 0) return lines.map((line) => ({ kind: line.kind, lines: [line] }));
  const first = lines.findIndex((line) => line.action === 'test');
  const before = lines.slice(0, first);
  const after = lines.slice(first).filter((line) => line.action !== 'test');
  return [{ kind: 'draw', lines: [...before, ...tests] }, ...after.map((line) => ({ kind: line.kind, lines: [line] }))];
}

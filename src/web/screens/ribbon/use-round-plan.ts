import { useMemo, useState } from 'react';
import type { RoundPlan } from '../../../core/round/plan/round-shape.js';
import type { Said } from '../../../core/said.js';
import type { RibbonSettings } from '../../../log/kinds/ribbon.js';
import { askFor, type PlanAsk, type PlanChoice } from '../../../log/views/plan/ask.js';
import { settingsOf } from '../../../log/views/plan/settings.js';
import type { Preparation } from '../../../log/views/prepare.js';
import type { World } from '../../../log/views/world.js';
import { type Planned, usePlan } from '../../plan/use-plan.js';
import { type Orders, orderKey, withOrders } from './in-order.js';

/** What a person sets for a plan, and the way to set it. */
export interface Choices {
  readonly teams: number;
  /** `HH:MM`, or empty when the shift does not end the round. */
  readonly endsAt: string;
  readonly settings: RibbonSettings;
  readonly change: (by: Partial<Pick<Choices, 'teams' | 'endsAt' | 'settings'>>) => void;
}

export function useChoices(world: World): Choices {
  const [own, setOwn] = useState<Pick<Choices, 'teams' | 'endsAt'> & { settings: RibbonSettings | null }>({
    teams: 1,
    endsAt: '',
    settings: null,
  });
  const usual = useMemo(() => settingsOf(world.shelter), [world.shelter]);
  return {
    ...own,
    settings: own.settings ?? usual,
    change: (by) => setOwn((before) => ({ ...before, ...by })),
  };
}

export interface RoundPlanning {
  readonly ask: PlanAsk | null;
  readonly planned: Planned;
  /** The plan with the orders people asked for. */
  readonly plan: RoundPlan | null;
  /** The rule that the last wish would have broken. */
  readonly refused: Said | null;
  readonly reordered: boolean;
  readonly reorder: (team: number, section: string, order: readonly string[]) => void;
  readonly backToBest: () => void;
}

const none: Orders = new Map();

/** The plan of a preparation: asked again whenever a choice changes, with the wishes of people on top. */
export function useRoundPlan(
  world: World,
  prepared: Preparation,
  choice: PlanChoice | null,
  now: string,
): RoundPlanning {
  const { startsAt, endsAt, teams, settings } = choice ?? {};
  const ask = useMemo(
    () =>
      startsAt === undefined || endsAt === undefined || teams === undefined || settings === undefined
        ? null
        : askFor(world, prepared, { startsAt, endsAt, teams, settings }, now),
    [world, prepared, startsAt, endsAt, teams, settings, now],
  );
  const planned = usePlan(ask);
  const [wish, setWish] = useState<{ readonly of: PlanAsk | null; readonly orders: Orders }>({
    of: null,
    orders: none,
  });
  const [refused, setRefused] = useState<{ readonly of: PlanAsk | null; readonly why: Said | null }>({
    of: null,
    why: null,
  });
  const orders = wish.of === ask ? wish.orders : none;
  const best = planned.answer?.plan ?? null;
  const plan = useMemo(() => {
    if (ask === null || best === null) return null;
    const made = withOrders(ask, best, orders);
    return made.ok ? made.value : best;
  }, [ask, best, orders]);
  return {
    ask,
    planned,
    plan,
    refused: refused.of === ask ? refused.why : null,
    reordered: orders.size > 0,
    reorder: (team, section, order) => {
      if (ask === null || best === null) return;
      const wanted = new Map(orders).set(orderKey(team, section), order);
      const made = withOrders(ask, best, wanted);
      setRefused({ of: ask, why: made.ok ? null : made.why });
      if (made.ok) setWish({ of: ask, orders: wanted });
    },
    backToBest: () => {
      setWish({ of: ask, orders: none });
      setRefused({ of: ask, why: null });
    },
  };
}

import { useMemo, useState } from 'react';
import type { SectionId } from '../../core/ids.js';
import type { RoundPlan } from '../../core/route-plan/whole-round/round-shape.js';
import { no, type Outcome, type Said } from '../../core/said.js';
import type { RibbonSettings } from '../../log/kinds/ribbon.js';
import { askFor, type PlanAsk, type PlanChoice } from '../../log/plan/ask.js';
import { settingsOf } from '../../log/plan/settings.js';
import type { Preparation } from '../../log/prepare/prepare.js';
import type { World } from '../../log/views/world.js';
import { type Planned, usePlan } from '../plan/use-plan.js';
import { type Orders, orderKey, withWish } from './in-order.js';
import { type Kept, keepOrders } from './keep-orders.js';
import { keepAskedFor, ordersAskedFor } from './orders-today.js';

/** What a person sets for a plan, and the way to set it. */
export interface Choices {
  readonly teams: number;
  /** `HH:MM`, or empty when the shift does not end the round. */
  readonly endsAt: string;
  readonly settings: RibbonSettings;
  /** Sections that are to have a team of their own; only with more than one team. */
  readonly ownTeam: readonly SectionId[];
  readonly change: (by: Partial<Omit<Choices, 'change'>>) => void;
}

export function useChoices(world: World): Choices {
  const [own, setOwn] = useState<Omit<Choices, 'change' | 'settings'> & { settings: RibbonSettings | null }>({
    teams: 1,
    endsAt: '',
    ownTeam: [],
    settings: null,
  });
  const usual = useMemo(() => settingsOf(world.shelter), [world.shelter]);
  return {
    ...own,
    settings: own.settings ?? usual,
    change: (by) => setOwn((before) => ({ ...before, ...by })),
  };
}

/** What the plan is asked for beside people and times. */
export const chosen = ({ settings, ownTeam, teams }: Choices): Pick<PlanChoice, 'settings' | 'ownTeam'> => ({
  settings,
  ownTeam: teams > 1 ? ownTeam : [],
});

export interface RoundPlanning {
  readonly ask: PlanAsk | null;
  readonly planned: Planned;
  /** The plan with the orders people asked for. */
  readonly plan: RoundPlan | null;
  /** The rule that the last wish would have broken. */
  readonly refused: Said | null;
  readonly reordered: boolean;
  /** The orders of people that the plan keeps, by team and section. */
  readonly orders: Orders;
  /** What of an earlier wish did not outlast a new plan. */
  readonly lost: readonly Said[];
  /** Whether an order would hold, without asking for it. */
  readonly consider: (team: number, section: string, order: readonly string[]) => Outcome<RoundPlan>;
  /** Says that a wish was turned down, and why. */
  readonly refuse: (why: Said) => void;
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
  // As text: the same choice said again is no new question.
  const asked = JSON.stringify(choice);
  const ask = useMemo(() => {
    const same: PlanChoice | null = JSON.parse(asked);
    return same === null ? null : askFor(world, prepared, same, now);
  }, [world, prepared, asked, now]);
  const planned = usePlan(ask);
  const [wished, setOwn] = useState<Orders>(() => ordersAskedFor(prepared.on));
  const setWished = (orders: Orders): void => {
    setOwn(orders);
    keepAskedFor(prepared.on, orders);
  };
  const [refused, setRefused] = useState<{ readonly of: PlanAsk | null; readonly why: Said | null }>({
    of: null,
    why: null,
  });
  const best = planned.answer?.plan ?? null;
  // Records may change under a wish: it is laid over every new plan as far as the rules allow.
  const kept = useMemo(
    (): Kept | null => (ask === null || best === null ? null : keepOrders(ask, best, wished)),
    [ask, best, wished],
  );
  const consider = (team: number, section: string, order: readonly string[]): Outcome<RoundPlan> =>
    ask === null || best === null || kept === null
      ? no('ribbon.working')
      : withWish(ask, best, kept.orders, { team, section, order });
  const refuse = (why: Said | null): void => setRefused({ of: ask, why });
  return {
    ask,
    planned,
    plan: kept?.plan ?? null,
    refused: refused.of === ask ? refused.why : null,
    reordered: wished.size > 0,
    orders: kept?.orders ?? none,
    lost: kept?.lost ?? [],
    consider,
    refuse,
    reorder: (team, section, order) => {
      const made = consider(team, section, order);
      refuse(made.ok ? null : made.why);
      if (made.ok) setWished(new Map(kept?.orders).set(orderKey(team, section), order));
    },
    backToBest: () => {
      setWished(none);
      refuse(null);
    },
  };
}

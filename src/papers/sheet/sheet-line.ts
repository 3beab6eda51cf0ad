import { orderNamed } from '../../core/animal/vet-order.js';
import { lineNow } from '../../log/bedside/line-now.js';
import type { DrawUp } from '../../log/prepare/draw-ups.js';
import type { AnimalStop, RoundLine, RoundView } from '../../log/views/round/round.js';
import type { World } from '../../log/views/world.js';
import { mannerText, rhythmSaid } from '../../told/order-words.js';
import { writtenText } from '../../told/written-text.js';
import { say } from '../../words/say.js';
import { amountText, limitText, productText, whereText } from './amount.js';
import { type Asks, asksOf } from './asks.js';
import { type LineState, lineStateText } from './line-state.js';

/** One line of the treatment sheet. */
export interface SheetLine {
  readonly key: string;
  readonly what: string;
  /** How its order came, where somebody else wrote it down in the veterinarian's name; else empty. */
  readonly written: string;
  /** What the line is keyed in by; null for what was not planned. */
  readonly code: string | null;
  /** Null for a line that is simply to be done. */
  readonly state: LineState | null;
  readonly cells: SheetCells;
}

/**
 * What stands in the cells after the name. `fill-in`: the amount and what is asked. `reason`: not now; its code stays, so that
 * why it was left can be keyed in. `closed`: nothing is written any more.
 */
export type SheetCells =
  | { readonly is: 'fill-in'; readonly amount: Amount | null; readonly asks: Asks }
  | { readonly is: 'reason' | 'closed' };

/** How much, and below it of what, where it goes and what stands against it; the paper has to do without label and card. */
export interface Amount {
  /** Not a figure that may be given, but words to ask by, when nothing was worked out. */
  readonly known: boolean;
  readonly text: string;
  readonly more: readonly string[];
}

/** What every line of one sheet is made from. */
export interface SheetFrom {
  readonly world: World;
  readonly view: RoundView;
  readonly at: string;
  readonly today: Parameters<typeof lineNow>[5];
  readonly drawUps: ReadonlyMap<string, DrawUp>;
  readonly codes: ReadonlyMap<string, string>;
}

/** The line of an animal by its schedule, as draw-ups and codes are found. */
export const keyOfLine = ({ animal, schedule }: Pick<RoundLine, 'animal' | 'schedule'>): string =>
  `${animal} ${schedule}`;

export function sheetLine(from: SheetFrom, stop: AnimalStop, line: RoundLine): SheetLine {
  const { world, view, at, today, drawUps, codes } = from;
  const order = orderNamed(stop.animal, line.schedule);
  const stands = lineNow(world, view.facts, stop, line, at, today);
  return {
    key: line.asNeeded === true ? `as-needed ${line.schedule}` : line.schedule,
    what: line.asNeeded === true && order !== null ? `${line.name}: ${say(rhythmSaid(order.terms))}` : line.name,
    written: order?.written === undefined ? '' : writtenText(order, world.shelter.protocol),
    code: codes.get(keyOfLine(line)) ?? null,
    state: lineStateText(stands),
    cells:
      stands.is === 'to-do' || stands.is === 'under-way'
        ? {
            is: 'fill-in',
            amount: amountOf(drawUps.get(keyOfLine(line)), stands.is === 'to-do' && line.action === 'give'),
            asks: asksOf(world.shelter, line),
          }
        : { is: stands.is === 'wait' || stands.is === 'chip-read' ? 'reason' : 'closed' },
  };
}

function amountOf(drawUp: DrawUp | undefined, wanted: boolean): Amount | null {
  if (drawUp === undefined) return wanted ? { known: false, text: say('ribbon.sheet.no-amount'), more: [] } : null;
  const { gates, stopped } = drawUp.dose;
  const why = stopped ? gates.filter(({ severity }) => severity === 'stop').map(({ code }) => say(`gate.${code}`)) : [];
  const asksSecond = !stopped && gates.some(({ severity }) => severity === 'second-person');
  const more = [
    ...why,
    productText(drawUp),
    whereText(drawUp),
    limitText(drawUp),
    asksSecond ? say('drawup.sheet.second') : '',
    mannerText(drawUp.animal, drawUp.schedule),
  ].filter((part) => part !== '');
  return { known: true, text: amountText(drawUp), more };
}

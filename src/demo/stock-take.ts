import { addDays } from '../core/calendar.js';
import type { FormularyDocument } from '../core/dosing/formulary.js';
import { LotId } from '../core/ids.js';
import type { ProtocolDocument } from '../core/protocol/document/document.js';
import { countLot, receiveLot, withdrawLot } from '../log/commands/shelter.js';
import { lotUse } from '../log/stock/lots.js';
import { instantOf, minutes } from './instant.js';
import { hand, type Scene, timeOn } from './scene.js';
import { partOf } from './slips.js';
import { expiredVial, productsFor } from './stock.js';

/** A delivery that stood warm over night: taken in and withdrawn the same day, nothing of it was used. */
const warmDelivery = { daysAgo: 16, lotText: 'DEMO-WARM-01', pieces: 10, goodFor: 400 } as const;

/**
 * What happens to the stock besides deliveries: a spoilt delivery, and a stock-take that finds an old vial and counts
 * what is left.
 */
export function mindStock(
  scene: Scene,
  daysAgo: number,
  protocol: ProtocolDocument,
  formulary: FormularyDocument,
): void {
  const { journal } = scene;
  const desk = hand(scene, 'ada', 'desk');
  const vaccine = protocol.schedules.find((one) => partOf(one) === 'vaccine');
  const product = vaccine === undefined ? undefined : productsFor(vaccine, formulary)[0];
  if (product === undefined) return;
  const of = { is: 'product', product: product.id } as const;
  const receive = (
    { lotText, pieces, goodFor }: { lotText: string; pieces: number; goodFor: number },
    at: number,
  ): LotId => {
    const id = LotId.parse(journal.newId(at));
    const expires = addDays(journal.today, goodFor);
    journal.write(desk, receiveLot(id, { of, lotText, expires, pieces }, instantOf(at)));
    return id;
  };

  if (daysAgo === warmDelivery.daysAgo) {
    const at = timeOn(scene, daysAgo, '10:20');
    const id = receive(warmDelivery, at);
    const note = 'Stood in the van over night; the indicator on the box has turned.';
    journal.write(desk, withdrawLot(id, { why: 'stored-wrong', note }, instantOf(at + minutes(6))));
  }
  if (daysAgo !== expiredVial.daysAgo) return;
  const at = timeOn(scene, daysAgo, '11:00');
  receive(expiredVial, at);
  const use = lotUse(journal.world());
  for (const [index, lot] of [...journal.world().shelter.lots.values()].entries()) {
    const left = use.get(lot.id)?.left ?? 0;
    const when = instantOf(at + minutes(2 + index));
    if (lot.of.is === 'chips' || lot.withdrawn !== null || lot.lotText === expiredVial.lotText) continue;
    if (left === 0) journal.write(desk, withdrawLot(lot.id, { why: 'used-up' }, when));
    else if (lot.of.is === 'kit') {
      journal.write(desk, countLot(lot.id, { pieces: left, note: 'Stock-take.' }, when));
    }
  }
}

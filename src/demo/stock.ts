import { addDays } from '../core/calendar.js';
import type { FormularyDocument, Product } from '../core/dosing/formulary.js';
import { LotId } from '../core/ids.js';
import type { ProtocolDocument, Schedule } from '../core/protocol/document/document.js';
import { receiveLot } from '../log/commands/shelter.js';
import type { BodyInput } from '../log/kinds/index.js';
import { boxCodes } from './chips.js';
import { instantOf } from './instant.js';
import { hand, type Scene, timeOn } from './scene.js';

/** Days ago that a delivery came, what it holds, and how many days from today on it is good. */
interface Delivery {
  readonly daysAgo: number;
  readonly number: string;
  readonly pieces: number;
  readonly goodFor: number;
}

const productDeliveries: readonly Delivery[] = [
  { daysAgo: 42, number: '01', pieces: 60, goodFor: 64 },
  { daysAgo: 31, number: '02', pieces: 60, goodFor: 170 },
  { daysAgo: 17, number: '03', pieces: 60, goodFor: 290 },
  { daysAgo: 8, number: '04', pieces: 40, goodFor: 330 },
];
const kitDeliveries: readonly Delivery[] = [
  { daysAgo: 42, number: '01', pieces: 25, goodFor: 75 },
  { daysAgo: 27, number: '02', pieces: 25, goodFor: 130 },
  { daysAgo: 13, number: '03', pieces: 25, goodFor: 210 },
  // A box with little time left, given by another shelter.
  { daysAgo: 6, number: '04', pieces: 20, goodFor: 9 },
];
const syringeDeliveries: readonly Delivery[] = [{ daysAgo: 42, number: '01', pieces: 600, goodFor: 1_200 }];
const chipDeliveries: readonly Delivery[] = [
  { daysAgo: 42, number: '01', pieces: 25, goodFor: 700 },
  { daysAgo: 24, number: '02', pieces: 25, goodFor: 900 },
  { daysAgo: 9, number: '03', pieces: 25, goodFor: 900 },
];

/** Found at the back of the refrigerator at a stock-take, some days past its expiry day. */
export const expiredVial = { daysAgo: 5, lotText: 'DEMO-OLD-07', pieces: 3, goodFor: -6 } as const;

/** The products that meet a schedule, preferred first. */
export const productsFor = (schedule: Schedule, formulary: FormularyDocument): Product[] =>
  schedule.satisfiedBy.flatMap((wanted) => formulary.products.filter((one) => one.classes.includes(wanted)));

type Body = BodyInput<'lot-received'>;

/** Lots, kits, syringes and chips that arrive on a day. */
export function receiveStock(
  scene: Scene,
  daysAgo: number,
  protocol: ProtocolDocument,
  formulary: FormularyDocument,
): void {
  const bodies: Body[] = [];
  const on = <T extends { readonly daysAgo: number }>(all: readonly T[]): T[] =>
    all.filter((one) => one.daysAgo === daysAgo);
  const expires = (goodFor: number) => addDays(scene.journal.today, goodFor);

  const active = protocol.schedules.filter((schedule) => schedule.active);
  const used = active.flatMap((schedule) => productsFor(schedule, formulary).slice(0, 1));
  const tests = active.filter((schedule) => schedule.action === 'test').flatMap((schedule) => schedule.satisfiedBy);
  const kits = formulary.kits.filter((kit) => kit.tests.some((one) => tests.includes(one)));
  for (const product of new Set(used)) {
    for (const { number, pieces, goodFor } of on(productDeliveries)) {
      const bottle = product.dose.by === 'fixed' ? null : pieces * 1000;
      bodies.push({
        of: { is: 'product', product: product.id },
        lotText: `DEMO-${initials(product.id)}-${number}`,
        expires: expires(goodFor),
        pieces,
        volume_ul: bottle,
      });
    }
  }
  for (const [index, kit] of kits.entries()) {
    for (const { number, pieces, goodFor } of on(kitDeliveries)) {
      const lotText = `DEMO-KIT${index + 1}-${number}`;
      const of = { is: 'kit', kitType: kit.id, conjugateLot: lotText } as const;
      bodies.push({ of, lotText, expires: expires(goodFor), pieces });
    }
  }
  for (const [index, syringe] of formulary.syringes.entries()) {
    for (const { number, pieces, goodFor } of on(syringeDeliveries)) {
      const of = { is: 'syringe', syringe: syringe.id } as const;
      bodies.push({ of, lotText: `DEMO-SYR${index + 1}-${number}`, expires: expires(goodFor), pieces });
    }
  }
  for (const { number, pieces, goodFor } of on(chipDeliveries)) {
    const codes = boxCodes(Number(number), pieces);
    bodies.push({ of: { is: 'chips', codes }, lotText: `DEMO-CHIP-${number}`, expires: expires(goodFor), pieces });
  }
  for (const [index, body] of bodies.entries()) {
    const at = timeOn(scene, daysAgo, '07:40') + index * 45_000;
    const id = LotId.parse(scene.journal.newId(at));
    scene.journal.write(hand(scene, 'ada', 'desk'), receiveLot(id, body, instantOf(at)));
  }
}

const initials = (id: string): string =>
  id
    .split('-')
    .filter((word) => /^[a-z]/.test(word))
    .map((word) => word.slice(0, 1).toUpperCase())
    .join('');

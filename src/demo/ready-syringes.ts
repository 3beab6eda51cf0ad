import { LotId } from '../core/ids.js';
import { prepareSyringes, withdrawLot } from '../log/commands/shelter.js';
import { lotUse } from '../log/stock/lots.js';
import { instantOf, minutes } from './instant.js';
import { hand, type Scene, timeOn } from './scene.js';

/** Every third day, and yesterday so that today's round has some. The days that they keep are invented. */
const preparedOn = (daysAgo: number): boolean => daysAgo % 3 === 0 || daysAgo === 1;
const count = 24;
const kept_h = 84;

/** The supervisor makes syringes ready for drawing blood, and throws away what is left of the last ones. */
export function readySyringes(scene: Scene, daysAgo: number): void {
  if (!preparedOn(daysAgo)) return;
  const { journal } = scene;
  const desk = hand(scene, 'ada', 'desk');
  const at = timeOn(scene, daysAgo, '08:08');
  const { shelter } = journal.world();
  const use = lotUse(journal.world());
  for (const lot of shelter.lots.values()) {
    if (lot.prepared === null || lot.withdrawn !== null) continue;
    const why = (use.get(lot.id)?.left ?? 0) > 0 ? 'other' : 'used-up';
    const note = why === 'other' ? 'New ones made.' : '';
    journal.write(desk, withdrawLot(lot.id, { why, note }, instantOf(at)));
  }
  const made = at + minutes(2);
  const box = [...shelter.lots.values()].find(({ of }) => of.is === 'syringe' && of.syringe === 'tuberculin-1');
  const body = {
    lotText: `DEMO-READY-${String(journal.world().shelter.lots.size)}`,
    count,
    with: 'heparin (invented strength)',
    withLot: 'DEMO-HEP-01',
    syringeLot: box?.id ?? null,
    keepsUntil: instantOf(made + minutes(60 * kept_h)),
  };
  journal.write(desk, prepareSyringes(LotId.parse(journal.newId(made)), body, instantOf(made)));
}

import type { Raise } from '../flag.js';
import type { LogRecord } from '../record.js';
import { keepsUntil, pastAt } from '../stock/keeps.js';
import type { Ground } from '../views/ground.js';

/** Doses and draws with a syringe that was past its time, or that has been called back: the fact stands, and is told. */
export function syringeFlags(ground: Ground, standing: readonly LogRecord[], raise: Raise): void {
  for (const record of standing) {
    if (record.kind !== 'treatment-given' && record.kind !== 'sample-drawn') continue;
    const lot = record.body.syringeLot === null ? undefined : ground.lots.get(record.body.syringeLot);
    if (lot === undefined) continue;
    const until = keepsUntil(lot);
    if (until !== null && pastAt(lot, record.happenedAt, record.zone)) {
      const code = record.kind === 'sample-drawn' ? 'drawn-past' : 'syringe-past';
      raise(code, 'attention', record, ['supervisor', 'medical'], { lot: lot.lotText, until });
    }
    const why = lot.withdrawn?.why;
    if (why === 'recalled' || why === 'stored-wrong') {
      raise('syringe-withdrawn', 'attention', record, ['supervisor', 'medical'], { lot: lot.lotText });
    }
  }
}

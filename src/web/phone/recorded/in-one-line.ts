import type { ScheduleId } from '../../../core/ids.js';
import { writeStrength } from '../../../core/quantity/write.js';
import { type Said, type SayValue, said } from '../../../core/said.js';
import { isOfAnother, type RoundRecord, readingOf, runOf } from '../../../log/bedside/on-record.js';
import { gateName } from '../../../log/views/doses/passed.js';
import { scheduleNamed } from '../../../log/views/due/schedules.js';
import type { World } from '../../../log/views/world.js';
import { resultWords } from '../../../told/result-words.js';
import { kept } from '../../parts/kept.js';

/** A record in one sentence. */
export function inOneLine(record: RoundRecord, world: World): Said {
  const { formulary } = world.shelter;
  switch (record.kind) {
    case 'animal-identified':
      return said(`round.did.identified-${record.body.by}`);
    case 'animal-weighed':
      return said(record.body.doubtful ? 'round.did.weighed-doubtful' : 'round.did.weighed', {
        weight: { grams: record.body.grams },
      });
    case 'treatment-given': {
      const { product, volume_ul, pieces, outcome, lot, lotText, strength_mg_per_ml: strength, passed } = record.body;
      // What a second person worked out alone is no stop.
      const stops = [...new Set(passed.filter(({ how }) => how !== 'second-person').map(({ gate }) => gate))];
      const name = kept(formulary?.products.find((one) => one.id === product)?.name ?? product);
      const amount: SayValue = volume_ul === null ? pieces : { microlitres: volume_ul };
      const lotName = lot === null ? lotText : (world.shelter.lots.get(lot)?.lotText ?? lot);
      return said(outcome === 'taken' ? 'round.did.given' : `round.did.given-${outcome}`, {
        product: name,
        amount,
        lot: lotName === '' ? said('round.lot.unknown') : lotName,
        strength: strength === null ? '' : said('round.did.of-strength', { strength: writeStrength(strength) }),
        past: stops.length === 0 ? '' : said('round.did.past', { stops: { list: stops.map(gateName) } }),
      });
    }
    case 'treatment-not-given':
      return said('round.did.not-given', {
        what: scheduleNamed(world.shelter, record.body.schedule)?.name ?? record.body.schedule,
        reason: said(`not-given.${record.body.reason}`),
      });
    case 'sample-drawn':
      return said(record.body.usable ? 'round.did.drawn' : 'round.did.drawn-failed', {
        volume: { microlitres: record.body.volume_ul },
      });
    case 'test-started':
      return said('round.did.started', {
        what: scheduleNamed(world.shelter, record.body.schedule)?.name ?? record.body.schedule,
        lot: record.body.kitLot || said('round.lot.unknown'),
      });
    case 'test-read': {
      const read = readingOf(record, world);
      const result = read === null ? said('round.result.not-valid') : resultWords(read);
      const several = (runOf(record, world)?.readings?.length ?? 0) > 1;
      return several
        ? said('round.did.read-by', { person: { person: record.by }, result })
        : said('round.did.read', { result });
    }
    case 'test-abandoned':
      return said('round.did.abandoned', { reason: said(`not-given.${record.body.why}`) });
    case 'chip-scanned': {
      const { found, occasion } = record.body;
      if (record.body.ofAnother) return said('round.did.scan-not-in-it', { code: found?.code ?? '' });
      if (isOfAnother(record, world)) return said('round.did.scan-another', { code: found?.code ?? '' });
      return said(found === null ? `round.did.scan-none-${occasion}` : `round.did.scan-${occasion}`, {
        code: found?.code ?? '',
      });
    }
    case 'observation-noted': {
      const { code, state, answer } = record.body;
      const what = scheduleNamed(world.shelter, code as ScheduleId)?.name ?? code;
      if (answer !== null) return said('round.did.lamp', { what, answer: said(`round.lamp.${answer}`) });
      return said(state === 'present' ? 'round.did.noted' : 'round.did.noted-not', { what });
    }
    case 'chip-implanted':
      return said('round.did.implanted', { code: record.body.code });
    case 'chip-discarded':
      return said('round.did.discarded', { code: record.body.code });
  }
}

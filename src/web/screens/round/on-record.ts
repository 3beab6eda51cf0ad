import type { RunReading } from '../../../core/animal/animal.js';
import type { ScheduleId } from '../../../core/ids.js';
import { type Said, type SayValue, said } from '../../../core/said.js';
import type { Kind } from '../../../log/kinds/index.js';
import type { LogRecord } from '../../../log/record.js';
import { warningsOf } from '../../../log/views/chip-warnings.js';
import { inDeviceOrder } from '../../../log/views/device-order.js';
import { roundOf } from '../../../log/views/round.js';
import { scheduleNamed } from '../../../log/views/schedules.js';
import type { World } from '../../../log/views/world.js';
import { resultWords } from '../../told/result-words.js';
import { kept } from './kept.js';

/** Kinds that a team makes on an animal during a round. */
const ofRound = [
  'animal-identified',
  'animal-weighed',
  'treatment-given',
  'treatment-not-given',
  'sample-drawn',
  'test-started',
  'test-read',
  'test-abandoned',
  'chip-scanned',
  'chip-implanted',
  'chip-discarded',
  'observation-noted',
] as const satisfies readonly Kind[];
export type RoundRecord = LogRecord<(typeof ofRound)[number]>;

const isOfRound = (record: LogRecord): record is RoundRecord => ofRound.some((kind) => kind === record.kind);

/** What has been recorded on an animal on this round and still counts, the newest first. */
export function onRecord(world: World, animal: string, round: string): RoundRecord[] {
  return inDeviceOrder(world.bySubject.get(`animal:${animal}`) ?? [])
    .filter((record): record is RoundRecord => isOfRound(record) && roundOf(record) === round)
    .reverse();
}

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
      const { product, volume_ul, pieces, outcome, lot, lotText } = record.body;
      const name = kept(formulary?.products.find((one) => one.id === product)?.name ?? product);
      const amount: SayValue = volume_ul === null ? pieces : { microlitres: volume_ul };
      const lotName = lot === null ? lotText : (world.shelter.lots.get(lot)?.lotText ?? lot);
      return said(outcome === 'taken' ? 'round.did.given' : `round.did.given-${outcome}`, {
        product: name,
        amount,
        lot: lotName === '' ? said('round.lot.unknown') : lotName,
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
      return said('round.did.read', { result: read === null ? said('round.result.not-valid') : resultWords(read) });
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

/** What this reading came to, as it was, whichever reading of the run stands. */
function readingOf(record: LogRecord<'test-read'>, world: World): RunReading | null {
  const animal = [...world.animals.values()].find(({ id }) => record.subject === `animal:${id}`);
  const run = animal?.runs.find((one) => one.run === record.body.run);
  return run?.readings?.find((one) => one.record === record.id) ?? null;
}

/** A chip read on the animal where its own has to show, and it was another number. */
function isOfAnother(record: LogRecord<'chip-scanned'>, world: World): boolean {
  const { target, occasion, found } = record.body;
  if (target !== 'animal' || found === null || occasion === 'before' || occasion === 'intake') return false;
  const animal = [...world.animals.values()].find((one) => record.subject === `animal:${one.id}`);
  return animal?.chip != null && animal.chip.code !== found.code;
}

/** Whether a record is of something that did not go as it should: it is shown, but not as done. */
export function wantsAttention(record: RoundRecord, world: World): boolean {
  switch (record.kind) {
    case 'animal-identified':
      return record.body.by === 'override';
    case 'animal-weighed':
      return record.body.doubtful;
    case 'treatment-given':
      return record.body.outcome !== 'taken' || record.body.passed.length > 0;
    case 'sample-drawn':
      return !record.body.usable;
    case 'chip-scanned':
      return (
        (record.body.found === null && record.body.occasion === 'after') ||
        record.body.ofAnother ||
        isOfAnother(record, world) ||
        warningsOf(record.body.found?.raw ?? '').length > 0
      );
    case 'test-read':
      return readingOf(record, world)?.result !== 'negative';
    case 'observation-noted':
      return record.body.answer === 'glow' || record.body.answer === 'unsure';
    case 'treatment-not-given':
    case 'test-abandoned':
    case 'chip-discarded':
      return true;
    default:
      return false;
  }
}

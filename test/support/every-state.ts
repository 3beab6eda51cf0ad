import { drawn, entered, roundId, roundLog, started, viewOf, when } from './round-log.js';

const chip = '985000000000017';
const other = '985000000000024';
const none = { control: 'seen', antigen: 'not-seen', invalid: 'not-seen' };

/** One round with an animal in every state; kit-1 is done as it should be. */
export function everyState() {
  const kittens = [
    'felv-test',
    'felv-test',
    'felv-test',
    'felv-test',
    'chip',
    'felv-test',
    'roundworm',
    'roundworm',
    'roundworm',
    'felv-test',
  ];
  const lines = Object.fromEntries(kittens.map((schedule, index) => [`kit-${index + 1}`, [schedule]]));
  const log = roundLog(lines, kittens.length);
  entered(log);
  const round = roundId as never;
  const read = (kitten: number, time: string, seen: Record<string, string>): void => {
    log.one('test-read', `animal:kit-${kitten}`, { run: `run-${kitten}`, seen, round } as never, when(time));
  };
  for (const kitten of [1, 2, 3, 4, 10]) {
    drawn(log, kitten, '13:40');
    started(log, kitten, '13:41');
  }
  read(1, '13:50', none);
  read(2, '13:50', { control: 'seen', antigen: 'seen', invalid: 'not-seen' });
  read(3, '13:50', { control: 'not-seen', antigen: 'not-seen', invalid: 'not-seen' });
  // Outside its window.
  read(10, '15:00', none);
  const scan = (kitten: number, occasion: string, found: string | null, time: string): void => {
    const code = found === null ? null : { raw: found, code: found, class: 'iso' };
    const target = occasion === 'pack' ? 'pack' : 'animal';
    const body = { target, occasion, found: code, round, leftToDesk: occasion === 'after' };
    log.one('chip-scanned', `animal:kit-${kitten}`, body as never, when(time));
  };
  scan(5, 'before', null, '14:00');
  scan(5, 'pack', chip, '14:01');
  const implant = { code: chip, site: 'between-shoulder-blades', packScan: null, round, lot: null };
  log.one('chip-implanted', 'animal:kit-5', implant as never, when('14:02'));
  scan(5, 'after', other, '14:03');
  // Stopped: another cat's chip was read to identify it, and the work was left there.
  scan(6, 'identify', other, '14:05');
  const given = (kitten: number, outcome: string): void => {
    const body = {
      schedule: 'roundworm',
      product: 'fenbendazole-100',
      lot: null,
      lotText: '',
      volume_ul: 150,
      route: 'by mouth',
      outcome,
      round,
    };
    log.one('treatment-given', `animal:kit-${kitten}`, body as never, when('14:10'));
  };
  given(7, 'not-taken');
  log.one(
    'treatment-not-given',
    'animal:kit-8',
    { schedule: 'roundworm', reason: 'ran-out-of-time', round } as never,
    when('14:12'),
  );
  return viewOf(log);
}

import { describe, expect, it } from 'vitest';
import { at } from '../../../test/support/log.js';
import { roundDay, roundId, roundLog, viewOf } from '../../../test/support/round-log.js';
import { orderSchedule } from '../../core/animal/vet-order.js';
import { type DrawUp, drawUpsFor, wantedOfRound } from '../../log/prepare/draw-ups.js';
import { drawUpCard } from './card.js';
import { cartSheet } from './cart-sheet.js';
import { labelSizes, labelsOf, sizeOf } from './label.js';

const made = at(roundDay, '13:40');
const plain = (text: string): string => text.replaceAll('\u00a0', ' ');

/** Three kittens to be wormed: 620 g, a weight nobody trusts, and 640 g. */
function drawUps() {
  const log = roundLog({ 'kit-1': ['roundworm'], 'kit-2': ['roundworm'], 'kit-3': ['roundworm'] });
  const weigh = (kit: number, grams: number, doubtful: boolean): void => {
    log.one('animal-weighed', `animal:kit-${kit}`, { grams, entered: `${grams} g`, doubtful }, at(roundDay, '12:00'));
  };
  weigh(1, 620, false);
  weigh(2, 630, true);
  weigh(3, 640, false);
  const { world } = viewOf(log);
  const all = drawUpsFor(world, wantedOfRound(world, roundId as never), made, roundId as never);
  const [first, doubtful, third] = all;
  if (first === undefined || doubtful === undefined || third === undefined) throw new Error('not all are drawn up');
  return { world, all, first, doubtful, third };
}

const { world, all, first, doubtful, third } = drawUps();
const { shelter } = world;

/** The same draw-up with an order's own words in the place of figures. */
const ordered = (one: DrawUp, inWords: string): DrawUp => ({ ...one, dose: { ...one.dose, inWords, drawn: null } });

describe('the papers for drawing up say one thing of one dose', () => {
  it('each on sheet, label and card with the same figure, mark and mass', () => {
    for (const one of [first, third]) {
      const row = cartSheet([one]).sections[0]?.rows[0];
      const [label] = labelsOf([one], made, shelter);
      const card = drawUpCard(shelter, one, made);
      if (row === undefined || label === undefined || card.amount?.is !== 'figure') throw new Error('not drawn up');
      expect(plain(row.volume.text)).toMatch(/^0\.\d+ mL$/);
      expect([label.amount.text, card.amount.volume.text]).toEqual([row.volume.text, row.volume.text]);
      expect(row.mark[0]?.text).toContain(one.dose.drawn?.mark ?? '?');
      expect(card.amount.drawn?.mark).toContain(one.dose.drawn?.mark ?? '?');
      expect(row.drug).not.toBe('');
      expect(label.beside.endsWith(row.drug)).toBe(true);
      expect(card.amount.comesTo.startsWith(row.drug)).toBe(true);
      expect([row.product, label.product]).toEqual([card.product, card.product]);
      expect(label.where).toBe(row.where);
    }
  });

  it('none has a figure of a dose that is stopped, and no label is made for it', () => {
    const sheet = cartSheet(all);
    expect([sheet.ready, sheet.stopped]).toEqual([2, 1]);
    const row = sheet.sections.flatMap(({ rows }) => rows).find(({ key }) => key === doubtful.key);
    expect([row?.volume.tone, row?.drug]).toEqual(['stop', '']);
    expect(row?.volume.text).not.toMatch(/\d/);
    expect(row?.mark[0]?.strong).toBe(true);
    expect(labelsOf(all, made, shelter).map(({ key }) => key)).toEqual([first.key, third.key]);
    const card = drawUpCard(shelter, doubtful, made);
    expect([card.amount, card.stops[0]?.code]).toEqual([null, 'weight-doubtful']);
  });

  it('all have the words of an order where nothing is worked out, and a label too small for them says so', () => {
    const short = ordered(first, 'half a sachet');
    expect(cartSheet([short]).sections[0]?.rows[0]?.mark[0]).toMatchObject({ strong: true });
    expect(cartSheet([short]).sections[0]?.rows[0]?.mark[0]?.text).toContain('half a sachet');
    expect(labelsOf([short], made, shelter)[0]?.amount).toMatchObject({ inWords: true });
    expect(labelsOf([short], made, shelter)[0]?.amount.text).toContain('half a sachet');
    expect(drawUpCard(shelter, short, made).amount).toEqual({ is: 'in-words', words: 'half a sachet' });
    // Part of an order is worse than none.
    const long = labelsOf([ordered(first, `half a sachet ${'and then '.repeat(10)}`)], made, shelter)[0];
    expect(long?.amount.text).not.toContain('half a sachet');
    expect(long?.amount.inWords).toBe(true);
  });

  it('sheet and label say how often it is drawn for more than one place, and that a second person is to look', () => {
    const gate = { code: 'limit-of-place', severity: 'second-person', why: { say: 'drawup.sheet.second' } };
    const twice = { ...first, dose: { ...first.dose, places: 2, gates: [gate] } } as unknown as DrawUp;
    const row = cartSheet([twice]).sections[0]?.rows[0];
    expect(row?.volume.text).toContain('2');
    expect(row?.volume.text).toContain(labelsOf([twice], made, shelter)[0]?.amount.text ?? '?');
    expect(row?.mark.at(-1)).toMatchObject({ strong: true });
  });

  it('a label says when it was made, for which weight, of which lot, and of invented data that it is', () => {
    const [label] = labelsOf([first], made, { demo: true });
    expect(plain(label?.foot ?? '')).toMatch(/13:40.*620 g/);
    expect(label?.lot).toBe(first.lot?.lotText ?? '');
    expect(label?.demo).not.toBe('');
    expect(labelsOf([first], made, { demo: false })[0]?.demo).toBe('');
    expect(labelSizes.map(sizeOf)).toEqual([
      { width_mm: 62, height_mm: 29 },
      { width_mm: 57, height_mm: 32 },
    ]);
  });

  it('the sheet keeps the order of the round, and an animal in no section has a part of its own', () => {
    const away = { ...third, section: null };
    const { sections } = cartSheet([first, away]);
    expect(sections.map(({ name, rows }) => [name, rows.length])).toEqual([
      [first.section?.name ?? '', 1],
      ['', 1],
    ]);
  });

  it('and say what an order asks for beside its amount (Verifies: PROT-R51)', () => {
    const record = 'order-1';
    const terms = {
      treat: { is: 'product', product: first.product.id },
      dose: { amount: '10', unit: 'mg-per-kg', per: 'time' },
      amount: 'not with milk',
      food: 'with-food',
      name: 'Worms',
      why: '',
      steps: [],
    };
    const animal = { ...first.animal, orders: [{ record, terms, ended: null }] } as unknown as DrawUp['animal'];
    const one: DrawUp = { ...first, animal, schedule: orderSchedule(record as never) };
    const row = cartSheet([one]).sections[0]?.rows[0];
    expect(row?.mark.at(-1)).toEqual({ text: 'With food. not with milk', strong: true });
    expect(labelsOf([one], made, shelter)[0]?.where).toMatch(/With food\.$/);
  });
});

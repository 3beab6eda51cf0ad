import { Instance } from '../../src/core/route-plan/model/instance.js';

/** A section written as one line: litters parted by `|`, animals by blanks, `Ada:draw5,chip2` is tested if it draws. */
export function sectionOf(
  text: string,
  changes: Partial<Omit<Instance, 'test'>> & { test?: Partial<Instance['test']> } = {},
): Instance {
  const litters = text.split('|').map((litter, l) => ({
    id: `L${l + 1}`,
    animals: litter
      .trim()
      .split(/\s+/)
      .map((animal) => {
        const [name = '', list = ''] = animal.split(':');
        const [id = '', overdue = '0'] = name.split('+');
        const ops = list
          .split(',')
          .map((op) => ({ kind: op.replace(/\d+$/, ''), dur: Number(/\d+$/.exec(op)?.[0] ?? 1) }));
        return { id, tested: ops[0]?.kind === 'draw', overdueDays: Number(overdue), ops };
      }),
  }));
  const { test, ...rest } = changes;
  return Instance.parse({
    id: 'section',
    unitSeconds: 30,
    gloveChange: 2,
    fetch: 2,
    refetch: 3,
    splitVisitAllowed: false,
    kitReadyAt: null,
    litters,
    ...rest,
    test: { start: 2, readLagMin: 16, readLagMax: 18, read: 2, sampleHoldMax: 8, runningLimit: 2, ...test },
  });
}

import { describe, expect, it } from 'vitest';
import { starterProtocol } from '../../../../test/support/documents.js';

/** OPS-SURG-01, Alley Cat Allies, pediatric spay and neuter protocol: 8 weeks or 2 lb (907 g), and healthy. */
describe('ready to be spayed or neutered (Verifies: PROT-R38)', () => {
  it('asks for 8 weeks and 2 lb, said to be our own choice beside the source’s “or”', () => {
    const protocol = starterProtocol();
    const schedule = protocol.schedules.find((one) => one.id === 'neuter-check');
    expect(schedule?.minimumWeight).toMatchObject({
      grams: 907,
      source: 'starter-choice',
      standing: 'common-practice',
    });
    expect(schedule?.minimumWeight?.note).toContain('8 weeks or 2 lb');
    const choice = protocol.choices.find((one) => one.id === 'neuter-youngest');
    const chosen = choice?.options.find((one) => one.id === choice.chosen);
    expect(chosen).toMatchObject({ id: 'eight-weeks-and-2-lb', source: 'starter-choice' });
    expect(chosen?.note).toContain('8 weeks or 2 lb');
  });
});

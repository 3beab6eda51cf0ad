import { describe, expect, it } from 'vitest';
import { type GateCode, gate, type Severity } from '../dosing/gate.js';
import { said } from '../said.js';
import { holdsBack } from './gate-ways.js';

const of = (code: GateCode, severity: Severity = 'stop') =>
  gate(code, severity, said('dose.gate.withdrawn', { product: 'x' }));
const held = (...given: Parameters<typeof holdsBack>) => holdsBack(...given).map(({ code }) => code);

describe('another strength in the hand (Verifies: DOSE-R71)', () => {
  it('holds any amount back until somebody opened it', () => {
    expect(held([of('strength-twin')], [])).toEqual(['strength-twin']);
    expect(held([of('strength-twin')], [{ gate: 'strength-twin' }])).toEqual([]);
    expect(held([of('strength-twin', 'note')], [])).toEqual([]);
  });
  it('holds it back by every other stop that the card has', () => {
    expect(held([of('strength-twin', 'note'), of('weight-stale')], [])).toEqual(['weight-stale']);
  });
  it('is no matter of the right strength, of which a fact is recorded', () => {
    expect(held([of('weight-stale')], [])).toEqual([]);
  });
});

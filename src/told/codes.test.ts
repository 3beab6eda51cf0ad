import { describe, expect, it } from 'vitest';
import { starterProtocol } from '../../test/support/documents.js';
import { observationCodes, observationWords } from './codes.js';

describe('what can be noted on an animal', () => {
  it('has words for every code that the starter protocol asks for', () => {
    const codes = observationCodes({ shelter: { protocol: starterProtocol() } } as never);
    expect(codes).toContain('fiv-at-risk');
    expect(codes.filter((code) => code.includes('-') && observationWords(code) === code)).toEqual([]);
    expect(observationWords('ear-mites')).toBe('ear mites');
  });
});

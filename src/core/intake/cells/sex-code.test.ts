import { describe, expect, test } from 'vitest';
import { readNeutered, readSex } from './sex-code.js';
import { isCat } from './species.js';

describe('sex and neuter state (Verifies: IMP-R11)', () => {
  test.each([
    ['Intact Male', 'male no read'],
    ['Intact Female', 'female no read'],
    ['Spayed Female', 'female yes read'],
    ['Neutered Male', 'male yes read'],
    ['Neutered', 'male yes read'],
    ['Spayed', 'female yes read'],
    ['Neutered Female', 'female yes read'],
    ['Male', 'male unknown read'],
    ['F', 'female unknown read'],
    ['M/N', 'male yes read'],
    ['FS', 'female yes read'],
    ['MI', 'male no read'],
    ['weiblich kastriert', 'female yes read'],
    ['Unknown', 'unknown unknown blank'],
    ['', 'unknown unknown blank'],
    ['?', 'unknown unknown blank'],
    ['Spayed Male', 'unknown unknown contradictory'],
    ['Male/Female', 'unknown unknown contradictory'],
    ['Intact Neutered', 'unknown unknown contradictory'],
    ['calico', 'unknown unknown not-understood'],
  ])('%s', (cell, expected) => {
    const { sex, neutered, state } = readSex(cell);
    expect(`${sex} ${neutered} ${state}`).toBe(expected);
  });
  test.each([
    ['Yes', 'yes'],
    ['N', 'no'],
    ['1', 'yes'],
    ['spayed', 'yes'],
    ['intact', 'no'],
    ['', 'unknown'],
    ['soon', null],
  ])('a column of its own: %s', (cell, expected) => {
    expect(readNeutered(cell)).toBe(expected);
  });
});

describe('species (Verifies: IMP-R6)', () => {
  test.each([
    ['CAT', 'cat'],
    ['Feline', 'cat'],
    ['kitten', 'cat'],
    ['Domestic cat', 'cat'],
    ['Katze', 'cat'],
    ['DOG', 'other'],
    ['bobcat', 'other'],
    ['OTHER', 'other'],
    ['guinea pig', 'other'],
    ['', 'unknown'],
    ['Unknown', 'unknown'],
  ])('%s', (cell, expected) => {
    expect(isCat(cell)).toBe(expected);
  });
});

import { describe, expect, test } from 'vitest';
import type { SectionId } from '../../ids.js';
import { isGone, readLeftHow } from './leaving.js';
import { type KnownSection, type PlaceAnswer, readPlace } from './place.js';

const section = (id: string, name: string, kennels: string[]): KnownSection => ({ id: id as SectionId, name, kennels });
const sections = [
  section('s1', 'Clean kittens', ['CS05', 'CS06']),
  section('s2', 'Quarantine', ['Q1', '7']),
  section('s3', 'Foster', []),
  section('s4', 'Isolation', ['7']),
];
const read = (place: string, kennel: string, answers: Record<string, string> = {}) => {
  const reading = readPlace(place, kennel, sections, answers as Record<string, PlaceAnswer>);
  if (reading.state === 'section') return `${reading.section} ${reading.kennel}`.trim();
  return reading.state === 'gone' ? `gone ${reading.why.say}` : `nowhere ${reading.why?.say ?? 'answered'}`;
};

describe('places (Verifies: IMP-R15)', () => {
  test.each([
    ['clean kittens', '', 's1'],
    ['CLEAN KITTENS', 'C9', 's1 C9'],
    ['s2', '', 's2'],
    ['', 'CS06', 's1 CS06'],
    ['cs06', '', 's1 cs06'],
    ['Quarantine', '7', 's2 7'],
    ['', '7', 'nowhere import.place-not-a-section'],
    ['FOSTER', '', 's3'],
    ['', 'Foster', 's3'],
    ['TRUCK', '', 'nowhere import.place-not-a-section'],
    ['', 'LOBBY', 'nowhere import.place-not-a-section'],
    ['TX', '', 'nowhere import.place-not-a-section'],
    ['', '', 'nowhere import.place-blank'],
  ])('place "%s", kennel "%s"', (place, kennel, expected) => {
    expect(read(place, kennel)).toBe(expected);
  });
  test('answers of a person', () => {
    expect(read('TRUCK', '', { truck: 's2' })).toBe('s2');
    expect(read('TRUCK', '', { truck: 'no-section' })).toBe('nowhere answered');
    expect(read('TRUCK', '', { truck: 'not-here' })).toBe('gone import.place-not-here');
    expect(read('', '', { '': 's1' })).toBe('s1');
    expect(read('Lost Lake Room', '', { 'lost lake room': 's1' })).toBe('s1');
  });
});

describe('dead or missing (Verifies: IMP-R16)', () => {
  test.each([
    'COOLER',
    'FREEZER',
    'EUTH',
    'MISSING',
    'Euthanasia',
    'deceased',
    'DOA',
    'cremation',
    'stolen',
    'morgue 2',
  ])('%s is never a place for a round', (place) => {
    expect(read(place, '')).toMatch(/^gone/);
    expect(read('', place)).toMatch(/^gone/);
    expect(read('Clean kittens', place)).toMatch(/^gone/);
  });
  test.each(['LOST & FOUND', 'Edith', 'Cool room', 'FOSTER', 'Meuth'])('%s says nothing of the kind', (place) => {
    expect(isGone(place)).toBeNull();
  });
  test.each([
    ['ADOPTION', 'adopted'],
    ['Transfer', 'transferred'],
    ['rescue', 'transferred'],
    ['RETURN TO OWNER', 'returned-to-owner'],
    ['Return_to_owner', 'returned-to-owner'],
    ['Euthanasia', 'died'],
    ['Died', 'died'],
    ['community cat', 'other'],
    ['missing', 'other'],
  ])('left: %s', (cell, how) => {
    expect(readLeftHow(cell)).toBe(how);
  });
});

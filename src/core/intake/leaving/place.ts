import type { SectionId } from '../../ids.js';
import { type Said, said } from '../../said.js';
import { plainForm } from '../compare.js';
import { isGone } from './leaving.js';

/** A section of the shelter as far as a file can mean it. */
export interface KnownSection {
  readonly id: SectionId;
  readonly name: string;
  readonly kennels: readonly string[];
}

/** What a person answered for a place of the file: a section, no section, or that its animals are not to be brought in. */
export type PlaceAnswer = SectionId | 'no-section' | 'not-here';

export type PlaceReading =
  | { readonly state: 'section'; readonly section: SectionId; readonly kennel: string }
  /** Nowhere that a round goes; `why` is null when a person said so or no column tells the place. */
  | { readonly state: 'nowhere'; readonly kennel: string; readonly why: Said | null; readonly ask: string | null }
  /** Dead or missing by the word for its place, or a person said that it is not here. */
  | { readonly state: 'gone'; readonly why: Said };

/**
 * Where an animal is, from a place and a kennel cell. A section is recognised by its own name, id or kennels only,
 * never by likeness. A place that means dead or missing never becomes a section, whatever the shelter's sections are
 * called; an answer of a person comes before everything else.
 */
export function readPlace(
  place: string,
  kennel: string,
  sections: readonly KnownSection[],
  answers: Readonly<Record<string, PlaceAnswer>>,
): PlaceReading {
  const said_ = place === '' ? kennel : place;
  const answer = answers[plainForm(said_)];
  if (answer === 'not-here') return { state: 'gone', why: said('import.place-not-here', { place: said_ }) };
  if (answer === 'no-section') return { state: 'nowhere', kennel, why: null, ask: null };
  if (answer !== undefined) return { state: 'section', section: answer, kennel };
  for (const word of [place, kennel]) {
    const gone = isGone(word);
    if (gone !== null) return { state: 'gone', why: said(`import.place-${gone}`, { place: word }) };
  }
  const found =
    byKennel(kennel, place === '' ? sections : sections.filter((one) => isNamed(one, place))) ??
    sections.find((one) => isNamed(one, said_)) ??
    byKennel(place, sections);
  if (found !== undefined) return { state: 'section', section: found.id, kennel: kennelIn(found, place, kennel) };
  if (said_ === '') return { state: 'nowhere', kennel, why: said('import.place-blank'), ask: '' };
  return { state: 'nowhere', kennel, why: said('import.place-not-a-section', { place: said_ }), ask: said_ };
}

const isNamed = (section: KnownSection, text: string): boolean =>
  text !== '' && [section.name, section.id].some((name) => plainForm(name) === plainForm(text));

/** The one section that has this kennel; a kennel number used in two sections decides nothing. */
function byKennel(kennel: string, sections: readonly KnownSection[]): KnownSection | undefined {
  if (kennel === '') return undefined;
  const having = sections.filter((one) => one.kennels.some((known) => plainForm(known) === plainForm(kennel)));
  return having.length === 1 ? having[0] : undefined;
}

/** A kennel that only repeats the section's name is not a kennel. */
const kennelIn = (section: KnownSection, place: string, kennel: string): string => {
  const text = kennel === '' && !isNamed(section, place) ? place : kennel;
  return isNamed(section, text) ? '' : text;
};

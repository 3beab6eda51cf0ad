import type { SectionRank } from '../core/biosecurity/section.js';
import { sectionDefaults } from '../core/biosecurity/section-defaults.js';
import type { SectionId } from '../core/ids.js';
import { describeSection } from '../log/commands/shelter.js';
import type { Draft } from '../log/record.js';

export type WardKey = 'kittens-a' | 'kittens-b' | 'ward' | 'foster' | 'intake' | 'quarantine' | 'isolation';

interface Ward {
  readonly key: WardKey;
  readonly name: string;
  readonly rank: SectionRank;
  readonly position: number;
  readonly kennels: readonly string[];
}

const numbered = (letter: string, count: number): string[] =>
  Array.from({ length: count }, (_, index) => `${letter}${index + 1}`);

/** The sections of the invented shelter, clean to sick. */
export const wards: readonly Ward[] = [
  { key: 'kittens-a', name: 'Kitten room A', rank: 'clean-kittens', position: 0, kennels: numbered('A', 4) },
  { key: 'kittens-b', name: 'Kitten room B', rank: 'clean-kittens', position: 1, kennels: numbered('B', 4) },
  { key: 'ward', name: 'Adult ward', rank: 'clean-adults', position: 0, kennels: numbered('W', 19) },
  { key: 'foster', name: 'Foster homes', rank: 'foster', position: 0, kennels: numbered('F', 5) },
  { key: 'intake', name: 'Intake', rank: 'intake', position: 0, kennels: numbered('I', 8) },
  { key: 'quarantine', name: 'Quarantine', rank: 'quarantine', position: 0, kennels: numbered('Q', 4) },
  { key: 'isolation', name: 'Isolation', rank: 'isolation', position: 0, kennels: numbered('S', 5) },
];

export type Wards = Readonly<Record<WardKey, SectionId>>;

export const wardDrafts = (ids: Wards, at: string): Draft[] =>
  wards.flatMap(({ key, name, rank, position, kennels }) => {
    const { wear, leave, contactMinutes } = sectionDefaults[rank];
    const body = { section: ids[key], name, rank, position, kennels: [...kennels], wear: [...wear], leave: [...leave] };
    return describeSection({ ...body, contactMinutes, closed: false }, at);
  });

import { z } from 'zod';

/**
 * Infection rank, cleanest and most easily infected first. A round goes through the ranks one way.
 * Order: common practice, no source read in full (healthiest and most susceptible first); quarantine after all clean
 * sections and isolation last: University of Florida, Shelter Animal Physical Health, module 5.
 */
export const sectionRanks = ['clean-kittens', 'clean-adults', 'foster', 'intake', 'quarantine', 'isolation'] as const;
export const SectionRank = z.enum(sectionRanks);
export type SectionRank = z.infer<typeof SectionRank>;

/** 0 is the cleanest. A stop with a lower rank than an earlier stop is going back from sick to clean. */
export const rankOrder = (rank: SectionRank): number => sectionRanks.indexOf(rank);

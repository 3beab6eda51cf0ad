import type { WeighGroup } from '../../../log/views/round/weigh-groups.js';
import { say } from '../../../words/say.js';

/** The litter's name, or the section's for animals that belong to no litter. */
export const groupName = (group: Pick<WeighGroup, 'litter' | 'section'>): string => {
  const section = group.section?.name ?? say('drawup.sheet.no-section');
  return group.litter === '' ? section : say('drawup.weigh.group', { litter: group.litter, section });
};

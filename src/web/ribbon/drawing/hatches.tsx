import type { SectionRank } from '../../../core/biosecurity/section.js';

/** The hatches of the section strips once more, for pictures: they rise with infection risk and need no colour. */
export function Hatches({ id }: { id: string }) {
  const ink = { stroke: 'var(--ink)', fill: 'none' };
  return (
    <defs>
      <pattern id={`${id}-foster`} width="9" height="9" patternUnits="userSpaceOnUse">
        <path d="M0 4h9" {...ink} strokeWidth="1" />
      </pattern>
      <pattern id={`${id}-intake`} width="9" height="9" patternUnits="userSpaceOnUse">
        <circle cx="2" cy="2" r="1.1" fill="var(--ink)" />
      </pattern>
      <pattern id={`${id}-quarantine`} width="8" height="8" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
        <path d="M0 0v8" {...ink} strokeWidth="1.2" />
      </pattern>
      <pattern id={`${id}-isolation`} width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
        <path d="M0 0v6M0 0h6" {...ink} strokeWidth="1.2" />
      </pattern>
    </defs>
  );
}

/** The fill of a section's band; the clean sections are blank paper. */
export const hatchFill = (id: string, rank: SectionRank): string =>
  rank === 'clean-kittens' || rank === 'clean-adults' ? 'none' : `url(#${id}-${rank})`;

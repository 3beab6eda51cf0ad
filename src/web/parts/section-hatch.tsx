import type { ReactNode } from 'react';
import type { SectionRank } from '../../core/biosecurity/section.js';
import { say } from '../../words/say.js';

const hatchOf = (rank: SectionRank): { background: string } => ({ background: `var(--hatch-${rank})` });

interface SectionStripProps {
  readonly rank: SectionRank;
  readonly name: string;
  /** 2 makes the name a heading of the page. */
  readonly level?: 2;
  readonly children?: ReactNode;
}

/** The strip that says where one is: hatch by infection rank, name, and what belongs to it. */
export function SectionStrip({ rank, name, level, children }: SectionStripProps) {
  return (
    <div className="section-strip">
      <span className="hatch" style={hatchOf(rank)} aria-hidden="true" />
      <div>
        {level === undefined ? <b>{name}</b> : <h2 className="strip-name">{name}</h2>}
        {children === undefined ? null : <div className="small">{children}</div>}
      </div>
    </div>
  );
}

/** A small square with the hatch of a rank, beside the section's name. */
export function SectionHatch({ rank }: { rank: SectionRank }) {
  return <span className="swatch" style={hatchOf(rank)} role="img" aria-label={say(`parts.rank.${rank}`)} />;
}

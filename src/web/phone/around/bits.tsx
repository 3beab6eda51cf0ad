import type { ReactNode } from 'react';
import { Link } from 'wouter';
import { standCounts } from '../../../log/bedside/stand.js';
import type { SectionStop } from '../../../log/views/round/round.js';
import { itemText } from '../../../told/item-text.js';
import { chipText } from '../../../told/names.js';
import { say } from '../../../words/say.js';
import { SectionStrip } from '../../parts/section-hatch.js';
import { Notice } from '../../parts/state.js';
import type { SaveState } from '../../store/save.js';
import { useRound } from './use-round.js';

/** What went wrong with a save, in words; nothing was lost and it can be pressed again. */
export function Trouble({ state }: { state: SaveState }) {
  if (state.is !== 'failed') return null;
  return (
    <Notice tone="stop" live="alert">
      {say(state.why)}
    </Notice>
  );
}

/** Before a needle or a chip: nobody on this round holds. */
export function NobodyHolds() {
  const { view } = useRound();
  return view.facts.holder === null ? <Notice tone="attention">{say('round.nobody-holds')}</Notice> : null;
}

/** The bar under the thumb: the main act, and the others smaller and apart from it. */
export const Acts = ({ children }: { children: ReactNode }) => <div className="round-acts">{children}</div>;

/**
 * The figures of a step on one line above its button: nothing is pressed for an amount that is out of sight. Each part
 * stays whole; a long lot goes to a line of its own.
 */
export const InSight = ({ children }: { children: ReactNode }) => <p className="in-sight">{children}</p>;

/** A chip's number on that line, in groups that can be compared. */
export const ChipInSight = ({ code }: { code: string }) => (
  <InSight>
    <span className="part">
      {say('round.chip')} <b className="mono">{chipText(code)}</b>
    </span>
  </InSight>
);

/** A lot on that line. */
export const LotInSight = ({ lot }: { lot: string }) => (
  <span className="lot">
    {say('round.lot.short')} <b className="mono">{lot}</b>
  </span>
);

export const Pair = ({ children }: { children: ReactNode }) => <div className="act-two">{children}</div>;

/** Where we are: hatch, name, what is worn, how far. */
export function Place({ at, link }: { at: SectionStop; link?: string }) {
  const done = standCounts(at.animals).done;
  const worn = at.section.wear.map(itemText);
  const strip = (
    <SectionStrip rank={at.section.rank} name={at.section.name}>
      {worn.length === 0 ? '' : `${worn.join(', ')} · `}
      {say('round.animals-done', { done, all: at.animals.length })}
    </SectionStrip>
  );
  return link === undefined ? (
    strip
  ) : (
    <Link href={link} className="plain-link">
      {strip}
    </Link>
  );
}

/** A row that is pressed as a whole: what it is, a line below, and its state at the end. */
export function Row({
  href,
  title,
  note,
  end,
  before,
}: {
  href: string;
  title: ReactNode;
  note?: ReactNode;
  end?: ReactNode;
  before?: ReactNode;
}) {
  return (
    <Link href={href} className="round-row">
      {before === undefined ? null : <span className="before">{before}</span>}
      <span className="what">
        <b>{title}</b>
        {note === undefined ? null : <span className="soft small">{note}</span>}
      </span>
      {end === undefined ? null : <span className="end">{end}</span>}
    </Link>
  );
}

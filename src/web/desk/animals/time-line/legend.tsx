import { useId } from 'react';
import { say } from '../../../../words/say.js';
import { dueWedge, HoldHatch, WorthGlyph } from './glyphs.js';

const worths = ['valid', 'reactive', 'not-valid', 'extra', 'substandard', 'pending'] as const;

/** What each sign of the time line means. */
export function Legend() {
  const id = useId();
  return (
    <ul className="tl-legend small" aria-label={say('timeline.legend')}>
      {worths.map((worth) => (
        <li key={worth}>
          <Sign>
            <WorthGlyph worth={worth} />
          </Sign>
          {say(`timeline.worth.${worth}`)}
        </li>
      ))}
      <li>
        <Sign>
          <path d="M-11 -6V6M11 -6V6M-11 0H11" stroke="var(--ink)" strokeWidth="2" fill="none" />
          <path d={dueWedge} fill="var(--ink)" />
        </Sign>
        {say('timeline.legend.window')}
      </li>
      <li>
        <Sign>
          <path d="M-11 -6V6M11 -6V6" stroke="var(--ink-soft)" strokeWidth="1.5" fill="none" />
          <path d="M-11 0H11" stroke="var(--ink-soft)" strokeWidth="1.5" strokeDasharray="3 3" fill="none" />
        </Sign>
        {say('timeline.legend.later')}
      </li>
      <li>
        <Sign>
          <HoldHatch id={id} />
          <rect x="-11" y="-8" width="22" height="16" fill={`url(#${id})`} stroke="var(--ochre)" />
        </Sign>
        {say('timeline.hold')}
      </li>
    </ul>
  );
}

const Sign = ({ children }: { children: React.ReactNode }) => (
  <svg width="26" height="20" viewBox="-13 -10 26 20" aria-hidden="true">
    {children}
  </svg>
);

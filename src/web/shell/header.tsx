import { useState } from 'react';
import { Link, useLocation } from 'wouter';
import { dayOfInstant } from '../../core/calendar.js';
import { flagsIn } from '../../log/flags/flags.js';
import { say } from '../../words/say.js';
import { useNow } from '../clock.js';
import { Act } from '../parts/act.js';
import { usePartner, usePerson, useShelter, useWorld } from '../store/here.js';
import { clockIn } from './clock-in.js';
import { SendState } from './send-state.js';
import { WhoSheet } from './who-sheet.js';

const places = [
  { to: '/', key: 'today' },
  { to: '/due', key: 'due' },
  { to: '/animals', key: 'animals' },
  { to: '/rounds', key: 'rounds' },
  { to: '/flags', key: 'flags' },
  { to: '/stock', key: 'stock' },
  { to: '/sections', key: 'sections' },
  { to: '/people', key: 'people' },
  { to: '/documents', key: 'documents' },
  { to: '/import', key: 'import' },
  { to: '/device', key: 'device' },
] as const;

/** On every screen: the shelter, who works and with whom, the time there, and what has not been sent. */
export function Header() {
  const [choosing, setChoosing] = useState(false);
  const [open, setOpen] = useState(false);
  return (
    <header className="shell-head">
      <WhoLine onWho={() => setChoosing(true)} onMenu={() => setOpen(!open)} open={open} />
      <Places open={open} onGo={() => setOpen(false)} />
      <WhoSheet open={choosing} onClose={() => setChoosing(false)} />
    </header>
  );
}

interface WhoLineProps {
  readonly onWho: () => void;
  readonly onMenu?: () => void;
  readonly open?: boolean;
  /** On the round there is room for people and time only. */
  readonly short?: boolean;
}

/** The top line; the round screens show it too, without the places of the desk. */
export function WhoLine({ onWho, onMenu, open = false, short = false }: WhoLineProps) {
  const shelter = useShelter();
  const person = usePerson();
  const partner = usePartner();
  const at = useNow(5_000);
  return (
    <div className="who-line">
      <button type="button" className="who" onClick={onWho}>
        <span>
          {person === null ? (
            <b>{say('parts.who.nobody')}</b>
          ) : (
            <>
              <b>{person.name}</b>
              {partner === null ? null : (
                <>
                  {` ${say('parts.who.with')} `}
                  <b>{partner.name}</b>
                </>
              )}
            </>
          )}
        </span>
      </button>
      {short ? null : <span>{shelter.name}</span>}
      <span className="row">
        <SendState />
        <b className="mono">{clockIn(shelter.zone, at)}</b>
        {onMenu === undefined ? null : (
          <span className="nav-open">
            <Act size="small" onAct={onMenu}>
              {open ? say('parts.menu-close') : say('parts.menu')}
            </Act>
          </span>
        )}
      </span>
    </div>
  );
}

function Places({ open, onGo }: { open: boolean; onGo: () => void }) {
  const [here] = useLocation();
  const world = useWorld();
  const at = new Date(useNow(60_000)).toISOString();
  const flags = flagsIn(world, dayOfInstant(at, world.shelter.zone)).filter((flag) => flag.state === 'open').length;
  return (
    <nav className="nav" aria-label={say('parts.places')} data-open={open ? 'yes' : 'no'}>
      {places.map(({ to, key }) => {
        const current = to === '/' ? here === '/' : here === to || here.startsWith(`${to}/`);
        return (
          <Link key={to} href={to} onClick={onGo} {...(current ? { 'aria-current': 'page' as const } : {})}>
            {say(`parts.place.${key}`)}
            {key === 'flags' && flags > 0 ? <span className="count">{` ${flags}`}</span> : null}
          </Link>
        );
      })}
    </nav>
  );
}

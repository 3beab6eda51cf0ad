import { useState } from 'react';
import { Link, useLocation } from 'wouter';
import { dayOfInstant } from '../../core/calendar.js';
import { flagsIn } from '../../log/flags/flags.js';
import { say } from '../../words/say.js';
import { useNow } from '../clock.js';
import { useWorld } from '../store/here.js';
import { whenOpened } from './when-opened.js';
import { WhoLine } from './who-line.js';

const WhoSheet = whenOpened(() => import('./who-sheet.js').then((file) => file.WhoSheet));

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
      {choosing ? <WhoSheet onClose={() => setChoosing(false)} /> : null}
    </header>
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

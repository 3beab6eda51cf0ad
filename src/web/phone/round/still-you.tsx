import { useEffect, useRef, useState } from 'react';
import { nowMs } from '../../clock.js';
import { whenOpened } from '../../shell/when-opened.js';
import { usePartner, usePerson } from '../../store/here.js';
import { useRound } from '../around/use-round.js';

const StillSheet = whenOpened(() => import('./still-sheet.js').then((file) => file.StillSheet));

/** A phone laid down for so long may have changed hands; ours. */
const idle_ms = 10 * 60_000;

/**
 * After a pause the phone asks whose hands it is in, before the next record goes under somebody's name. Hidden, while a
 * stop stands, the question waits.
 */
export function StillYou({ hidden, onChange }: { hidden: boolean; onChange: () => void }) {
  const { now_ms, view } = useRound();
  const person = usePerson();
  const partner = usePartner();
  const touched = useRef(nowMs());
  const [asked, setAsked] = useState(false);
  useEffect(() => {
    const touch = (): void => {
      touched.current = nowMs();
    };
    window.addEventListener('pointerdown', touch, true);
    window.addEventListener('keydown', touch, true);
    return () => {
      window.removeEventListener('pointerdown', touch, true);
      window.removeEventListener('keydown', touch, true);
    };
  }, []);
  useEffect(() => {
    if (now_ms - touched.current >= idle_ms) setAsked(true);
  }, [now_ms]);
  if (!asked || hidden || view.state !== 'running' || person === null) return null;
  return (
    <StillSheet
      person={person.name}
      partner={partner?.name ?? null}
      onDone={() => setAsked(false)}
      onChange={onChange}
    />
  );
}

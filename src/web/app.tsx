import { startTransition, useEffect, useState } from 'react';
import { Route, Switch } from 'wouter';
import { say } from '../words/say.js';
import { Notice } from './parts/state.js';
import { LoadAgain } from './shell/load-again.js';
import { whenOpened } from './shell/when-opened.js';
import { useWords } from './shell/words.js';
import { useLocked } from './sign-in/idle.js';
import { usePerson, useShelter, useStatusOf } from './store/here.js';

// Each with what only it needs: fetched when it is opened (shell/when-opened.tsx).
const DeskScreens = whenOpened(() => import('./desk/opening.js').then((file) => file.DeskScreens));
const Start = whenOpened(() => import('./desk/start/start.js').then((file) => file.Start));
const Locked = whenOpened(() => import('./sign-in/locked.js').then((file) => file.Locked));
const RoundScreens = whenOpened(() => import('./phone/opening.js').then((file) => file.RoundScreens));

/** Which screen: none without a store, the start without a shelter or a person, then the round or the desk. */
export function App() {
  useWords();
  const phase = useStatusOf('phase');
  const trouble = useStatusOf('trouble');
  const whole = useStatusOf('whole');
  const [open, setOpen] = useState(false);
  useEffect(() => {
    // A page that is drawn for the first time is drawn in slices, and answers a hand in between.
    if (phase === 'ready') startTransition(() => setOpen(true));
  }, [phase]);
  const shelter = useShelter();
  const person = usePerson();
  const locked = useLocked();
  if (phase === 'opening' || (phase === 'ready' && !open)) return <p className="page">{say('parts.opening')}</p>;
  if (phase === 'cannot-open') {
    return (
      <div className="page">
        <Notice tone="stop" live="alert">
          {trouble === null ? say('parts.store-not-open') : say(trouble)} <LoadAgain />
        </Notice>
      </div>
    );
  }
  if (shelter.name === null || person === null || !whole) return <Start />;
  return (
    <>
      {locked ? <Locked /> : null}
      <div hidden={locked}>
        <Switch>
          <Route path="/round/:id/*?">{(params) => <RoundScreens params={params} />}</Route>
          <Route component={DeskScreens} />
        </Switch>
      </div>
    </>
  );
}

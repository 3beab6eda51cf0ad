import { type ComponentType, startTransition, useEffect, useState } from 'react';
import { say } from '../../words/say.js';
import { Act } from '../parts/act.js';
import { Notice } from '../parts/state.js';
import { newerVersion, switchVersion } from '../store/version.js';
import { fetchEvery } from './words.js';

type State = 'fetching' | 'here' | 'not-fetched';

const parts: (() => Promise<void>)[] = [];

/**
 * A screen whose part of the program is fetched when it is first opened. Not React's own `lazy`: that never asks again
 * after a fetch that failed, and blanks the page for a moment even when the part is here already.
 */
export function whenOpened<P extends object>(load: () => Promise<ComponentType<P>>): ComponentType<P> {
  let Screen: ComponentType<P> | null = null;
  const fetchIt = async (): Promise<void> => {
    Screen = await load();
  };
  parts.push(fetchIt);
  // biome-ignore lint/correctness/noComponentHookFactories: called once for each screen, at the head of its module
  return function Opened(props: P) {
    const [state, setState] = useState<State>('fetching');
    useEffect(() => {
      if (state !== 'fetching' || Screen !== null) return;
      let open = true;
      const tell = (next: State): void => {
        // Drawn in slices: it may be long, and what is on the screen answers a hand meanwhile.
        if (open) startTransition(() => setState(next));
      };
      fetchIt().then(
        () => tell('here'),
        () => tell('not-fetched'),
      );
      return () => {
        open = false;
      };
    }, [state]);
    if (Screen !== null) return <Screen {...props} />;
    if (state === 'not-fetched') return <NotFetched onAgain={() => setState('fetching')} />;
    return <p className="page">{say('parts.opening')}</p>;
  };
}

/** Without the network, or because the server holds a newer version than this page: a person decides when to load anew. */
function NotFetched({ onAgain }: { onAgain: () => void }) {
  return (
    <div className="page stack">
      <h1>{say('parts.not-fetched-title')}</h1>
      <Notice tone="stop" live="alert">
        {say('parts.not-fetched')}
      </Notice>
      <div className="row">
        <Act main size="mid" onAct={onAgain}>
          {say('parts.try-again')}
        </Act>
        <Act size="mid" onAct={() => (newerVersion.get() ? switchVersion() : location.reload())}>
          {say('parts.stopped.load-deleted')}
        </Act>
      </div>
    </div>
  );
}

/** How long a page rests before it fetches what it may need later: what is on the screen comes first. */
const rest_ms = 5_000;

/**
 * Where the browser keeps no copy of the program (a plain address on the shelter's network has no service worker), the
 * other screens are fetched one by one while the page rests, so that they open without the network, too.
 */
export function fetchTheRest(): void {
  if ('serviceWorker' in navigator) return;
  setTimeout(async () => {
    for (const fetchIt of parts) await fetchIt().catch(() => undefined);
    await fetchEvery();
  }, rest_ms);
}

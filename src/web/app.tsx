import { Route, Switch } from 'wouter';
import { say } from '../words/say.js';
import { Notice } from './parts/state.js';
import { Start } from './screens/start/start.js';
import { Today } from './screens/today/today.js';
import { Shell } from './shell/shell.js';
import { usePerson, useShelter, useStatus } from './store/here.js';

export function App() {
  const { phase, trouble } = useStatus();
  const shelter = useShelter();
  const person = usePerson();
  if (phase === 'opening') return <p className="page">{say('parts.opening')}</p>;
  if (phase === 'cannot-open') {
    return (
      <div className="page">
        <Notice tone="stop" live="alert">
          {trouble === null ? say('parts.store-not-open') : say(trouble)}
        </Notice>
      </div>
    );
  }
  if (shelter.name === null || person === null) return <Start />;
  return (
    <Shell>
      <Switch>
        <Route path="/" component={Today} />
        <Route>
          <p className="page">{say('parts.no-such-page')}</p>
        </Route>
      </Switch>
    </Shell>
  );
}

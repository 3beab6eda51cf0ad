import { Route, Switch } from 'wouter';
import { say } from '../words/say.js';
import { Notice } from './parts/state.js';
import { Animals } from './screens/animals/animals.js';
import { NewAnimal } from './screens/animals/new-animal.js';
import { AnimalRecord } from './screens/animals/record/animal-record.js';
import { Device } from './screens/device/device.js';
import { Documents } from './screens/documents/documents.js';
import { ProtocolScreens } from './screens/documents/protocol/protocol-screens.js';
import { DrawUps } from './screens/drawup/draw-ups.js';
import { Due } from './screens/due/due.js';
import { Flags } from './screens/flags/flags.js';
import { KennelSign } from './screens/flags/sign.js';
import { Import } from './screens/import/import.js';
import { People } from './screens/people/people.js';
import { PlanPage } from './screens/ribbon/plan-page.js';
import { RoundScreens } from './screens/round/round-screens.js';
import { Prepare } from './screens/rounds/prepare.js';
import { Review } from './screens/rounds/review.js';
import { Rounds } from './screens/rounds/rounds.js';
import { Sections } from './screens/sections/sections.js';
import { KeyIn } from './screens/sheet/key-in.js';
import { TreatmentSheet } from './screens/sheet/sheet.js';
import { Start } from './screens/start/start.js';
import { Stock } from './screens/stock/stock.js';
import { Today } from './screens/today/today.js';
import { WeighList } from './screens/weigh/weigh-list.js';
import { WeighLitter } from './screens/weigh/weigh-litter.js';
import { LoadAgain } from './shell/load-again.js';
import { Shell } from './shell/shell.js';
import { usePerson, useShelter, useStatus } from './store/here.js';

/** Which screen: none without a store, the start without a shelter or a person, then the round or the desk. */
export function App() {
  const { phase, trouble, whole } = useStatus();
  const shelter = useShelter();
  const person = usePerson();
  if (phase === 'opening') return <p className="page">{say('parts.opening')}</p>;
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
    <Switch>
      <Route path="/round/:id/*?">{(params) => <RoundScreens params={params} />}</Route>
      <Route>
        <Shell>
          <Desk />
        </Shell>
      </Route>
    </Switch>
  );
}

function Desk() {
  return (
    <Switch>
      <Route path="/" component={Today} />
      <Route path="/due" component={Due} />
      <Route path="/animals" component={Animals} />
      <Route path="/animals/new" component={NewAnimal} />
      <Route path="/animals/:id">{(params) => <AnimalRecord key={params.id} params={params} />}</Route>
      <Route path="/rounds" component={Rounds} />
      <Route path="/rounds/prepare" component={Prepare} />
      <Route path="/rounds/plan" component={PlanPage} />
      <Route path="/rounds/key-in" component={KeyIn} />
      <Route path="/rounds/:id/sheet">{(params) => <TreatmentSheet key={params.id} params={params} />}</Route>
      <Route path="/rounds/:id">{(params) => <Review key={params.id} params={params} />}</Route>
      <Route path="/drawup/:from/*?">
        {(params) => <DrawUps key={params.from} params={{ from: params.from, rest: params['*'] ?? '' }} />}
      </Route>
      <Route path="/weigh" component={WeighList} />
      <Route path="/weigh/:group">{(params) => <WeighLitter key={params.group} params={params} />}</Route>
      <Route path="/flags" component={Flags} />
      <Route path="/signs/:id" component={KennelSign} />
      <Route path="/stock" component={Stock} />
      <Route path="/sections" component={Sections} />
      <Route path="/people" component={People} />
      <Route path="/documents" component={Documents} />
      <Route path="/documents/protocol/*">{(params) => <ProtocolScreens rest={params['*'] ?? ''} />}</Route>
      <Route path="/import" component={Import} />
      <Route path="/device" component={Device} />
      <Route>
        <p className="page">{say('parts.no-such-page')}</p>
      </Route>
    </Switch>
  );
}

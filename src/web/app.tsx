import { Route, Switch } from 'wouter';
import { say } from '../words/say.js';
import { Animals } from './desk/animals/animals.js';
import { NewAnimal } from './desk/animals/new-animal.js';
import { AnimalRecord } from './desk/animals/record/animal-record.js';
import { Device } from './desk/device/device.js';
import { Documents } from './desk/documents/documents.js';
import { ProtocolScreens } from './desk/documents/protocol/protocol-screens.js';
import { Due } from './desk/due/due.js';
import { Flags } from './desk/flags/flags.js';
import { Import } from './desk/import/import.js';
import { People } from './desk/people/people.js';
import { Prepare } from './desk/rounds/prepare.js';
import { Review } from './desk/rounds/review.js';
import { Rounds } from './desk/rounds/rounds.js';
import { Sections } from './desk/sections/sections.js';
import { Start } from './desk/start/start.js';
import { Stock } from './desk/stock/stock.js';
import { Today } from './desk/today/today.js';
import { DrawUps } from './paper/draw-up/draw-ups.js';
import { KennelSign } from './paper/kennel-sign/sign.js';
import { KeyIn } from './paper/sheet/key-in.js';
import { TreatmentSheet } from './paper/sheet/sheet.js';
import { Notice } from './parts/state.js';
import { RoundScreens } from './phone/round-screens.js';
import { WeighList } from './phone/weigh/weigh-list.js';
import { WeighLitter } from './phone/weigh/weigh-litter.js';
import { PlanPage } from './ribbon/plan-page.js';
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

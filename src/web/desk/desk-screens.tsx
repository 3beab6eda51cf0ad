import { Route, Switch } from 'wouter';
import { say } from '../../words/say.js';
import { Shell } from '../shell/shell.js';
import { whenOpened } from '../shell/when-opened.js';
import { Today } from './today/today.js';

const Animals = whenOpened(() => import('./animals/animals.js').then((file) => file.Animals));
const NewAnimal = whenOpened(() => import('./animals/new-animal.js').then((file) => file.NewAnimal));
const AnimalRecord = whenOpened(() => import('./animals/record/animal-record.js').then((file) => file.AnimalRecord));
const Device = whenOpened(() => import('./device/device.js').then((file) => file.Device));
const Documents = whenOpened(() => import('./documents/documents.js').then((file) => file.Documents));
const ProtocolScreens = whenOpened(() =>
  import('./documents/protocol/protocol-screens.js').then((file) => file.ProtocolScreens),
);
const Due = whenOpened(() => import('./due/due.js').then((file) => file.Due));
const Flags = whenOpened(() => import('./flags/flags.js').then((file) => file.Flags));
const Import = whenOpened(() => import('./import/import.js').then((file) => file.Import));
const People = whenOpened(() => import('./people/people.js').then((file) => file.People));
const Prepare = whenOpened(() => import('./rounds/prepare.js').then((file) => file.Prepare));
const Review = whenOpened(() => import('./rounds/review.js').then((file) => file.Review));
const Rounds = whenOpened(() => import('./rounds/rounds.js').then((file) => file.Rounds));
const Sections = whenOpened(() => import('./sections/sections.js').then((file) => file.Sections));
const Stock = whenOpened(() => import('./stock/stock.js').then((file) => file.Stock));
const DaySheet = whenOpened(() => import('../paper/day-sheet/day-sheet.js').then((file) => file.DaySheetPage));
const DrawUps = whenOpened(() => import('../paper/draw-up/draw-ups.js').then((file) => file.DrawUps));
const KennelSign = whenOpened(() => import('../paper/kennel-sign/sign.js').then((file) => file.KennelSign));
const KeyIn = whenOpened(() => import('../paper/sheet/key-in.js').then((file) => file.KeyIn));
const TreatmentSheet = whenOpened(() => import('../paper/sheet/sheet.js').then((file) => file.TreatmentSheet));
const WeighList = whenOpened(() => import('../phone/weigh/weigh-list.js').then((file) => file.WeighList));
const WeighLitter = whenOpened(() => import('../phone/weigh/weigh-litter.js').then((file) => file.WeighLitter));
const PlanPage = whenOpened(() => import('../ribbon/plan-page.js').then((file) => file.PlanPage));

/** Every screen outside a round, in the desk's page. */
export function DeskScreens() {
  return (
    <Shell>
      <Switch>
        <Route path="/" component={Today} />
        <Route path="/due" component={Due} />
        <Route path="/animals" component={Animals} />
        <Route path="/animals/new" component={NewAnimal} />
        <Route path="/animals/:id">{(params) => <AnimalRecord key={params.id} params={params} />}</Route>
        <Route path="/day-sheet" component={DaySheet} />
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
    </Shell>
  );
}

import { useEffect, useState } from 'react';
import { Route, Switch, useLocation } from 'wouter';
import { RoundId } from '../../core/ids.js';
import { say } from '../../words/say.js';
import { useWakeLock } from '../alarm/wake-lock.js';
import { AboveSheets } from '../parts/above-sheets.js';
import { Act } from '../parts/act.js';
import { DemoLine } from '../parts/demo-line.js';
import { RunningOnSheets, RunningStrip } from '../running/running-strip.js';
import { BrokenPage } from '../shell/broken-page.js';
import { Notices } from '../shell/notices.js';
import { whenOpened } from '../shell/when-opened.js';
import { WhoLine } from '../shell/who-line.js';
import { useWho } from '../store/here.js';
import { useStopShown } from './around/stops-shown.js';
import { type OnRound, RoundAround, useRoundOf } from './around/use-round.js';
import { ScanOpens } from './identify/scan-opens.js';
import { Home } from './round/home.js';
import { StillYou } from './round/still-you.js';
import './round.css';
import './round-steps.css';

// The first page is at hand; the others are fetched when they are opened (shell/when-opened.tsx).
const AnimalScreen = whenOpened(() => import('./animal/animal.js').then((file) => file.AnimalScreen));
const Clock = whenOpened(() => import('./round/clock.js').then((file) => file.Clock));
const HandBack = whenOpened(() => import('./round/hand-back.js').then((file) => file.HandBack));
const Kits = whenOpened(() => import('./test/kits.js').then((file) => file.Kits));
const LeaveSection = whenOpened(() => import('./door/leave.js').then((file) => file.LeaveSection));
const Reading = whenOpened(() => import('./test/reading.js').then((file) => file.Reading));
const Recorded = whenOpened(() => import('./recorded/recorded.js').then((file) => file.Recorded));
const SectionScreen = whenOpened(() => import('./round/section.js').then((file) => file.SectionScreen));
const TeamSheet = whenOpened(() => import('./round/team.js').then((file) => file.TeamSheet));
const WeighNow = whenOpened(() => import('./animal/weigh-step.js').then((file) => file.WeighNow));

/** The round on the phone: every screen under /round/ID. */
export function RoundScreens({ params }: { params: { id: string } }) {
  const round = useRoundOf(RoundId.parse(decodeURIComponent(params.id)));
  if (round === null) {
    return (
      <main className="round">
        <div className="round-body stack">
          <h1>{say('round.unknown')}</h1>
          <p>{say('round.unknown-why')}</p>
          <a href="/">{say('round.to-start')}</a>
        </div>
      </main>
    );
  }
  return (
    <RoundAround value={round}>
      <Frame round={round} />
    </RoundAround>
  );
}

/** Screens without a scan of their own, on which a chip is not to lead away from what is being done. */
const saysWhose = /\/(?:kits|clock|hand-back|leave|recorded|weigh|read\/[^/]+)$/;

function Frame({ round }: { round: OnRound }) {
  const [team, setTeam] = useState(false);
  const under = round.view.state === 'running';
  const wake = useWakeLock(under);
  const { person } = useWho();
  const [here] = useLocation();
  const stopped = useStopShown();
  useEffect(() => {
    // A stop is seen at once: the dialog over it goes.
    if (stopped) setTeam(false);
  }, [stopped]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: every new place starts at its head, so the place is the reason
  useEffect(() => {
    window.scrollTo(0, 0);
  }, [here]);
  return (
    <AboveSheets value={<RunningOnSheets round={round.round} />}>
      <div className="round">
        <header className="shell-head">
          <WhoLine short onWho={() => setTeam(true)} />
        </header>
        <RunningStrip round={round.round} />
        <main>
          <Notices />
          {saysWhose.test(here) ? <ScanOpens key={here} opens={false} /> : null}
          <BrokenPage at={here}>
            {/* What one person has ticked, counted or typed is not the next person's. */}
            <Switch key={person}>
              <Route path="/round/:id/kits" component={Kits} />
              <Route path="/round/:id/clock" component={Clock} />
              <Route path="/round/:id/hand-back" component={HandBack} />
              <Route path="/round/:id/section/:section">
                {(params) => <SectionScreen key={params.section} section={decodeURIComponent(params.section)} />}
              </Route>
              <Route path="/round/:id/section/:section/leave">
                {(params) => <LeaveSection section={decodeURIComponent(params.section)} />}
              </Route>
              <Route path="/round/:id/animal/:animal/recorded">
                {(params) => <Recorded key={params.animal} animal={decodeURIComponent(params.animal)} />}
              </Route>
              <Route path="/round/:id/animal/:animal/weigh">
                {(params) => <WeighNow key={params.animal} animal={decodeURIComponent(params.animal)} />}
              </Route>
              <Route path="/round/:id/animal/:animal/read/:run">
                {(params) => (
                  <Reading
                    key={params.run}
                    animal={decodeURIComponent(params.animal)}
                    run={decodeURIComponent(params.run)}
                  />
                )}
              </Route>
              <Route path="/round/:id/animal/:animal">
                {(params) => <AnimalScreen key={params.animal} animal={decodeURIComponent(params.animal)} />}
              </Route>
              <Route path="/round/:id">
                <Home wake={wake} onTeam={() => setTeam(true)} />
              </Route>
              <Route>
                <div className="round-body">
                  <p>{say('parts.no-such-page')}</p>
                  <Act onAct={() => history.back()}>{say('round.back')}</Act>
                </div>
              </Route>
            </Switch>
          </BrokenPage>
        </main>
        <footer>
          <DemoLine demo={round.shelter.demo} />
        </footer>
        {team ? null : <StillYou hidden={stopped} onChange={() => setTeam(true)} />}
        {team ? <TeamSheet onClose={() => setTeam(false)} /> : null}
      </div>
    </AboveSheets>
  );
}

import { useCallback, useEffect, useState } from 'react';
import type { ShelterState } from '../../../api/wire.js';
import { say, setZone } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { DemoLine } from '../../parts/demo-line.js';
import { Page } from '../../parts/page.js';
import { Notice } from '../../parts/state.js';
import { Notices } from '../../shell/notices.js';
import { GetIn } from '../../sign-in/get-in.js';
import { sync } from '../../store/exchange.js';
import { store, useShelter, useStatusOf, useWho } from '../../store/here.js';
import { ChoosePerson } from './choose-person.js';
import { madeMeanwhile } from './made-meanwhile.js';
import { SetUpForm } from './set-up-form.js';

type Found = ShelterState | 'asking' | 'out-of-reach';

/** The first screen of a device that has no shelter yet, or on which nobody works. */
export function Start() {
  const shelter = useShelter();
  const whole = useStatusOf('whole');
  const server = useStatusOf('server');
  const who = useWho();
  const [found, setFound] = useState<Found>('asking');
  const [setUp, setSetUp] = useState(false);
  /** Before anybody is asked who holds the device, it has to know the names that it shows. */
  const meet = useCallback(async (state: ShelterState): Promise<void> => {
    if (state.state === 'ready') {
      setZone(state.zone);
      const names = await sync.client.people({});
      if (names.ok && names.value.people !== null) await store.people.take(names.value.people, names.value.tag);
    }
    setFound(state);
  }, []);
  const ask = useCallback(async () => {
    setFound('asking');
    const answer = await sync.client.shelter();
    if (answer.ok) await meet(answer.value);
    else setFound('out-of-reach');
  }, [meet]);
  useEffect(() => {
    void ask();
  }, [ask]);

  const empty = typeof found === 'object' && found.state === 'empty';
  const body = () => {
    if (who.person !== null && !whole && !empty && server !== 'wants-sign-in') return <Fetching />;
    if (shelter.name !== null) {
      const active = shelter.people.filter((one) => one.active);
      return <ChoosePerson shelter={shelter.name} demo={shelter.demo} people={active} />;
    }
    if (found === 'asking') return <p>{say('desk.start.asking')}</p>;
    if (found === 'out-of-reach') {
      return (
        <>
          <Notice tone="stop">{say('desk.start.out-of-reach')}</Notice>
          <div>
            <Act main onAct={ask}>
              {say('parts.try-again')}
            </Act>
          </div>
        </>
      );
    }
    if (found.state === 'ready') return <ChoosePerson shelter={found.name} demo={found.demo} people={found.people} />;
    if (found.state === 'closed') return <GetIn first={found.first} onIn={ask} />;
    return setUp ? (
      <SetUpForm onBack={() => setSetUp(false)} onDone={meet} />
    ) : (
      <TwoWays demoOffered={found.demoOffered} onSetUp={() => setSetUp(true)} onDone={meet} />
    );
  };

  return (
    <main>
      <Notices />
      <Page title={say('desk.start.title')} lead={say('desk.start.lead')}>
        {body()}
      </Page>
      <DemoLine demo={shelter.demo || (typeof found === 'object' && found.state === 'ready' && found.demo)} />
    </main>
  );
}

/** The first fetch: nothing is shown before it is whole, because half the records tell another story. */
function Fetching() {
  const server = useStatusOf('server');
  const fetched = useStatusOf('fetched');
  if (server === 'out-of-reach') return <Notice tone="attention">{say('desk.start.fetching-stuck')}</Notice>;
  return (
    <p role="status">
      {fetched === null
        ? say('desk.start.fetching')
        : say('desk.start.fetched', { have: fetched.have, all: fetched.all })}
    </p>
  );
}

interface TwoWaysProps {
  readonly demoOffered: boolean;
  readonly onSetUp: () => void;
  readonly onDone: (found: ShelterState) => Promise<void>;
}

function TwoWays({ demoOffered, onSetUp, onDone }: TwoWaysProps) {
  const [failed, setFailed] = useState<string | null>(null);
  const demo = async (): Promise<void> => {
    const made = await sync.client.setUpDemo({});
    const answer = made.ok || made.code !== 'unreachable' ? made : await madeMeanwhile(() => sync.client.shelter());
    if (answer.ok && answer.value.state === 'ready') {
      // A half-finished choice from an earlier shelter must not decide who works here.
      await store.chooseWho({ person: null, partner: null });
      await onDone(answer.value);
    } else setFailed((answer.ok ? undefined : answer.problem?.detail) ?? say('desk.start.no-answer'));
  };
  return (
    <>
      {failed === null ? null : (
        <Notice tone="stop" live="alert">
          {failed}
        </Notice>
      )}
      <div className="columns two">
        <div className="sheet stack">
          <h2>{say('desk.start.demo-title')}</h2>
          <p>{say('desk.start.demo-what')}</p>
          {demoOffered ? (
            <Act main size="big" onAct={demo}>
              {say('desk.start.demo-go')}
            </Act>
          ) : (
            <p className="soft">{say('desk.start.demo-not')}</p>
          )}
        </div>
        <div className="sheet stack">
          <h2>{say('desk.start.own-title')}</h2>
          <p>{say('desk.start.own-what')}</p>
          <Act size="big" onAct={onSetUp}>
            {say('desk.start.own-go')}
          </Act>
        </div>
      </div>
    </>
  );
}

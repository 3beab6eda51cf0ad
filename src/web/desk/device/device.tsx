import { useEffect, useState } from 'react';
import type { Status } from '../../../device/store/status.js';
import type { Tone } from '../../../told/tone.js';
import { say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { Facts } from '../../parts/facts.js';
import { ChooseOne } from '../../parts/fields/choices.js';
import { Page, Part } from '../../parts/page.js';
import { State } from '../../parts/state.js';
import { chooseTheme, type Theme, themeNow } from '../../parts/theme.js';
import { sync } from '../../store/exchange.js';
import { store, useStatus, useWorld } from '../../store/here.js';
import { ConfirmSelf } from './confirm.js';
import { Devices } from './devices.js';
import { EmptyDevice } from './empty-device.js';
import { HeldPictures } from './pictures.js';
import { ScanTest } from './scan-test.js';
import { Unsent } from './unsent.js';

const themes = ['day', 'night'] as const;

/** This device: what it has not sent, how it stands with the server, and how it is set. */
export function Device() {
  const status = useStatus();
  const world = useWorld();
  const [theme, setTheme] = useState<Theme>(themeNow);
  const space = useSpace();
  const health = useHealth();
  const drafts = useDrafts();
  const serverTone: Tone = status.server === 'reached' ? 'done' : status.server === 'unknown' ? 'plain' : 'attention';
  const kept = status.kept === null ? 'unknown' : status.kept ? 'yes' : 'no';
  const facts = [
    { word: say('desk.device.version'), value: <span className="mono">{__ROUNDHAND_VERSION__}</span> },
    { word: say('desk.device.id'), value: <span className="mono">{status.device?.slice(-8)}</span> },
    { word: say('desk.device.records'), value: world.ids.size },
    { word: say('desk.device.pictures'), value: <HeldPictures /> },
    {
      word: say('desk.device.server'),
      value: <State tone={serverTone}>{say(`desk.device.server.${status.server}`)}</State>,
    },
    {
      word: say('desk.device.heard'),
      value:
        status.heardAt === null ? say('desk.device.never') : say('desk.device.at', { at: { instant: status.heardAt } }),
    },
    { word: say('desk.device.clock'), value: clockWords(status.clock) },
    { word: say('desk.device.looked'), value: lookedWords(health?.looked) },
    { word: say('desk.device.copied'), value: copiedWords(health?.copied) },
    {
      word: say('desk.device.kept'),
      value: <State tone={status.kept === true ? 'done' : 'attention'}>{say(`desk.device.kept.${kept}`)}</State>,
    },
    {
      word: say('desk.device.space'),
      value: space === null ? say('parts.unknown') : say('desk.device.space-of', space),
    },
  ];
  return (
    <Page title={say('desk.device.title')} acts={<Act onAct={() => sync.once()}>{say('desk.device.exchange')}</Act>}>
      <Part title={say('desk.device.unsent')}>
        <Unsent />
      </Part>
      {drafts ? (
        <Part title={say('people.care.drafts-title')}>
          <ConfirmSelf />
        </Part>
      ) : null}
      <Part title={say('desk.device.state')}>
        <Facts facts={facts} />
      </Part>
      <ChooseOne
        label={say('desk.device.theme')}
        options={themes.map((id) => ({ id, label: say(`desk.device.theme.${id}`) }))}
        value={theme}
        onChange={(next) => {
          setTheme(next);
          chooseTheme(next);
        }}
        flow
      />
      <Part title={say('desk.device.scanner')}>
        <ScanTest />
      </Part>
      <Devices />
      <Part title={say('desk.device.empty-title')}>
        <EmptyDevice />
      </Part>
    </Page>
  );
}

/** Whether something here waits for the password of a veterinarian. */
function useDrafts(): boolean {
  const { unsent, turnedAway } = useStatus();
  const [waits, setWaits] = useState(false);
  // biome-ignore lint/correctness/useExhaustiveDependencies: read again when the counts change
  useEffect(() => {
    const fresh = store.db.outbox.filter(({ why }) => why?.say === 'people.not-fresh');
    void fresh.count().then((count) => setWaits(count > 0));
  }, [unsent, turnedAway]);
  return waits;
}

function useSpace(): { used: number; whole: number } | null {
  const [space, setSpace] = useState<{ used: number; whole: number } | null>(null);
  useEffect(() => {
    const storage = navigator.storage as StorageManager | undefined;
    void storage
      ?.estimate?.()
      .then(({ usage = 0, quota = 0 }) => setSpace({ used: Math.round(usage / 1e6), whole: Math.round(quota / 1e6) }));
  }, []);
  return space;
}

type Health = Extract<Awaited<ReturnType<typeof sync.client.health>>, { ok: true }>['value'];

/** How the server says that it is; undefined while it has not said. */
function useHealth(): Health | undefined {
  const [health, setHealth] = useState<Health>();
  useEffect(() => {
    void sync.client.health().then((answer) => {
      if (answer.ok) setHealth(answer.value);
    });
  }, []);
  return health;
}

function copiedWords(copied: Health['copied'] | undefined) {
  if (copied === undefined) return say('parts.unknown');
  if (copied === null) return <State tone="attention">{say('desk.device.copied-none-asked')}</State>;
  const { last, failed } = copied;
  if (last === null) return <State tone={failed ? 'stop' : 'plain'}>{say('desk.device.copied-none')}</State>;
  return (
    <State tone={failed ? 'stop' : 'done'}>
      {say(failed ? 'desk.device.copied-failed' : 'desk.device.copied-at', { at: { instant: last } })}
    </State>
  );
}

/** When the server last looked all its records through. */
function lookedWords(looked: Health['looked'] | undefined) {
  if (looked === undefined) return say('parts.unknown');
  if (looked === null) return say('desk.device.looked-not-yet');
  const { at, whole, records } = looked;
  return (
    <State tone={whole ? 'done' : 'stop'}>
      {say(whole ? 'desk.device.looked-whole' : 'desk.device.looked-not-whole', { at: { instant: at }, records })}
    </State>
  );
}

function clockWords(clock: Status['clock']): string {
  if (clock === null) return say('parts.unknown');
  const seconds = Math.round(Math.abs(clock.ahead_ms) / 1000);
  const off = say('desk.device.clock-off', { seconds, way: clock.ahead_ms >= 0 ? 'fast' : 'slow' });
  return say('desk.device.clock-measured', { off, at: { instant: clock.measuredAt } });
}

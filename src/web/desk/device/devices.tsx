import { useCallback, useEffect, useState } from 'react';
import type { z } from 'zod';
import type { CodeGiven, DeviceLine } from '../../../api/wire-sign-in.js';
import type { DeviceId } from '../../../core/ids.js';
import { personName, say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { DataTable } from '../../parts/data-table.js';
import { Field } from '../../parts/fields/field.js';
import { Part } from '../../parts/page.js';
import { Sheet } from '../../parts/sheet.js';
import { Notice, State } from '../../parts/state.js';
import { signing } from '../../sign-in/asks.js';
import { Qr } from '../../sign-in/qr.js';
import { ApartRecords } from './apart.js';

type Line = z.output<typeof DeviceLine>;
type Given = z.output<typeof CodeGiven>;

const nameOf = ({ name, id }: Line): string =>
  name === '' ? say('people.device.unnamed', { id: id.slice(-8) }) : name;

/** Every device that somebody of the shelter signed in on; asked of the server, and only there. */
export function Devices() {
  const [devices, setDevices] = useState<readonly Line[] | null>(null);
  const [failed, setFailed] = useState<string | null>(null);
  const [adding, setAdding] = useState(false);
  const [revoking, setRevoking] = useState<Line | null>(null);
  const ask = useCallback(async (): Promise<void> => {
    const answer = await signing.devices();
    if (answer.ok) setDevices(answer.value.devices);
    // Who may not see them is shown nothing of it.
    setFailed(answer.ok || answer.problem !== null ? null : say('people.device.out-of-reach'));
  }, []);
  useEffect(() => {
    void ask();
  }, [ask]);
  const revoke = async (id: DeviceId): Promise<void> => {
    await signing.revokeDevice({ device: id });
    setRevoking(null);
    await ask();
  };
  if (devices === null) return failed === null ? null : <p className="soft">{failed}</p>;
  return (
    <Part title={say('people.device.title')}>
      <p className="soft">{say('people.device.lead')}</p>
      <div>
        <Act onAct={() => setAdding(true)}>{say('people.device.add')}</Act>
      </div>
      <DataTable
        caption={say('people.device.title')}
        rows={devices}
        keyOf={(one) => one.id}
        columns={[
          {
            id: 'name',
            label: say('people.device.name'),
            names: true,
            cell: (one) => (
              <>
                {nameOf(one)}
                {one.here ? <div className="soft small">{say('people.device.here')}</div> : null}
              </>
            ),
          },
          {
            id: 'people',
            label: say('people.device.people'),
            cell: (one) => one.people.map((id) => personName(id)).join(', '),
          },
          {
            id: 'version',
            label: say('desk.device.version'),
            cell: (one) => <span className="mono small">{one.version}</span>,
          },
          {
            id: 'seen',
            label: say('people.device.seen'),
            cell: (one) => say('desk.device.at', { at: { instant: one.seenAt } }),
          },
          {
            id: 'state',
            label: say('desk.due.state'),
            cell: (one) =>
              one.revokedAt === null ? (
                say(one.enrolled ? 'people.device.enrolled' : 'people.device.by-password')
              ) : (
                <State tone="stop">{say('people.device.revoked', { at: { instant: one.revokedAt } })}</State>
              ),
          },
          {
            id: 'do',
            label: say('desk.flags.do'),
            cell: (one) =>
              one.revokedAt === null ? (
                <Act
                  stop
                  size="small"
                  label={say('people.device.revoke-one', { name: nameOf(one) })}
                  onAct={() => setRevoking(one)}
                >
                  {say('people.device.revoke')}
                </Act>
              ) : null,
          },
        ]}
      />
      <ApartRecords />
      {adding ? (
        <AddDevice
          onClose={() => {
            setAdding(false);
            void ask();
          }}
        />
      ) : null}
      {revoking === null ? null : (
        <Sheet
          title={say('people.device.revoke-one', { name: nameOf(revoking) })}
          open
          onClose={() => setRevoking(null)}
        >
          <p>{say('people.device.revoke-what')}</p>
          <div className="row">
            <Act stop size="mid" onAct={() => revoke(revoking.id)}>
              {say('people.device.revoke')}
            </Act>
            <Act onAct={() => setRevoking(null)}>{say('parts.back')}</Act>
          </div>
        </Sheet>
      )}
    </Part>
  );
}

function AddDevice({ onClose }: { onClose: () => void }) {
  const [name, setName] = useState('');
  const [given, setGiven] = useState<Given | null>(null);
  const [failed, setFailed] = useState<string | null>(null);
  const make = async (): Promise<void> => {
    const answer = await signing.deviceCode({ name });
    if (answer.ok) setGiven(answer.value);
    else setFailed(answer.problem?.detail ?? say('people.device.out-of-reach'));
  };
  return (
    <Sheet title={say('people.device.add')} open onClose={onClose}>
      {given === null ? (
        <>
          <Field label={say('people.device.name-of-new')} value={name} onChange={setName} maxLength={80} autoFocus />
          {failed === null ? null : (
            <Notice tone="stop" live="alert">
              {failed}
            </Notice>
          )}
          <Act main size="mid" disabled={name.trim() === ''} onAct={make}>
            {say('people.device.make-code')}
          </Act>
        </>
      ) : (
        <>
          <p>{say('people.device.scan', { until: { instant: given.until } })}</p>
          <Qr text={`${location.origin}/#enrol=${given.code}`} label={say('people.device.qr')} />
          <p className="mono">{given.code}</p>
          <Act onAct={onClose}>{say('parts.back')}</Act>
        </>
      )}
    </Sheet>
  );
}

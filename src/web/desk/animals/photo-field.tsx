import { useId, useState } from 'react';
import type { Photo } from '../../../core/animal/photo.js';
import { type Outcome, ok, type Said, said } from '../../../core/said.js';
import { holdPhoto } from '../../../device/photos/held.js';
import { makePhoto } from '../../../device/photos/make.js';
import { say } from '../../../words/say.js';
import { now } from '../../clock.js';
import { Act } from '../../parts/act.js';
import { usePhoto } from '../../parts/pictures/use-picture.js';
import { sync } from '../../store/exchange.js';
import { store } from '../../store/here.js';

interface PhotoFieldProps {
  readonly value: Photo | null;
  readonly onChange: (photo: Photo | null) => void;
}

/** A photo that tells the animal from its look-alikes, out of the camera or a file. It is kept before its name is given on. */
export function PhotoField({ value, onChange }: PhotoFieldProps) {
  const id = useId();
  const [state, setState] = useState<'idle' | 'working' | Said>('idle');
  const { address, looking } = usePhoto(value, 'small');
  const take = async (file: File | undefined): Promise<void> => {
    if (file === undefined) return;
    setState('working');
    const photo = await photoOf(file);
    setState(photo.ok ? 'idle' : photo.why);
    if (photo.ok) onChange(photo.value);
  };
  return (
    <div className="field">
      <label htmlFor={id}>{say('desk.animal.photo')}</label>
      <input
        id={id}
        type="file"
        accept="image/*"
        capture="environment"
        disabled={state === 'working'}
        onChange={(event) => {
          const field = event.currentTarget;
          const file = field.files?.[0];
          // Else the same picture, taken away or gone wrong, could not be chosen again: nothing would have changed.
          field.value = '';
          void take(file);
        }}
      />
      <div role="status">{state === 'working' ? say('desk.animal.photo-working') : null}</div>
      {typeof state === 'object' ? (
        <div className="wrong" role="alert">
          {say(state)}
        </div>
      ) : null}
      {value === null ? null : (
        <div className="row">
          {address === null ? (
            <span className="soft small">{looking ? '' : say('desk.animal.photo-elsewhere')}</span>
          ) : (
            <img src={address} alt={say('desk.animal.photo')} style={{ width: 96, height: 96, objectFit: 'cover' }} />
          )}
          <Act size="small" onAct={() => onChange(null)}>
            {say('desk.animal.photo-away')}
          </Act>
        </div>
      )}
    </div>
  );
}

/**
 * Made on the device, so that it works without the network. What this browser cannot read the server may, while it is
 * in reach; if it cannot either, its sentence says what to do.
 */
async function photoOf(file: File): Promise<Outcome<Photo>> {
  const made = await makePhoto(file);
  if (made !== null) return holdPhoto(store.db, made, now());
  const answer = await sync.client.takePhoto(new Uint8Array(await file.arrayBuffer()));
  if (answer.ok) return ok(answer.value);
  return { ok: false, why: (answer.problem?.said as Said | undefined) ?? said('desk.animal.photo-wrong') };
}

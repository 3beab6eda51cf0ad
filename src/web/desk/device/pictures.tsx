import { useEffect, useState } from 'react';
import type { HeldPicture } from '../../../device/db.js';
import { say } from '../../../words/say.js';
import { Notice } from '../../parts/state.js';
import { store, useStatusOf } from '../../store/here.js';

/** How many pictures this device holds for the time without the network. */
export function HeldPictures() {
  const pictures = useStatusOf('pictures');
  const heardAt = useStatusOf('heardAt');
  const [held, setHeld] = useState<number | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: counted again after each exchange
  useEffect(() => void store.db.pictures.count().then(setHeld), [pictures, heardAt]);
  return <>{held ?? ''}</>;
}

/** Pictures that only this device has: still to be sent, or turned away with the server's reason. */
export function UnsentPictures() {
  const pictures = useStatusOf('pictures');
  const { waiting, notTaken } = pictures;
  const [turnedAway, setTurnedAway] = useState<readonly HeldPicture[]>([]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: read again when the count changes
  useEffect(
    () => void store.db.pictures.where('state').equals('turned-away').toArray().then(setTurnedAway),
    [notTaken],
  );
  return (
    <>
      {waiting === 0 ? null : (
        <Notice tone="attention">{say('desk.device.pictures-waiting', { count: Math.ceil(waiting / 2) })}</Notice>
      )}
      {turnedAway.map(({ id, why }) => (
        <Notice key={id} tone="stop">
          {say('desk.device.pictures-turned-away', { why: why ?? '' })}
        </Notice>
      ))}
    </>
  );
}

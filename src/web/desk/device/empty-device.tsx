import { useState } from 'react';
import { removeMark } from '../../../device/store/memory-mark.js';
import { say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { Field } from '../../parts/fields/field.js';
import { Sheet } from '../../parts/sheet.js';
import { Notice } from '../../parts/state.js';
import { store, useStatusOf } from '../../store/here.js';

/** Take everything off this device, for another shelter or another owner. Unsent records are lost: that is asked twice. */
export function EmptyDevice() {
  const records = useStatusOf('unsent');
  const pictures = useStatusOf('pictures');
  const unsent = records + pictures.waiting + pictures.notTaken;
  const [open, setOpen] = useState(false);
  const [typed, setTyped] = useState('');
  const ready = unsent === 0 || typed.trim() === String(unsent);
  const empty = async (): Promise<void> => {
    await store.db.delete();
    removeMark();
    location.href = '/';
  };
  return (
    <div className="stack">
      <p>{say('desk.device.empty-what')}</p>
      <div>
        <Act stop onAct={() => setOpen(true)}>
          {say('desk.device.empty')}
        </Act>
      </div>
      <Sheet title={say('desk.device.empty')} open={open} onClose={() => setOpen(false)}>
        <p>{say('desk.device.empty-sure')}</p>
        {unsent === 0 ? null : (
          <>
            <Notice tone="stop">{say('desk.device.empty-unsent', { count: unsent })}</Notice>
            <Field label={say('desk.device.empty-type')} value={typed} onChange={setTyped} inputMode="numeric" narrow />
          </>
        )}
        <div className="row">
          <Act stop size="mid" disabled={!ready} onAct={empty}>
            {say('desk.device.empty')}
          </Act>
          <Act onAct={() => setOpen(false)}>{say('parts.back')}</Act>
        </div>
      </Sheet>
    </div>
  );
}

import { useState } from 'react';
import { describe, expect, it, vi } from 'vitest';
import { page } from 'vitest/browser';
import { atTheCage } from '../../../test/support/at-the-cage.js';
import { roundLog } from '../../../test/support/round-log.js';
import { no } from '../../core/said.js';
import { weighAnimal } from '../../log/commands/animal.js';
import { say } from '../../words/say.js';
import { now } from '../clock.js';
import { store } from '../store/here.js';
import { Field } from './fields/field.js';
import { RecordSheet } from './record-sheet.js';

const dialog = page.getByRole('dialog');
const record = dialog.getByRole('button', { name: 'Record', exact: true });
const grams = dialog.getByRole('textbox', { name: 'Grams' });

function Form({
  first,
  onClose,
}: {
  first: () => Promise<ReturnType<typeof no> | { ok: true; value: null }>;
  onClose: () => void;
}) {
  const [text, setText] = useState('');
  const body = { grams: Number(text), entered: text, doubtful: false };
  return (
    <RecordSheet
      title="Weigh"
      action="Record"
      onClose={onClose}
      intent={text === '' ? { missing: 'Type the grams.' } : weighAnimal('kit-1' as never, body, now())}
      first={first}
    >
      <Field label="Grams" value={text} onChange={setText} />
    </RecordSheet>
  );
}

async function desk(first: Parameters<typeof Form>[0]['first'] = async () => ({ ok: true, value: null })) {
  const onClose = vi.fn();
  const at = await atTheCage(roundLog({ 'kit-1': ['roundworm'] }), () => <Form first={first} onClose={onClose} />);
  return { ...at, onClose };
}

describe('a form that makes a record', () => {
  it('says what is missing, then in words what will be recorded, and records that once', async () => {
    const { written, onClose } = await desk();
    await expect.element(dialog.getByText('Type the grams.')).toBeVisible();
    await expect.element(record).toBeDisabled();
    await grams.fill('612');
    await expect.element(dialog.getByRole('listitem')).toHaveTextContent(/612\sg/);
    await record.dblClick();
    await expect.poll(() => onClose.mock.calls.length).toBe(1);
    expect((await written()).map(({ kind }) => kind)).toEqual(['animal-weighed']);
  });

  it('stays open with what was typed while something before it says no, and can be pressed again', async () => {
    let open = false;
    const { written, onClose } = await desk(async () => (open ? { ok: true, value: null } : no('parts.no-shelter')));
    await grams.fill('612');
    await record.click();
    await expect.element(dialog.getByRole('alert')).toHaveTextContent(say('parts.no-shelter'));
    await expect.element(grams).toHaveValue('612');
    expect([await written(), onClose.mock.calls]).toEqual([[], []]);
    open = true;
    await record.click();
    await expect.poll(() => onClose.mock.calls.length).toBe(1);
    expect(await written()).toHaveLength(1);
  });

  it('says that nothing was kept where the device cannot write, and keeps what was typed', async () => {
    const { written, onClose } = await desk();
    await grams.fill('612');
    store.say({ stopped: 'newer' });
    await record.click();
    await expect.element(dialog.getByRole('alert')).toHaveTextContent(say('parts.stopped.not-saved-newer'));
    store.say({ stopped: null });
    await expect.element(grams).toHaveValue('612');
    expect([await written(), onClose.mock.calls]).toEqual([[], []]);
  });
});

import { describe, expect, it, vi } from 'vitest';
import { page } from 'vitest/browser';
import { atTheCage } from '../../../../test/support/at-the-cage.js';
import { roundLog } from '../../../../test/support/round-log.js';
import { say } from '../../../words/say.js';
import { store } from '../../store/here.js';
import { SectionSheet } from '../sections/section-sheet.js';
import { PersonSheet } from './person-sheet.js';

const dialog = page.getByRole('dialog');
const button = (name: string) => dialog.getByRole('button', { name, exact: true });
const text = (name: string) => dialog.getByRole('textbox', { name, exact: true });
const option = (name: string) => dialog.getByText(name, { exact: true });
const role = (id: 'medical' | 'volunteer') =>
  dialog
    .getByText(new RegExp(`^${say(`parts.role.${id}`)}`))
    .first()
    .click();
const record = button(say('desk.sections.record'));

async function desk(form: (onClose: () => void) => React.ReactNode, by = 'sol') {
  const onClose = vi.fn();
  const at = await atTheCage(roundLog({ 'kit-1': ['roundworm'] }), () => form(onClose), {
    at: '16:00',
    by,
    partner: null,
  });
  await expect.element(dialog).toBeVisible();
  return { ...at, onClose };
}

describe('somebody new', () => {
  const sheet = (by?: string) => desk((onClose) => <PersonSheet person={null} onClose={onClose} />, by);

  it('has a name, is one person however often it is pressed, and the name is in no record', async () => {
    const { written, onClose } = await sheet();
    await expect.element(record).toBeDisabled();
    await expect.element(dialog.getByText(say('desk.people.needs-name'))).toBeVisible();
    await text(say('desk.person.name')).fill('  ');
    await expect.element(record).toBeDisabled();
    await text(say('desk.person.name')).fill('Noor');
    await record.dblClick();
    await expect.poll(() => onClose.mock.calls.length).toBe(1);
    const records = await written();
    expect(records.map(({ kind }) => kind)).toEqual(['person-described']);
    expect(JSON.stringify(records)).not.toContain('Noor');
  });

  it('a licence that was typed before another role was chosen is not kept', async () => {
    const { onClose } = await sheet();
    await text(say('desk.person.name')).fill('Noor');
    await role('medical');
    await text(say('desk.person.licence')).fill('Invented 7');
    await role('volunteer');
    await expect.element(text(say('desk.person.licence'))).not.toBeInTheDocument();
    await record.click();
    await expect.poll(() => onClose.mock.calls.length).toBe(1);
    expect(JSON.stringify(store.people.waiting.get())).not.toContain('Invented 7');
  });

  it('is not described by somebody who may not, who is told who may, and keeps what was typed', async () => {
    const { written, onClose } = await sheet('ines');
    await text(say('desk.person.name')).fill('Noor');
    await record.click();
    await expect.element(dialog.getByRole('alert')).toHaveTextContent('Ines');
    await expect.element(text(say('desk.person.name'))).toHaveValue('Noor');
    expect([await written(), onClose.mock.calls]).toEqual([[], []]);
  });
});

describe('a section', () => {
  const sheet = () => desk((onClose) => <SectionSheet section={null} onClose={onClose} />);

  it('takes what is usual of the rank chosen last, as long as nobody has written something else', async () => {
    const { written, onClose } = await sheet();
    await expect.element(record).toBeDisabled();
    await text(say('desk.section.name')).fill('Ward');
    const wear = text(say('desk.section.wear'));
    const usual = (wear.element() as HTMLTextAreaElement).value;
    await option(say('parts.rank.quarantine')).click();
    await expect.element(wear).not.toHaveValue(usual);
    await wear.fill('an apron');
    await option(say('parts.rank.clean-adults')).click();
    await expect.element(wear).toHaveValue('an apron');
    await record.dblClick();
    await expect.poll(() => onClose.mock.calls.length).toBe(1);
    expect((await written()).map(({ body }) => body)).toMatchObject([
      { name: 'Ward', rank: 'clean-adults', wear: ['an apron'] },
    ]);
  });

  it('minutes that are none are refused in words', async () => {
    const { written } = await sheet();
    await text(say('desk.section.name')).fill('Ward');
    await text(say('desk.section.contact')).fill('ten');
    await expect.element(record).toBeDisabled();
    await expect.element(text(say('desk.section.contact'))).toHaveAttribute('aria-invalid', 'true');
    await text(say('desk.section.contact')).fill('121');
    await expect.element(record).toBeDisabled();
    expect(await written()).toEqual([]);
  });
});

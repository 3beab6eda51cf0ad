import { useState } from 'react';
import { describe, expect, it, vi } from 'vitest';
import { page } from 'vitest/browser';
import { onPage } from '../../../../test/support/on-page.js';
import type { SyringeScale } from '../../../core/quantity/read-volume.js';
import { VolumeField, volumeIn } from './volume-field.js';

/** The field as a screen keeps it; `heard` is told the microlitres that it stands for. */
function Drawn({ heard, scale }: { heard: (ul: number | null) => void; scale: SyringeScale | null }) {
  const [text, setText] = useState('');
  const [chosen, setChosen] = useState<number | null>(null);
  heard(volumeIn(text, scale, chosen));
  return <VolumeField label="Drawn" text={text} onText={setText} chosen={chosen} onChosen={setChosen} scale={scale} />;
}
const field = page.getByRole('textbox', { name: /Drawn/ });

function drawn(scale: SyringeScale | null = null) {
  const heard = vi.fn();
  onPage(<Drawn heard={heard} scale={scale} />);
  return () => heard.mock.lastCall?.[0] as number | null | undefined;
}

describe('a volume as people type it', () => {
  it('takes point and comma for the same, says it back, and leaves the field as it was typed', async () => {
    const last = drawn();
    await field.fill('0,12 mL');
    await expect.poll(last).toBe(120);
    await expect.element(page.getByText(/0\.12\smL/)).toBeVisible();
    await expect.element(field).toHaveValue('0,12 mL');
    await field.fill('0.12 mL');
    await expect.poll(last).toBe(120);
  });

  it('with two readings stands for none until one is chosen, and forgets the choice when it changes', async () => {
    const last = drawn();
    await field.fill('1,234 mL');
    const choices = page.getByRole('group').getByRole('button');
    await expect.element(choices.first()).toBeVisible();
    await expect.poll(last).toBeNull();
    await choices.first().click();
    const chosen = last();
    expect([1234, 1_234_000]).toContain(chosen);
    await field.fill('1,235 mL');
    await expect.poll(last).toBeNull();
  });

  it('that cannot be read says so beside the field and stands for none', async () => {
    const last = drawn();
    await field.fill('a drop');
    await expect.element(field).toHaveAttribute('aria-invalid', 'true');
    await expect.poll(last).toBeNull();
    await expect.element(field).toHaveValue('a drop');
  });

  it('is counted in units where the syringe shows units', async () => {
    const last = drawn('U-100');
    await field.fill('12 units');
    await expect.poll(last).toBe(120);
  });
});

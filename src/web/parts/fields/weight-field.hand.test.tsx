import { useState } from 'react';
import { describe, expect, it, vi } from 'vitest';
import { page } from 'vitest/browser';
import { onPage } from '../../../../test/support/on-page.js';
import type { Weight } from '../../../core/quantity/read-weight.js';
import { WeightField, weightIn } from './weight-field.js';

/** The field as a screen keeps it; `heard` is told what it stands for. */
function Scale({ heard }: { heard: (grams: number | null) => void }) {
  const [text, setText] = useState('');
  const [chosen, setChosen] = useState<Weight | null>(null);
  heard(weightIn(text, 'g', chosen)?.grams ?? null);
  return <WeightField label="Weight" unit="g" text={text} onText={setText} chosen={chosen} onChosen={setChosen} />;
}

describe('a weight as people type it', () => {
  it('is said back as it is typed, and never changed in the field', async () => {
    const heard = vi.fn();
    onPage(<Scale heard={heard} />);
    const field = page.getByRole('textbox', { name: /Weight/ });
    await field.fill('2 lb 3 oz');
    await expect.element(page.getByText(/992\sg/).first()).toBeVisible();
    await expect.element(field).toHaveValue('2 lb 3 oz');
    expect(heard).toHaveBeenLastCalledWith(992);
  });

  it('with two readings is asked about, stands for none until one is chosen, and forgets the choice when it changes', async () => {
    const heard = vi.fn();
    onPage(<Scale heard={heard} />);
    const field = page.getByRole('textbox', { name: /Weight/ });
    await field.fill('1,010');
    // Both readings are said; one that no cat weighs cannot be chosen.
    await expect.element(page.getByText(/1\.01\sg.*1010\sg/)).toBeVisible();
    expect(heard).toHaveBeenLastCalledWith(null);
    await page.getByRole('group').getByRole('button').click();
    await expect.poll(() => heard.mock.lastCall?.[0]).toBe(1010);
    await field.fill('1,020');
    await expect.poll(() => heard.mock.lastCall?.[0]).toBeNull();
  });

  it('that cannot be read says so beside the field and stands for nothing', async () => {
    const heard = vi.fn();
    onPage(<Scale heard={heard} />);
    const field = page.getByRole('textbox', { name: /Weight/ });
    await field.fill('heavy');
    await expect.element(field).toHaveAttribute('aria-invalid', 'true');
    expect(heard).toHaveBeenLastCalledWith(null);
  });
});

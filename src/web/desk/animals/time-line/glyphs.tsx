import type { Evaluated } from '../../../../core/protocol/evaluated.js';

type Worth = Evaluated['status'] | 'reactive';

/** What a test was worth says nothing about what it found: a reactive one has a sign of its own, and no tick. */
export const signOf = ({ status, result }: Pick<Evaluated, 'status' | 'result'>): Worth =>
  result === 'reactive' ? 'reactive' : status;

const shapes: Readonly<Record<Worth, { readonly path: string; readonly ink: string }>> = {
  valid: { path: 'M-6 0L-2 5L7 -6', ink: 'var(--verdigris)' },
  reactive: { path: 'M-5 -5H5V5H-5Z', ink: 'var(--madder)' },
  'not-valid': { path: 'M-5 -5L5 5M-5 5L5 -5', ink: 'var(--madder)' },
  extra: { path: 'M-6 0H6M0 -6V6', ink: 'var(--ink)' },
  substandard: { path: 'M0 -6L6 5H-6Z', ink: 'var(--ochre)' },
  pending: { path: 'M0 -6A6 6 0 1 1 -0.1 -6M0 -4V0H3', ink: 'var(--cobalt)' },
};

/** What something given was worth: each worth has a shape of its own, and needs no colour. */
export function WorthGlyph({ worth }: { worth: Worth }) {
  const { path, ink } = shapes[worth];
  return <path d={path} fill="none" stroke={ink} strokeWidth="2.4" strokeLinecap="square" />;
}

/** The hatching of a hold. Fainter than the hatches of sections, and drawn the other way. */
export function HoldHatch({ id }: { id: string }) {
  return (
    <defs>
      <pattern id={id} width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)">
        <path d="M0 0v7" stroke="var(--ochre)" strokeWidth="1.6" fill="none" />
      </pattern>
    </defs>
  );
}

/** The day it is due: a wedge that stands on the bracket of its window. */
export const dueWedge = 'M0 0L-5 -8H5Z';

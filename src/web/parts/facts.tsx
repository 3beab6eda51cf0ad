import type { ReactNode } from 'react';

export interface Fact {
  readonly word: string;
  readonly value: ReactNode;
}

/** Words and what they stand for, in two columns; facts without a value are left out. */
export function Facts({ facts }: { facts: readonly Fact[] }) {
  return (
    <dl className="facts">
      {facts
        .filter(({ value }) => value !== '' && value !== null)
        .map(({ word, value }) => (
          <div key={word} className="fact">
            <dt>{word}</dt>
            <dd>{value}</dd>
          </div>
        ))}
    </dl>
  );
}

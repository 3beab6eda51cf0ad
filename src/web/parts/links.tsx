import type { ReactNode } from 'react';
import { Link } from 'wouter';
import type { Animal } from '../../core/animal/animal.js';
import { nameOf } from '../../told/names.js';

export const animalPath = (id: string): string => `/animals/${encodeURIComponent(id)}`;

export const AnimalLink = ({ animal }: { animal: Pick<Animal, 'id' | 'name' | 'label'> }) => (
  <Link href={animalPath(animal.id)}>{nameOf(animal)}</Link>
);

/** A link that looks and is pressed like a button. */
export const GoButton = ({ to, main, children }: { to: string; main?: boolean; children: ReactNode }) => (
  <Link href={to} className={main ? 'btn main' : 'btn'}>
    {children}
  </Link>
);

import type { Animal } from '../../../core/animal/animal.js';
import type { Twins } from '../../../log/views/twins.js';
import { say } from '../../../words/say.js';
import { Notice } from '../../parts/state.js';

/** Others in care with the number or the name of this animal: said before anybody is taken for anybody. */
export function TwinNotes({ animal, twins }: { animal: Animal; twins: Twins }) {
  const name = animal.name || animal.label;
  const number = animal.label;
  return (
    <>
      {twins.number.length === 0 ? null : (
        <Notice tone="stop">
          {say('round.identify.number-twin', {
            animal: name,
            number,
            others: { list: twins.number.map((one) => one.name || one.label) },
          })}
        </Notice>
      )}
      {twins.name.length === 0 ? null : (
        <Notice tone="attention">
          {number === ''
            ? say('round.identify.name-twin-no-number', { animal: name, count: twins.name.length })
            : say('round.identify.name-twin', { animal: name, number, count: twins.name.length })}
        </Notice>
      )}
    </>
  );
}

/** The same in a list, in a few words; empty for one with a name of its own. */
export function twinNote({ label }: Animal, { name }: Twins): string {
  if (name.length === 0) return '';
  const count = name.length + 1;
  return label === '' ? say('round.name-twin-no-number', { count }) : say('round.name-twin', { count, number: label });
}

import { useState } from 'react';
import { rankOrder } from '../../../../core/biosecurity/section.js';
import type { SectionId } from '../../../../core/ids.js';
import { moveAnimal } from '../../../../log/commands/animal.js';
import { isShared } from '../../../../log/flags/blood-tests/unsettled-flags.js';
import { apartFlags } from '../../../../log/flags/open-things.js';
import { isTooClean, seenThatKeepsApart } from '../../../../log/views/apart/keep-apart.js';
import { sectionOf } from '../../../../log/views/shelter.js';
import { nameOf } from '../../../../told/names.js';
import { say } from '../../../../words/say.js';
import { now, useToday } from '../../../clock.js';
import { Field } from '../../../parts/fields/field.js';
import { type Intent, RecordSheet } from '../../../parts/record-sheet.js';
import { Notice } from '../../../parts/state.js';
import { useWorld } from '../../../store/here.js';
import { PlaceFields } from '../place-fields.js';
import type { DoProps } from './doing.js';

export function MoveSheet({ animal, onClose }: DoProps) {
  const world = useWorld();
  const { shelter } = world;
  const today = useToday(shelter.zone);
  const [section, setSection] = useState(animal.section);
  const [kennel, setKennel] = useState(animal.kennel);
  const [why, setWhy] = useState('');
  // Where it was when the sheet was opened: a move that comes in meanwhile was not known.
  const [known] = useState(animal);
  // A kennel is one of its section: nobody has said in which one of another the animal will sit.
  const toSection = (next: SectionId | null): void => {
    setSection(next);
    if (next !== section) setKennel(next === animal.section ? animal.kennel : '');
  };
  const same = section === animal.section && kennel === animal.kennel;
  const [from, to] = [sectionOf(shelter, animal.section), sectionOf(shelter, section)];
  const cleaner =
    from !== null &&
    to !== null &&
    rankOrder(to.rank) < rankOrder(from.rank) &&
    rankOrder(from.rank) >= rankOrder('quarantine');
  const flags = isShared(to) ? apartFlags(world, animal, today) : [];
  const seen = seenThatKeepsApart(animal, world.ground, today).filter((rule) => isTooClean(to, rule));
  const apart = [...flags.map((flag) => say(`flag-name.${flag.code}`)), ...seen.map(({ words }) => words)];
  const intent = (): Intent => {
    if (same) return { missing: say('desk.move.same') };
    if (apart.length > 0 && why.trim() === '') return { missing: say('desk.move.apart-why') };
    return moveAnimal(animal.id, known, { section, kennel, why }, now());
  };
  return (
    <RecordSheet
      title={say('desk.do-title.move', { name: nameOf(animal) })}
      intent={intent()}
      action={say('desk.do.move')}
      onClose={onClose}
    >
      <PlaceFields section={section} kennel={kennel} onSection={toSection} onKennel={setKennel} />
      {cleaner ? (
        <Notice tone="attention">{say('desk.move.to-cleaner', { from: from.name, to: to.name })}</Notice>
      ) : null}
      {apart.length === 0 ? null : (
        <Notice tone="stop" live="alert">
          {say('desk.move.apart', {
            name: nameOf(animal),
            what: { list: apart },
          })}
        </Notice>
      )}
      <Field label={say('desk.move.why')} value={why} onChange={setWhy} maxLength={200} />
    </RecordSheet>
  );
}

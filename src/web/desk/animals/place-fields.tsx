import type { SectionId } from '../../../core/ids.js';
import { say } from '../../../words/say.js';
import { Field } from '../../parts/fields/field.js';
import { Pick } from '../../parts/fields/pick.js';
import { useShelter } from '../../store/here.js';

interface PlaceFieldsProps {
  readonly section: SectionId | null;
  readonly kennel: string;
  readonly onSection: (section: SectionId | null) => void;
  readonly onKennel: (kennel: string) => void;
}

export function PlaceFields({ section, kennel, onSection, onKennel }: PlaceFieldsProps) {
  const { sections } = useShelter();
  const open = sections.filter((one) => !one.closed);
  const kennels = sections.find((one) => one.id === section)?.kennels ?? [];
  return (
    <div className="row end">
      <Pick<SectionId | 'none'>
        label={say('desk.section.name')}
        options={[
          ...open.map(({ id, name, rank }) => ({ id, label: name, note: say(`parts.rank.${rank}`) })),
          { id: 'none' as const, label: say('desk.place.none'), note: say('desk.place.none-note') },
        ]}
        value={section ?? 'none'}
        onChange={(id) => onSection(id === 'none' ? null : id)}
        narrow
      />
      <Field
        label={say('desk.animal.kennel')}
        value={kennel}
        onChange={onKennel}
        maxLength={40}
        narrow
        hint={
          kennels.length === 0
            ? undefined
            : say('desk.animal.kennel-hint', { kennels: kennels.slice(0, 12).join(', ') })
        }
      />
    </div>
  );
}

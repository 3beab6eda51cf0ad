import type { AnimalId } from '../../../../core/ids.js';
import { namedElsewhere } from '../../../../log/views/chips/chip-elsewhere.js';
import { chipText } from '../../../../told/names.js';
import { say } from '../../../../words/say.js';
import { Page } from '../../../parts/page.js';
import { Notice } from '../../../parts/state.js';
import { useWorld } from '../../../store/here.js';
import type { Opened } from '../../../store/use-opened.js';

/** An animal that is not on this device: being fetched, or what is known of it without the server. */
export function NotHere({ id, opened }: { id: AnimalId; opened: Opened }) {
  const { chips } = useWorld();
  if (opened.is !== 'out-of-reach') return <Page title={say('parts.fetching')}>{null}</Page>;
  const entry = chips.byAnimal.get(id);
  return (
    <Page title={say('desk.animal.not-here')}>
      <Notice tone="attention" live="status">
        {say('desk.animal.not-here-why')}
      </Notice>
      {entry === undefined ? null : (
        <>
          <p>{say('desk.animal.not-here-known', { animal: namedElsewhere(entry) })}</p>
          <ul className="plain flow-list">
            {entry.numbers.map(({ code, is }) => (
              <li key={code}>{say('desk.animal.not-here-chip', { is, code: chipText(code) })}</li>
            ))}
          </ul>
        </>
      )}
    </Page>
  );
}

/** As of when the record of an animal that left is whole on this device. */
export function AsOf({ opened }: { opened: Opened }) {
  if (opened.is === 'not-needed') return null;
  return (
    <Notice tone={opened.is === 'out-of-reach' ? 'attention' : 'plain'} live="status">
      {opened.is === 'here'
        ? say('desk.animal.as-of', { at: { instant: opened.asOf } })
        : say(opened.is === 'fetching' ? 'parts.fetching' : 'desk.animal.maybe-old')}
    </Notice>
  );
}

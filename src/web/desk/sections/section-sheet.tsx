import { useMemo, useState } from 'react';
import { type SectionRank, sectionRanks } from '../../../core/biosecurity/section.js';
import { sectionDefaults } from '../../../core/biosecurity/section-defaults.js';
import { SectionId } from '../../../core/ids.js';
import { describeSection } from '../../../log/commands/shelter.js';
import type { Section } from '../../../log/views/shelter.js';
import { inCare } from '../../../log/views/world.js';
import { itemText } from '../../../told/item-text.js';
import { say } from '../../../words/say.js';
import { now } from '../../clock.js';
import { ChooseOne, Tick } from '../../parts/fields/choices.js';
import { Field } from '../../parts/fields/field.js';
import { type Intent, RecordSheet } from '../../parts/record-sheet.js';
import { Notice } from '../../parts/state.js';
import { newId, useWorld } from '../../store/here.js';
import { readKennels } from '../start/kennels.js';

const lines = (text: string): string[] =>
  text
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '');

/** Words shown for catalogue keys are put back as keys when they are left as they were. */
function keyed(words: readonly string[], keys: readonly string[]): string[] {
  const known = new Map(keys.map((key) => [itemText(key), key]));
  return words.map((word) => known.get(word) ?? word);
}

const everyKey = sectionRanks.flatMap((rank) => [...sectionDefaults[rank].wear, ...sectionDefaults[rank].leave]);

export function SectionSheet({ section, onClose }: { section: Section | null; onClose: () => void }) {
  const world = useWorld();
  const id = useMemo(() => section?.id ?? SectionId.parse(newId()), [section]);
  const [name, setName] = useState(section?.name ?? '');
  const [rank, setRank] = useState<SectionRank>(section?.rank ?? 'clean-adults');
  const [kennels, setKennels] = useState((section?.kennels ?? []).join(', '));
  const [wear, setWear] = useState<string | null>(section === null ? null : section.wear.map(itemText).join('\n'));
  const [leave, setLeave] = useState<string | null>(section === null ? null : section.leave.map(itemText).join('\n'));
  const [minutes, setMinutes] = useState(String(section?.contactMinutes ?? 10));
  const [closed, setClosed] = useState(section?.closed ?? false);
  const usual = sectionDefaults[rank];
  const wearText = wear ?? usual.wear.map(itemText).join('\n');
  const leaveText = leave ?? usual.leave.map(itemText).join('\n');
  const goodMinutes = /^\d{1,3}$/.test(minutes) && Number(minutes) <= 120;
  const inside = section === null ? 0 : inCare(world).filter((animal) => animal.section === section.id).length;

  const intent = (): Intent => {
    if (name.trim() === '') return { missing: say('desk.sections.needs-name') };
    if (!goodMinutes) return { missing: say('desk.sections.minutes-wrong') };
    return describeSection(
      {
        section: id,
        name: name.trim(),
        rank,
        position: section?.position ?? world.shelter.sections.filter((one) => one.rank === rank).length,
        kennels: readKennels(kennels),
        wear: keyed(lines(wearText), everyKey),
        leave: keyed(lines(leaveText), everyKey),
        contactMinutes: Number(minutes),
        closed,
      },
      now(),
    );
  };
  return (
    <RecordSheet
      title={section === null ? say('desk.start.add-section') : say('desk.sections.change-one', { name: section.name })}
      intent={intent()}
      action={say('desk.sections.record')}
      onClose={onClose}
    >
      <Field label={say('desk.section.name')} value={name} onChange={setName} maxLength={80} />
      <ChooseOne
        label={say('desk.section.rank')}
        options={sectionRanks.map((one) => ({ id: one, label: say(`parts.rank.${one}`) }))}
        value={rank}
        onChange={setRank}
        flow
      />
      <Field
        label={say('desk.section.kennels')}
        hint={say('desk.section.kennels-hint')}
        value={kennels}
        onChange={setKennels}
        lines
      />
      <Field
        label={say('desk.section.wear')}
        hint={say('desk.section.one-a-line')}
        value={wearText}
        onChange={setWear}
        lines
      />
      <Field
        label={say('desk.section.leave')}
        hint={say('desk.section.one-a-line')}
        value={leaveText}
        onChange={setLeave}
        lines
      />
      <Field
        label={say('desk.section.contact')}
        hint={say('desk.section.contact-hint')}
        value={minutes}
        onChange={setMinutes}
        inputMode="numeric"
        narrow
        wrong={goodMinutes ? null : say('desk.sections.minutes-wrong')}
      />
      {section === null ? null : (
        <Tick
          label={say('desk.sections.close')}
          note={say('desk.sections.close-note')}
          value={closed}
          onChange={setClosed}
        />
      )}
      {closed && inside > 0 ? (
        <Notice tone="attention">{say('desk.sections.still-inside', { count: inside })}</Notice>
      ) : null}
    </RecordSheet>
  );
}

import { useState } from 'react';
import { choose } from '../../../core/protocol/document/choose.js';
import type { ProtocolDocument } from '../../../core/protocol/document/document.js';
import { type Outcome, ok } from '../../../core/said.js';
import { fileProtocol } from '../../../log/commands/shelter.js';
import { say } from '../../../words/say.js';
import { now } from '../../clock.js';
import { ChooseOne } from '../../parts/fields/choices.js';
import { Field } from '../../parts/fields/field.js';
import { type Intent, RecordSheet } from '../../parts/record-sheet.js';
import { EffectOfSigning } from './effect-of-signing.js';
import { nextVersion } from './protocol/edited.js';

interface ChoicesSheetProps {
  readonly protocol: ProtocolDocument;
  /** Versions that exist already. */
  readonly taken: readonly string[];
  readonly onClose: () => void;
}

/** Where published sources disagree: choose, see what it changes today, and lay the result down as a version to sign. */
export function ChoicesSheet({ protocol, taken, onClose }: ChoicesSheetProps) {
  const [chosen, setChosen] = useState<Readonly<Record<string, string>>>(() =>
    Object.fromEntries(protocol.choices.map((choice) => [choice.id, choice.chosen])),
  );
  const [version, setVersion] = useState(nextVersion(taken));
  const result = protocol.choices
    .filter((choice) => chosen[choice.id] !== choice.chosen)
    .reduce<Outcome<ProtocolDocument>>(
      (made, choice) => (made.ok ? choose(made.value, choice.id, chosen[choice.id] ?? choice.chosen) : made),
      ok(protocol),
    );
  const intent = (): Intent => {
    if (!result.ok) return result;
    if (result.value === protocol) return { missing: say('desk.choose.same') };
    if (version.trim() === '' || taken.includes(version.trim())) return { missing: say('desk.choose.version-taken') };
    return fileProtocol({ ...result.value, version: version.trim() }, now());
  };
  return (
    <RecordSheet
      title={say('desk.documents.choose')}
      intent={intent()}
      action={say('desk.choose.lay-down')}
      wide
      onClose={onClose}
    >
      <p className="soft">{say('desk.choose.lead')}</p>
      {protocol.choices.map((choice) => (
        <ChooseOne
          key={choice.id}
          label={choice.question}
          options={choice.options.map((option) => ({
            id: option.id as string,
            label: option.words,
            note: `${protocol.sources.find((source) => source.id === option.source)?.title ?? option.source} (${say(`desk.standing.${option.standing}`)})`,
          }))}
          value={chosen[choice.id] ?? choice.chosen}
          onChange={(option) => setChosen({ ...chosen, [choice.id]: option })}
        />
      ))}
      {result.ok && result.value !== protocol ? <EffectOfSigning protocol={result.value} /> : null}
      <Field label={say('desk.documents.version')} value={version} onChange={setVersion} maxLength={30} narrow />
    </RecordSheet>
  );
}

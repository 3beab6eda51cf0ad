import type { Source } from '../../../../core/dosing/formulary.js';
import { say } from '../../../../words/say.js';
import { Field } from '../../../parts/fields/field.js';

export type NewSource = Omit<Source, 'id'>;
export const emptySource: NewSource = { title: '', where: '', url: '' };

interface SourceFieldsProps {
  readonly source: NewSource;
  readonly onChange: (source: NewSource) => void;
}

/** What a reader needs to find a source again. */
export function SourceFields({ source, onChange }: SourceFieldsProps) {
  return (
    <div className="stack tight">
      <Field
        label={say('protocol-desk.source.title')}
        hint={say('protocol-desk.source.title-hint')}
        value={source.title}
        onChange={(title) => onChange({ ...source, title })}
        required
        maxLength={200}
      />
      <Field
        label={say('protocol-desk.source.where')}
        value={source.where}
        onChange={(where) => onChange({ ...source, where })}
        maxLength={200}
      />
      <Field
        label={say('protocol-desk.source.url')}
        value={source.url}
        onChange={(url) => onChange({ ...source, url })}
        maxLength={300}
      />
    </div>
  );
}

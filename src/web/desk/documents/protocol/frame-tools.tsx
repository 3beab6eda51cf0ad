import { useRef, useState } from 'react';
import type { ProtocolDocument, Target } from '../../../../core/protocol/document/document.js';
import { say } from '../../../../words/say.js';
import { Act } from '../../../parts/act.js';
import { ChooseOne } from '../../../parts/fields/choices.js';
import { Sheet } from '../../../parts/sheet.js';
import { sinceWords } from '../protocol-lines.js';
import { withHead } from './edited.js';
import type { Part } from './part-fields.js';
import type { Way } from './ways.js';

const ages = ['absoluteMinimum', 'minimum', 'earliestRecommended', 'latestRecommended', 'maximum'] as const;
const spans = ['absoluteMinimum', 'minimum', 'earliestRecommended', 'latestRecommended'] as const;

/** A limit that a dose does not have yet. */
export interface Missing {
  readonly way: Way;
  readonly what: string;
  readonly part: Part;
}

/** The limits that could be added to a dose: its ages, those of its intervals, its end, when it starts anew. */
export function missingLimits(target: Target, way: Way, nameOf: (id: string) => string): Missing[] {
  const bare = { span: {}, source: '', standing: 'common-practice', note: '' };
  const aged = { ...bare, of: 'youngest' };
  const ageless = ages
    .filter((limit) => target.age[limit] === undefined)
    .map((limit) => ({ way: [...way, 'age', limit], what: say(`desk.doc.age.${limit}`), part: aged }));
  const spanless = target.intervals.flatMap((interval, at) =>
    spans
      .filter((limit) => interval[limit] === undefined)
      .map((limit) => ({
        way: [...way, 'intervals', String(at), limit],
        what: say('protocol-desk.limit-after', {
          limit: say(`desk.doc.interval.${limit}`),
          from: sinceWords(interval, nameOf),
        }),
        part: bare,
      })),
  );
  const until =
    target.repeats === null || target.repeats.until !== null
      ? []
      : [{ way: [...way, 'repeats', 'until'], what: say(`desk.doc.repeats.${target.repeats.ends}`), part: aged }];
  const anew =
    target.restartAfter === null ? [{ way: [...way, 'restartAfter'], what: say('desk.doc.restart'), part: bare }] : [];
  return [...ageless, ...spanless, ...until, ...anew];
}

interface TargetToolsProps {
  readonly missing: readonly Missing[];
  readonly place: string;
  readonly onFrame: () => void;
  /** `back` takes the focus again once the limit is added or not. */
  readonly onAdd: (missing: Missing, back: Element | null) => void;
}

/** Beside a dose of the version being written: change what has no source of its own, or add a limit. */
export function TargetTools({ missing, place, onFrame, onAdd }: TargetToolsProps) {
  const [open, setOpen] = useState(false);
  const back = useRef<Element | null>(null);
  return (
    <div className="row no-print">
      <Act size="small" label={say('protocol-desk.frame-of', { what: place })} onAct={onFrame}>
        {say('protocol-desk.frame-change')}
      </Act>
      {missing.length === 0 ? null : (
        <Act
          size="small"
          label={say('protocol-desk.add-limit-to', { place })}
          onAct={() => {
            back.current = document.activeElement;
            setOpen(true);
          }}
        >
          {say('protocol-desk.add-limit')}
        </Act>
      )}
      {open ? (
        <Sheet title={say('protocol-desk.add-limit-to', { place })} open onClose={() => setOpen(false)}>
          <p>{say('protocol-desk.which-limit')}</p>
          <div className="stack tight">
            {missing.map((one) => (
              <Act
                key={one.way.join(' ')}
                onAct={() => {
                  setOpen(false);
                  onAdd(one, back.current);
                }}
              >
                {one.what}
              </Act>
            ))}
          </div>
          <Act onAct={() => setOpen(false)}>{say('parts.back')}</Act>
        </Sheet>
      ) : null}
    </div>
  );
}

interface UnknownAgeProps {
  readonly document: ProtocolDocument;
  readonly onChange: (document: ProtocolDocument) => void;
}

/** What waits when nobody knows the age. */
export const UnknownAge = ({ document, onChange }: UnknownAgeProps) => (
  <ChooseOne
    label={say('protocol-desk.frame.ageUnknown')}
    options={(['hold', 'ask'] as const).map((id) => ({ id, label: say(`desk.doc.age-unknown.${id}`) }))}
    value={document.ageUnknown}
    onChange={(ageUnknown) => {
      const edited = withHead(document, { ageUnknown });
      if (edited.ok) onChange(edited.document);
    }}
  />
);

import { useState } from 'react';
import type { FormularyDocument } from '../../../core/dosing/formulary.js';
import type { ProtocolDocument } from '../../../core/protocol/document/document.js';
import type { Filed } from '../../../log/views/documents/filed.js';
import { lostInWords } from '../../../log/views/documents/lost-documents.js';
import { say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { Pick } from '../../parts/fields/pick.js';
import { Page } from '../../parts/page.js';
import { Notice, State } from '../../parts/state.js';
import { Leaves } from '../../parts/tabs.js';
import { usePerson, useShelter } from '../../store/here.js';
import { ChoicesSheet } from './choices-sheet.js';
import { FileActs } from './formulary/file-acts.js';
import { SignFormulary } from './formulary/sign-sheet.js';
import { FormularyView } from './formulary-view.js';
import { VersionActs } from './protocol/version-acts.js';
import { ProtocolView } from './protocol-view.js';

/** The signed rules of the shelter, each value with its source; versions waiting for a signature; who signed what. */
export function Documents() {
  const shelter = useShelter();
  const lost = lostInWords(shelter);
  return (
    <Page
      title={say('desk.documents.title')}
      lead={say('desk.documents.lead')}
      acts={<Act onAct={() => window.print()}>{say('parts.print')}</Act>}
    >
      {lost === null ? null : <Notice tone="stop">{say(lost)}</Notice>}
      <Leaves
        label={say('desk.documents.title')}
        leaves={[
          {
            id: 'protocol',
            label: say('desk.document.protocol'),
            body: (
              <Versions
                filed={shelter.protocols}
                view={(document, inForce) => <ProtocolView protocol={document} inForce={inForce} />}
              />
            ),
          },
          {
            id: 'formulary',
            label: say('desk.document.formulary'),
            body: <Versions filed={shelter.formularies} view={(document) => <FormularyView formulary={document} />} />,
          },
        ]}
      />
    </Page>
  );
}

interface VersionsProps<D> {
  readonly filed: readonly Filed<D>[];
  readonly view: (document: D, inForce: boolean) => React.ReactNode;
}

const tones = { draft: 'attention', signed: 'done', retired: 'plain' } as const;

function Versions<D extends ProtocolDocument | FormularyDocument>({ filed, view }: VersionsProps<D>) {
  const person = usePerson();
  const [chosen, setChosen] = useState<string | null>(null);
  const [doing, setDoing] = useState<'sign' | 'choices' | null>(null);
  const keyOf = (one: Filed<D>): string => `${one.document.id}@${one.document.version}`;
  const inForce = filed.find((one) => one.state === 'signed');
  const shown = filed.find((one) => keyOf(one) === chosen) ?? inForce ?? filed.at(-1);
  if (shown === undefined) return <p>{say('desk.documents.none')}</p>;
  const { document, state, signature } = shown;
  const licensed = person?.role === 'medical' && person.licence !== '';
  return (
    <div className="stack loose">
      <div className="row end no-print">
        <Pick
          label={say('desk.documents.version')}
          options={filed.map((one) => ({
            id: keyOf(one),
            label: `${one.document.title} ${one.document.version}`,
            note: say(`desk.documents.state.${one.state}`),
          }))}
          value={keyOf(shown)}
          onChange={setChosen}
        />
        {state === 'signed' || 'choices' in document ? null : (
          <Act main disabled={!licensed} onAct={() => setDoing('sign')}>
            {say('desk.documents.sign')}
          </Act>
        )}
        {'choices' in document && person?.role === 'medical' ? (
          <Act onAct={() => setDoing('choices')}>{say('desk.documents.choose')}</Act>
        ) : null}
      </div>
      {'choices' in document ? (
        <VersionActs shown={{ ...shown, document }} taken={filed.map((one) => one.document.version)} />
      ) : (
        <FileActs shown={document} />
      )}
      {licensed ? null : <p className="soft small no-print">{say('desk.documents.needs-licence')}</p>}
      <div className="stack tight">
        <h2>{`${document.title}, ${say('desk.documents.version-of', { version: document.version })}`}</h2>
        <p>
          <State tone={tones[state]}>{say(`desk.documents.state.${state}`)}</State>
          {signature === null ? null : (
            <>
              {' '}
              {say('desk.documents.signed-by', {
                signer: signature.signer,
                licence: signature.licence,
                on: { date: signature.on },
                statement: signature.statement,
              })}
            </>
          )}
        </p>
      </div>
      <Notice tone="attention">{document.caution}</Notice>
      {view(document, state === 'signed')}
      {doing === 'sign' && 'products' in document ? (
        <SignFormulary document={document} onClose={() => setDoing(null)} />
      ) : null}
      {doing === 'choices' && 'choices' in document ? (
        <ChoicesSheet
          protocol={document}
          taken={filed.map((one) => one.document.version)}
          onClose={() => setDoing(null)}
        />
      ) : null}
    </div>
  );
}

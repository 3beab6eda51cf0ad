import { useMemo, useState } from 'react';
import { Link } from 'wouter';
import type { ProtocolDocument } from '../../../../core/protocol/document/document.js';
import { signDocument } from '../../../../log/commands/signing.js';
import { say } from '../../../../words/say.js';
import { now, useToday } from '../../../clock.js';
import { Act } from '../../../parts/act.js';
import { Tick } from '../../../parts/fields/choices.js';
import { Field } from '../../../parts/fields/field.js';
import { GoButton } from '../../../parts/links.js';
import { Page, Part } from '../../../parts/page.js';
import { type Intent, RecordFoot } from '../../../parts/record-sheet.js';
import { Notice } from '../../../parts/state.js';
import { usePerson, useShelter } from '../../../store/here.js';
import { EffectOfSigning } from '../effect-of-signing.js';
import { sideBySide } from './changes.js';
import { ChangesTable } from './changes-table.js';
import { comparePath } from './paths.js';

/** What signing a version would change, for the animals and in the document; then the signature. */
export function SignProtocol({ version }: { version: string }) {
  const shelter = useShelter();
  const found = shelter.protocols.find((one) => one.document.version === version);
  const title = say('desk.sign-doc.title', { document: say('desk.document.protocol'), version });
  if (found === undefined) return <Page title={title}>{say('protocol-desk.no-version', { version })}</Page>;
  if (found.state === 'signed') {
    return (
      <Page title={title}>
        <Notice tone="done" live="status">
          {say('protocol-desk.signed-now', { version })}
        </Notice>
        <div className="row">
          <GoButton to="/due" main>
            {say('desk.due.title')}
          </GoButton>
          <GoButton to="/documents">{say('desk.documents.title')}</GoButton>
        </div>
      </Page>
    );
  }
  return <SignOff title={title} document={found.document} />;
}

function SignOff({ title, document }: { title: string; document: ProtocolDocument }) {
  const { protocol: signed } = useShelter();
  const rows = useMemo(
    () => (signed === null ? [] : sideBySide(signed, document).filter((row) => row.change !== 'same')),
    [signed, document],
  );
  return (
    <Page title={title} beside={document.title} acts={<Act onAct={() => window.print()}>{say('parts.print')}</Act>}>
      <Notice tone="attention">{document.caution}</Notice>
      <Part title={say('protocol-desk.effect')}>
        <EffectOfSigning protocol={document} />
      </Part>
      <Part title={say('protocol-desk.changes')}>
        {signed === null ? (
          <p>{say('protocol-desk.nothing-signed')}</p>
        ) : (
          <>
            <ChangesTable rows={rows} before={signed} after={document} caption={say('protocol-desk.changes')} />
            <p className="no-print">
              <Link href={comparePath(document.version)}>{say('protocol-desk.compare')}</Link>
            </p>
          </>
        )}
      </Part>
      <Signature document={document} />
    </Page>
  );
}

function Signature({ document }: { document: ProtocolDocument }) {
  const shelter = useShelter();
  const person = usePerson();
  const today = useToday(shelter.zone);
  const [statement, setStatement] = useState(say('desk.sign-doc.statement'));
  const [read, setRead] = useState(false);
  if (person === null || person.role !== 'medical' || person.licence === '') {
    return <p>{say('desk.documents.needs-licence')}</p>;
  }
  const intent = (): Intent => {
    if (!read) return { missing: say('desk.sign-doc.needs-read') };
    const { id, version } = document;
    const what = { document: 'protocol', id, version, on: today, statement: statement.trim(), confirmed: [] } as const;
    return signDocument(shelter, person, { ...what, confirmed: [] }, now());
  };
  return (
    <div className="no-print">
      <Part title={say('protocol-desk.signature')}>
        <p>{say('desk.sign-doc.as', { name: person.name, licence: person.licence })}</p>
        <Field label={say('desk.sign-doc.words')} value={statement} onChange={setStatement} lines maxLength={1000} />
        <Tick label={say('desk.sign-doc.read')} value={read} onChange={setRead} />
        <RecordFoot intent={intent()} action={say('desk.documents.sign')} onSaved={() => window.scrollTo(0, 0)} />
      </Part>
    </div>
  );
}

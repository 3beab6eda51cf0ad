import { useMemo, useState } from 'react';
import type { ProtocolDocument } from '../../../../core/protocol/document/document.js';
import { say } from '../../../../words/say.js';
import { Act } from '../../../parts/act.js';
import { ChooseOne } from '../../../parts/fields/choices.js';
import { Page } from '../../../parts/page.js';
import { useShelter } from '../../../store/here.js';
import { sideBySide } from './changes.js';
import { ChangesTable } from './changes-table.js';

/** A version beside the signed one. */
export function Compare({ version }: { version: string }) {
  const shelter = useShelter();
  const found = shelter.protocols.find((one) => one.document.version === version);
  const signed = shelter.protocol;
  if (found === undefined || signed === null) {
    const why = found === undefined ? 'protocol-desk.no-version' : 'protocol-desk.nothing-signed';
    return <Page title={say('protocol-desk.compare')}>{say(why, { version })}</Page>;
  }
  return <Sides signed={signed} other={found.document} />;
}

function Sides({ signed, other }: { signed: ProtocolDocument; other: ProtocolDocument }) {
  const [show, setShow] = useState<'changes' | 'all'>('changes');
  const rows = useMemo(() => sideBySide(signed, other), [signed, other]);
  const changed = rows.filter((row) => row.change !== 'same');
  return (
    <Page
      wide
      title={say('protocol-desk.compare')}
      beside={say('protocol-desk.compare-beside', { version: other.version, signed: signed.version })}
      lead={say('protocol-desk.compare-count', { count: changed.length, all: rows.length })}
      acts={<Act onAct={() => window.print()}>{say('parts.print')}</Act>}
    >
      <div className="no-print">
        <ChooseOne
          label={say('desk.due.show')}
          options={[
            { id: 'changes', label: say('protocol-desk.only-changes') },
            { id: 'all', label: say('protocol-desk.every-value') },
          ]}
          value={show}
          onChange={setShow}
          flow
        />
      </div>
      <ChangesTable
        rows={show === 'changes' ? changed : rows}
        before={signed}
        after={other}
        caption={say('protocol-desk.compare')}
      />
    </Page>
  );
}

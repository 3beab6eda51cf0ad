import { useState } from 'react';
import { type LotUse, lotUse } from '../../../log/stock/lots.js';
import type { Lot } from '../../../log/views/shelter.js';
import { lotOf, preparedText } from '../../../told/lot-words.js';
import { say } from '../../../words/say.js';
import { useToday } from '../../clock.js';
import { Act } from '../../parts/act.js';
import { type Column, DataTable } from '../../parts/data-table.js';
import { Page, Part } from '../../parts/page.js';
import { State } from '../../parts/state.js';
import { useWorld } from '../../store/here.js';
import { CountSheet } from './count-sheet.js';
import { PrepareSyringesSheet } from './prepare-syringes-sheet.js';
import { ReceiveSheet } from './receive-sheet.js';
import { WithdrawSheet } from './withdraw-sheet.js';

type Doing = { readonly is: 'receive' | 'prepare' } | { readonly is: 'count' | 'withdraw'; readonly lot: Lot };

/** Lots on the shelf, boxes of tests with their conjugate, boxes of chips; what is left by the records. */
export function Stock() {
  const world = useWorld();
  const [doing, setDoing] = useState<Doing | null>(null);
  const lots = [...world.shelter.lots.values()].sort((a, b) =>
    (a.expires ?? '9999') < (b.expires ?? '9999') ? -1 : 1,
  );
  const here = lots.filter((lot) => lot.withdrawn === null);
  const all = [
    { key: 'product', rows: here.filter((lot) => lot.of.is === 'product') },
    { key: 'kit', rows: here.filter((lot) => lot.of.is === 'kit') },
    { key: 'chips', rows: here.filter((lot) => lot.of.is === 'chips') },
    { key: 'syringe', rows: here.filter((lot) => lot.of.is === 'syringe') },
    { key: 'supply', rows: here.filter((lot) => lot.of.is === 'supply') },
    { key: 'withdrawn', rows: lots.filter((lot) => lot.withdrawn !== null) },
  ] as const;
  const groups = all.filter((group) => group.rows.length > 0);
  const close = (): void => setDoing(null);
  return (
    <Page
      title={say('desk.stock.title')}
      lead={say('desk.stock.lead')}
      acts={
        <>
          <Act main onAct={() => setDoing({ is: 'receive' })}>
            {say('desk.stock.receive')}
          </Act>
          <Act onAct={() => setDoing({ is: 'prepare' })}>{say('desk.prepare-syringes.open')}</Act>
        </>
      }
    >
      {groups.length === 0 ? <p>{say('desk.stock.none')}</p> : null}
      {groups.map((group) => (
        <Part key={group.key} title={say(`desk.stock.group.${group.key}`)}>
          <LotTable lots={group.rows} caption={say(`desk.stock.group.${group.key}`)} onDo={setDoing} />
        </Part>
      ))}
      {doing?.is === 'receive' ? <ReceiveSheet onClose={close} /> : null}
      {doing?.is === 'prepare' ? <PrepareSyringesSheet onClose={close} /> : null}
      {doing?.is === 'count' ? <CountSheet lot={doing.lot} onClose={close} /> : null}
      {doing?.is === 'withdraw' ? <WithdrawSheet lot={doing.lot} onClose={close} /> : null}
    </Page>
  );
}

function LotTable({ lots, caption, onDo }: { lots: readonly Lot[]; caption: string; onDo: (doing: Doing) => void }) {
  const world = useWorld();
  const today = useToday(world.shelter.zone);
  const use = lotUse(world);
  const left = (lot: Lot): number => use.get(lot.id)?.left ?? lot.pieces;
  const columns: Column<Lot>[] = [
    { id: 'of', label: say('desk.stock.what'), names: true, cell: (lot) => lotOf(world.shelter, lot) },
    { id: 'lot', label: say('desk.stock.lot'), keepLine: true, cell: (lot) => <LotText lot={lot} /> },
    {
      id: 'expires',
      label: say('desk.stock.expires'),
      keepLine: true,
      cell: (lot) =>
        lot.expires === null ? (
          say('desk.no-expiry')
        ) : lot.expires < today ? (
          <State tone="stop">{say('desk.stock.expired', { on: lot.expires })}</State>
        ) : (
          <span className="mono small">{lot.expires}</span>
        ),
    },
    { id: 'left', label: say('desk.stock.left'), num: true, cell: (lot) => left(lot) },
    { id: 'used', label: say('desk.stock.used'), num: true, cell: (lot) => use.get(lot.id)?.used ?? 0 },
    { id: 'tests', label: say('desk.stock.tests'), cell: (lot) => <Failed use={use.get(lot.id)} /> },
    {
      id: 'do',
      label: say('desk.flags.do'),
      cell: (lot) =>
        lot.withdrawn === null ? (
          <span className="row no-print">
            <Act
              size="small"
              label={say('desk.stock.count-lot', { lot: lot.lotText })}
              onAct={() => onDo({ is: 'count', lot })}
            >
              {say('desk.stock.count')}
            </Act>
            <Act
              size="small"
              label={say('desk.stock.withdraw-lot', { lot: lot.lotText })}
              onAct={() => onDo({ is: 'withdraw', lot })}
            >
              {say('desk.stock.withdraw')}
            </Act>
          </span>
        ) : (
          say('desk.stock.withdrawn-on', {
            on: { date: lot.withdrawn.on },
            why: say(`desk.withdrawn.${lot.withdrawn.why}`),
          })
        ),
    },
  ];
  const kits = lots.some((lot) => lot.of.is === 'kit');
  return (
    <DataTable
      caption={caption}
      rows={lots}
      keyOf={(lot) => lot.id}
      columns={columns.filter((one) => kits || one.id !== 'tests')}
    />
  );
}

function LotText({ lot }: { lot: Lot }) {
  return (
    <>
      <span className="mono">{lot.lotText}</span>
      {lot.of.is === 'kit' ? (
        <div className="small soft">{say('desk.stock.conjugate-of', { lot: lot.of.conjugateLot })}</div>
      ) : null}
      {lot.prepared === null ? null : <div className="small soft">{preparedText(lot)}</div>}
      {lot.of.is === 'chips' ? (
        <div className="small soft">{say('desk.stock.codes', { count: lot.of.codes.length })}</div>
      ) : null}
    </>
  );
}

function Failed({ use }: { use: LotUse | undefined }) {
  if (use === undefined || use.testsRead === 0) return null;
  return <>{say('desk.stock.failed', { failed: use.testsInvalid, read: use.testsRead })}</>;
}

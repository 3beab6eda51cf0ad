import { useEffect, useState } from 'react';
import type { Unsent as Row } from '../../../device/db.js';
import type { LogRecord } from '../../../log/record.js';
import type { World } from '../../../log/views/world.js';
import { animalName } from '../../../told/names.js';
import { tell } from '../../../told/tell.js';
import { say } from '../../../words/say.js';
import { Act } from '../../parts/act.js';
import { DataTable } from '../../parts/data-table.js';
import { State } from '../../parts/state.js';
import { sync } from '../../store/exchange.js';
import { store, useStatusOf, useWorld } from '../../store/here.js';
import { UnsentPictures } from './pictures.js';

interface Shown {
  readonly row: Row;
  /** What this device wrote down. */
  readonly record: LogRecord;
  /** What the log holds under the same id, when that is something else. */
  readonly inLog: LogRecord | null;
}

const inWords = (world: World, record: LogRecord): string =>
  `${record.subject.startsWith('animal:') ? `${animalName(world, record.subject.slice(7))}: ` : ''}${say(tell(world, record))}`;

/** Records drawn at once. */
const most = 100;

/** Every record that the server does not have yet; those it turned away with its reason, to be sent again. */
export function Unsent() {
  const world = useWorld();
  const unsent = useStatusOf('unsent');
  const turnedAway = useStatusOf('turnedAway');
  const pictures = useStatusOf('pictures');
  const [rows, setRows] = useState<readonly Shown[]>([]);
  // The counts change whenever the outbox does.
  // biome-ignore lint/correctness/useExhaustiveDependencies: read again when the counts change
  useEffect(() => {
    void (async () => {
      const unseen = store.db.outbox.orderBy('deviceSeq').filter((row) => row.state !== 'sent');
      const waiting = await unseen.limit(most).toArray();
      const records = await store.db.records.bulkGet(waiting.map((row) => row.id));
      setRows(
        waiting.flatMap((row, index): Shown[] => {
          const inLog = records[index];
          if (row.own !== undefined) return [{ row, record: row.own, inLog: inLog ?? null }];
          return inLog === undefined ? [] : [{ row, record: inLog, inLog: null }];
        }),
      );
    })();
  }, [unsent, turnedAway]);
  const again = async (): Promise<void> => {
    await store.db.outbox.filter((row) => row.state === 'turned-away').modify({ state: 'waiting', why: null });
    await store.db.pictures.where('state').equals('turned-away').modify({ state: 'waiting', why: null });
    await store.recount();
    await sync.once();
  };
  return (
    <div className="stack">
      <DataTable
        caption={say('desk.device.unsent')}
        rows={rows}
        keyOf={({ row }) => row.id}
        empty={say('desk.device.all-sent')}
        columns={[
          {
            id: 'what',
            label: say('desk.round.recorded'),
            names: true,
            cell: ({ record, inLog }) => (
              <>
                {inWords(world, record)}
                {inLog === null ? null : (
                  <div className="small">{say('desk.device.log-says', { what: inWords(world, inLog) })}</div>
                )}
              </>
            ),
          },
          {
            id: 'at',
            label: say('desk.flags.since'),
            cell: ({ record }) => say('desk.device.at', { at: { instant: record.happenedAt } }),
          },
          {
            id: 'state',
            label: say('desk.due.state'),
            cell: ({ row }) =>
              row.state === 'waiting' ? (
                <State tone="attention">{say('desk.device.waiting')}</State>
              ) : (
                <>
                  <State tone="stop">{say('desk.device.turned-away')}</State>
                  <div className="small">{row.why === null ? '' : say(row.why)}</div>
                </>
              ),
          },
        ]}
      />
      <UnsentPictures />
      {turnedAway + pictures.notTaken === 0 ? null : (
        <div>
          <Act onAct={again}>{say('desk.device.send-again')}</Act>
        </div>
      )}
    </div>
  );
}

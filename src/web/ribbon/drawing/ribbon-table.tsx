import { say } from '../../../words/say.js';
import { DataTable } from '../../parts/data-table.js';
import { blockInWords, type RibbonPicture } from './ribbon-data.js';

interface Row {
  readonly key: string;
  readonly at_s: number;
  readonly lane: string;
  readonly section: string;
  readonly what: string;
}

/** What the picture shows, line by line in the order of time, for who cannot or would rather not read a picture. */
export function RibbonTable({ picture, label }: { picture: RibbonPicture; label: string }) {
  const rows = rowsOf(picture);
  return (
    <details className="ribbon-behind">
      <summary>{say('ribbon.as-table')}</summary>
      <DataTable
        caption={label}
        rows={rows}
        keyOf={(row) => row.key}
        columns={[
          {
            id: 'at',
            label: say('ribbon.table.at'),
            keepLine: true,
            cell: (row) => (
              <span className="mono">
                {say('ribbon.time', { at: { instant: new Date(picture.zero_ms + row.at_s * 1000).toISOString() } })}
              </span>
            ),
          },
          { id: 'what', label: say('ribbon.table.what'), names: true, cell: (row) => row.what },
          { id: 'section', label: say('ribbon.table.section'), cell: (row) => row.section },
          { id: 'lane', label: say('ribbon.table.team'), cell: (row) => row.lane },
        ]}
      />
    </details>
  );
}

function rowsOf(picture: RibbonPicture): Row[] {
  const instant = (at_s: number) => ({ instant: new Date(picture.zero_ms + at_s * 1000).toISOString() });
  const rows = picture.lanes.flatMap((lane, l) =>
    lane.sections.flatMap((section): Row[] => {
      const row = (at_s: number, what: string, id: string): Row => ({
        key: `${l} ${section.id} ${id} ${at_s}`,
        at_s,
        lane: lane.name,
        section: section.name,
        what,
      });
      return [
        row(section.start_s, say('ribbon.row.go', { section: section.name }), 'go'),
        ...section.gloves.map((span) => row(span.from_s, say('ribbon.gloves'), 'gloves')),
        ...section.blocks.map((block) => row(block.from_s, blockInWords(block), block.animal)),
        ...section.ways.map((way) => row(way.from_s, say('ribbon.row.way', { animal: way.name }), `way ${way.animal}`)),
        ...section.threads.flatMap((thread) => [
          row(thread.from_s, say('ribbon.row.started', { animal: thread.name }), `start ${thread.name}`),
          row(
            thread.readAt_s ?? thread.opens_s,
            say('ribbon.row.read', {
              animal: thread.name,
              state: thread.state,
              opens: instant(thread.opens_s),
              closes: instant(thread.closes_s),
            }),
            `read ${thread.name}`,
          ),
        ]),
        row(section.work_s, say('ribbon.row.leave', { section: section.name }), 'leave'),
      ];
    }),
  );
  return rows.sort((a, b) => a.at_s - b.at_s);
}

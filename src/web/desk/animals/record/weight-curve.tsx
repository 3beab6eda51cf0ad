import type { Animal } from '../../../../core/animal/animal.js';
import { ageDays } from '../../../../core/calendar.js';
import { gainBetween } from '../../../../core/growth/gain.js';
import { usualWeightTable, weeksWithout } from '../../../../core/growth/weight-tables.js';
import { writeWeight } from '../../../../core/quantity/write.js';
import { wallOf } from '../../../../core/wall-time.js';
import { alarmsAlong } from '../../../../log/views/sick.js';
import { say } from '../../../../words/say.js';
import { msOf } from '../../../clock.js';
import { DataTable } from '../../../parts/data-table.js';
import { Figure } from '../../../parts/figure.js';
import { State } from '../../../parts/state.js';
import { useShelter } from '../../../store/here.js';

const width = 640;
const height = 240;
/** Room at the left for the longest weight of an axis. */
const edge = { left: 104, right: 16, top: 14, bottom: 34 };
const day_ms = 86_400_000;

/** The weight over real hours, beside the band of a published table while the animal is young; the figures below it. */
export function WeightCurve({ animal }: { animal: Animal }) {
  const { zone, protocol } = useShelter();
  const told = alarmsAlong(animal.weighings, animal.born, protocol);
  const points = animal.weighings;
  if (points.length === 0) return <p>{say('desk.animal.never-weighed')}</p>;
  return (
    <div className="columns side">
      <div className="sheet">
        <Picture animal={animal} zone={zone} told={told} />
        {band(animal).length === 0 ? null : (
          <p className="soft small">
            {say('desk.weights.band', {
              table: usualWeightTable.name,
              count: weeksWithout(usualWeightTable).length,
              weeks: { list: weeksWithout(usualWeightTable).map(String) },
            })}
          </p>
        )}
      </div>
      <DataTable
        caption={say('desk.weights.table')}
        rows={[...points].reverse()}
        keyOf={(one) => one.record}
        fold={false}
        columns={[
          {
            id: 'at',
            label: say('desk.weights.at'),
            keepLine: true,
            cell: (one) => <span className="mono small">{wallText(one.at, zone)}</span>,
          },
          {
            id: 'weight',
            label: say('desk.animal.weight'),
            num: true,
            cell: (one) => (
              <>
                {one.doubtful ? <State tone="attention">{say('desk.animal.doubtful')}</State> : null}{' '}
                <Figure text={writeWeight(one.grams)} />
              </>
            ),
          },
          {
            id: 'told',
            label: say('desk.weights.told'),
            cell: (one) => {
              const alarm = told.get(one.record);
              return alarm === undefined ? null : <State tone={alarm.severity}>{say(alarm.why)}</State>;
            },
          },
          { id: 'gain', label: say('desk.weights.gain'), num: true, cell: (one) => gainText(animal, one.record) },
        ]}
      />
    </div>
  );
}

function wallText(at: string, zone: string): string {
  const { day, time } = wallOf(at, zone);
  return `${day} ${time.slice(0, 5)}`;
}

function gainText(animal: Animal, record: string): string {
  const at = animal.weighings.findIndex((one) => one.record === record);
  const [before, here] = [animal.weighings[at - 1], animal.weighings[at]];
  if (before === undefined || here === undefined) return '';
  const gain = gainBetween(before, here);
  if (gain === null) return '';
  return say('desk.weights.gain-of', {
    sign: gain.grams < 0 ? '−' : '+',
    grams: { grams: Math.abs(gain.grams) },
    hours: Math.round(gain.hours),
  });
}

/** A row of the table for the week that begins at its age; where the table prints no row there is none. */
interface Band {
  readonly at: number;
  readonly until: number;
  readonly from: number;
  readonly to: number;
}

/** The band of the table at its ages, for an animal whose birth is known well enough to draw it (within a week). */
function band(animal: Animal): Band[] {
  const { born, weighings } = animal;
  const last = weighings.at(-1);
  if (born.basis === 'unknown' || ageDays(born.earliest, born.latest) > 7 || last === undefined) return [];
  const birth = msOf(`${born.latest}T12:00:00Z`);
  if ((msOf(last.at) - birth) / day_ms > 100) return [];
  return usualWeightTable.rows.map((row) => ({
    at: birth + row.ageDays * day_ms,
    until: birth + (row.ageDays + 7) * day_ms,
    from: row.from_g,
    to: row.to_g,
  }));
}

type Told = ReturnType<typeof alarmsAlong>;

function Picture({ animal, zone, told }: { animal: Animal; zone: string; told: Told }) {
  const points = animal.weighings.map((one) => ({
    at: msOf(one.at),
    grams: one.grams,
    doubtful: one.doubtful,
    told: told.get(one.record)?.severity ?? null,
  }));
  const [first, last] = [points[0]?.at ?? 0, points.at(-1)?.at ?? 1];
  const begin = first - (last === first ? day_ms : (last - first) * 0.04);
  const end = last + (last === first ? day_ms : (last - first) * 0.04);
  const around = band(animal).filter((one) => one.at >= begin - 8 * day_ms && one.at <= end + 8 * day_ms);
  const most = Math.max(...points.map((one) => one.grams), ...around.map((one) => one.to)) * 1.06;
  const least = Math.min(...points.map((one) => one.grams), ...around.map((one) => one.from)) * 0.94;
  const x = (at: number): number => edge.left + ((at - begin) / (end - begin)) * (width - edge.left - edge.right);
  const y = (grams: number): number =>
    height - edge.bottom - ((grams - least) / (most - least)) * (height - edge.top - edge.bottom);
  const steps = [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000];
  const step = steps.find((one) => (most - least) / one <= 5) ?? 5000;
  const lines: number[] = [];
  for (let grams = Math.ceil(least / step) * step; grams <= most; grams += step) lines.push(grams);
  const days = [begin + (end - begin) * 0.05, (begin + end) / 2, end - (end - begin) * 0.05];
  const sure = points.filter((one) => !one.doubtful);
  return (
    <svg
      viewBox={`0 0 ${width} ${height}`}
      role="img"
      aria-label={say('desk.weights.picture', { count: points.length })}
      style={{ width: '100%' }}
    >
      <clipPath id="curve">
        <rect x={edge.left} y={0} width={width - edge.left - edge.right} height={height} />
      </clipPath>
      {lines.map((grams) => (
        <g key={grams}>
          <path d={`M${edge.left} ${y(grams)}H${width - edge.right}`} stroke="var(--line)" />
          <text
            x={edge.left - 6}
            y={y(grams) + 5}
            textAnchor="end"
            fontSize="14"
            fill="var(--ink)"
            fontFamily="var(--figure)"
          >
            {writeWeight(grams)}
          </text>
        </g>
      ))}
      {days.map((at) => (
        <text
          key={at}
          x={x(at)}
          y={height - 10}
          textAnchor="middle"
          fontSize="14"
          fill="var(--ink-soft)"
          fontFamily="var(--figure)"
        >
          {wallOf(new Date(at).toISOString(), zone).day}
        </text>
      ))}
      <g clipPath="url(#curve)">
        {around.map((one) => (
          <rect
            key={one.at}
            x={x(one.at)}
            y={y(one.to)}
            width={x(one.until) - x(one.at)}
            height={y(one.from) - y(one.to)}
            fill="var(--wash-cobalt)"
          />
        ))}
        <polyline
          points={sure.map((one) => `${x(one.at)},${y(one.grams)}`).join(' ')}
          fill="none"
          stroke="var(--ink)"
          strokeWidth="2"
        />
      </g>
      <path
        d={`M${edge.left} ${edge.top}V${height - edge.bottom}H${width - edge.right}`}
        fill="none"
        stroke="var(--rule)"
        strokeWidth="1.5"
      />
      {points.map((one) =>
        one.told === null ? null : (
          <text
            key={`told ${one.at}`}
            x={x(one.at)}
            y={y(one.grams) - 9}
            textAnchor="middle"
            fontSize="14"
            fill="var(--ink)"
          >
            {one.told === 'stop' ? '■' : '△'}
          </text>
        ),
      )}
      {points.map((one) => (
        <circle
          key={one.at}
          cx={x(one.at)}
          cy={y(one.grams)}
          r="4.5"
          fill={one.doubtful ? 'var(--sheet)' : 'var(--ink)'}
          stroke="var(--ink)"
          strokeWidth="1.5"
        />
      ))}
    </svg>
  );
}

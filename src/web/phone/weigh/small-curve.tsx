import type { Weighing } from '../../../core/animal/animal.js';
import { writeWeight } from '../../../core/quantity/write.js';
import { say } from '../../../words/say.js';
import { msOf } from '../../clock.js';

interface SmallCurveProps {
  readonly weighings: readonly Weighing[];
  /** The weight on the scale now, whole grams; null while there is none. */
  readonly now_g: number | null;
  readonly now: string;
}

const width = 340;
const height = 92;
const day_ms = 86_400_000;
/** Days that are looked back: enough to see a trend, few enough to see today. */
const back_days = 21;

/** The last three weeks and the weight on the scale now, over real hours. */
export function SmallCurve({ weighings, now_g, now }: SmallCurveProps) {
  const end = msOf(now);
  const points = weighings
    .filter((one) => end - msOf(one.at) < back_days * day_ms)
    .map((one) => ({ ms: msOf(one.at), grams: one.grams, doubtful: one.doubtful }));
  if (now_g !== null) points.push({ ms: end, grams: now_g, doubtful: false });
  const [first, last] = [points[0], points.at(-1)];
  if (first === undefined || last === undefined) return <p className="soft small">{say('drawup.weigh.no-curve')}</p>;
  const start = Math.min(first.ms, end - day_ms);
  const least = Math.min(...points.map((one) => one.grams));
  const most = Math.max(...points.map((one) => one.grams));
  const room = Math.max(1, most - least);
  const x = (ms: number): number => 8 + ((width - 70) * (ms - start)) / Math.max(1, end - start);
  const y = (grams: number): number => height - 14 - ((height - 30) * (grams - least)) / room;
  const line = points.filter((one) => !one.doubtful);
  return (
    <svg
      viewBox={`0 0 ${width} ${height}`}
      className="small-curve"
      role="img"
      aria-label={say('drawup.weigh.curve', { least: { grams: least }, most: { grams: most }, count: points.length })}
    >
      <path d={`M4 ${height - 8}H${width - 4}`} stroke="var(--line)" />
      <path
        d={line.map((one, index) => `${index === 0 ? 'M' : 'L'}${x(one.ms)} ${y(one.grams)}`).join('')}
        fill="none"
        stroke="var(--ink)"
        strokeWidth="2"
      />
      {points.map((one) => (
        <circle
          key={`${one.ms} ${one.grams}`}
          cx={x(one.ms)}
          cy={y(one.grams)}
          r={one === last && now_g !== null ? 5 : 3}
          fill={one.doubtful ? 'var(--sheet)' : 'var(--ink)'}
          stroke={one.doubtful ? 'var(--ochre)' : 'var(--ink)'}
        />
      ))}
      <text x={x(last.ms) + 9} y={y(last.grams) + 5} className="barrel-figure">
        {writeWeight(last.grams)}
      </text>
    </svg>
  );
}

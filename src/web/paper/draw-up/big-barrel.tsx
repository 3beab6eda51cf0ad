import type { Syringe } from '../../../core/dosing/formulary.js';
import { say } from '../../../words/say.js';

interface BigBarrelProps {
  readonly syringe: Pick<Syringe, 'capacity_ul' | 'mark_ul' | 'scale'>;
  readonly volume_ul: number;
  /** The mark as the barrel shows it. */
  readonly mark: string;
}

/** Microlitres in what the scale counts. */
const per: Readonly<Record<Syringe['scale'], number>> = { mL: 1000, 'U-100': 10, 'U-40': 25 };
const left = 34;
const width = 420;

const figure = (ul: number, scale: Syringe['scale']): string => String(ul / per[scale]);

/** Every how many marks a figure stands, so that figures do not run into each other. */
const figureEvery = (marks: number, most: number): number =>
  [1, 2, 4, 5, 10, 20, 25, 50, 100].find((every) => marks / every <= most) ?? marks;

/**
 * The whole barrel to scale with the plunger at the mark, and under it the marks around the plunger through a glass, so
 * that the right line can be counted. The needle is on the left; the black edge nearest to it is the one to read.
 */
export function BigBarrel({ syringe, volume_ul, mark }: BigBarrelProps) {
  const { capacity_ul, mark_ul, scale } = syringe;
  const marks = Math.floor(capacity_ul / mark_ul);
  const every = figureEvery(marks, 6);
  const x = (ul: number): number => left + (width * ul) / capacity_ul;
  const at = x(volume_ul);
  const lines = Array.from({ length: marks + 1 }, (_, index) => index);
  return (
    <svg
      viewBox="0 0 500 168"
      className="big-barrel"
      role="img"
      aria-label={say('parts.barrel', { mark, scale, whole: figure(capacity_ul, scale) })}
    >
      <path d={`M4 44H${left - 10}M${left - 10} 36h10v16h-10z`} fill="none" stroke="var(--rule)" strokeWidth="2" />
      <rect x={left} y="24" width={Math.max(0, at - left)} height="40" fill="var(--wash-cobalt)" />
      <rect x={left} y="24" width={width} height="40" fill="none" stroke="var(--rule)" strokeWidth="2" />
      {lines.map((index) => (
        <path
          key={index}
          d={`M${x(index * mark_ul)} 24v${index % every === 0 ? 16 : 8}`}
          stroke="var(--ink)"
          strokeWidth={marks > 60 ? 0.7 : 1}
        />
      ))}
      {lines
        .filter((index) => index % every === 0 && index > 0)
        .map((index) => (
          <text key={index} x={x(index * mark_ul)} y="18" className="barrel-figure" textAnchor="middle">
            {figure(index * mark_ul, scale)}
          </text>
        ))}
      <rect x={at} y="25" width="7" height="38" fill="var(--ink)" />
      <path d={`M${at + 7} 44H492M492 30v28`} stroke="var(--ink)" strokeWidth="4" fill="none" />
      <path d={`M${at} 70l-7 12h14z`} fill="var(--madder)" />
      <Glass syringe={syringe} volume_ul={volume_ul} />
    </svg>
  );
}

/** Eleven marks around the plunger, six times apart, each with its figure where there is room. */
function Glass({ syringe: { capacity_ul, mark_ul, scale }, volume_ul }: Omit<BigBarrelProps, 'mark'>) {
  const middle = Math.round(volume_ul / mark_ul);
  const marks = Math.floor(capacity_ul / mark_ul);
  const first = Math.max(0, Math.min(middle - 5, marks - 10));
  const shown = Array.from({ length: Math.min(11, marks + 1) }, (_, index) => first + index);
  const step = 440 / Math.max(1, shown.length - 1);
  const x = (index: number): number => 26 + (index - first) * step;
  const at = x(middle);
  return (
    <g>
      <rect x="16" y="88" width="468" height="52" fill="none" stroke="var(--line)" strokeWidth="1.5" />
      <rect x="17" y="89" width={Math.max(0, at - 17)} height="50" fill="var(--wash-cobalt)" />
      <rect x={at} y="89" width={Math.max(0, 483 - at)} height="50" fill="var(--ink)" opacity="0.1" />
      {shown.map((index) => (
        <path
          key={index}
          d={`M${x(index)} 88v${index === middle ? 52 : 20}`}
          stroke={index === middle ? 'var(--madder)' : 'var(--ink)'}
          strokeWidth={index === middle ? 3 : 1.5}
        />
      ))}
      {shown.map((index) => (
        <text
          key={index}
          x={x(index)}
          y="158"
          className={index === middle ? 'barrel-figure strong' : 'barrel-figure'}
          textAnchor="middle"
        >
          {Math.abs(index - middle) % 2 === 0 || shown.length < 8 ? figure(index * mark_ul, scale) : ''}
        </text>
      ))}
    </g>
  );
}

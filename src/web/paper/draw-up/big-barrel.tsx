import type { Syringe } from '../../../core/dosing/formulary.js';
import type { Barrel } from '../../../papers/draw-up/barrel.js';
import { say } from '../../../words/say.js';

interface BigBarrelProps {
  readonly barrel: Barrel;
  readonly syringe: Pick<Syringe, 'capacity_ul' | 'scale'>;
  readonly volume_ul: number;
  /** The mark as the barrel shows it. */
  readonly mark: string;
}

const left = 34;
const width = 420;

/**
 * The whole barrel to scale with the plunger at the mark, and under it the marks around the plunger through a glass, so
 * that the right line can be counted. The needle is on the left; the black edge nearest to it is the one to read.
 */
export function BigBarrel({ barrel, syringe, volume_ul, mark }: BigBarrelProps) {
  const { marks, whole } = barrel;
  const x = (ul: number): number => left + (width * ul) / syringe.capacity_ul;
  const at = x(volume_ul);
  return (
    <svg
      viewBox="0 0 500 168"
      className="big-barrel"
      role="img"
      aria-label={say('parts.barrel', { mark, scale: syringe.scale, whole })}
    >
      <path d={`M4 44H${left - 10}M${left - 10} 36h10v16h-10z`} fill="none" stroke="var(--rule)" strokeWidth="2" />
      <rect x={left} y="24" width={Math.max(0, at - left)} height="40" fill="var(--wash-cobalt)" />
      <rect x={left} y="24" width={width} height="40" fill="none" stroke="var(--rule)" strokeWidth="2" />
      {marks.map(({ at_ul, long }) => (
        <path
          key={at_ul}
          d={`M${x(at_ul)} 24v${long ? 16 : 8}`}
          stroke="var(--ink)"
          strokeWidth={marks.length > 61 ? 0.7 : 1}
        />
      ))}
      {marks
        .filter(({ figure }) => figure !== '')
        .map(({ at_ul, figure }) => (
          <text key={at_ul} x={x(at_ul)} y="18" className="barrel-figure" textAnchor="middle">
            {figure}
          </text>
        ))}
      <rect x={at} y="25" width="7" height="38" fill="var(--ink)" />
      <path d={`M${at + 7} 44H492M492 30v28`} stroke="var(--ink)" strokeWidth="4" fill="none" />
      <path d={`M${at} 70l-7 12h14z`} fill="var(--madder)" />
      <Glass barrel={barrel} />
    </svg>
  );
}

/** The marks around the plunger, six times apart. */
function Glass({ barrel: { glass, here } }: Pick<BigBarrelProps, 'barrel'>) {
  const step = 440 / Math.max(1, glass.length - 1);
  const x = (index: number): number => 26 + index * step;
  const at = x(here);
  return (
    <g>
      <rect x="16" y="88" width="468" height="52" fill="none" stroke="var(--line)" strokeWidth="1.5" />
      <rect x="17" y="89" width={Math.max(0, at - 17)} height="50" fill="var(--wash-cobalt)" />
      <rect x={at} y="89" width={Math.max(0, 483 - at)} height="50" fill="var(--ink)" opacity="0.1" />
      {glass.map(({ at_ul }, index) => (
        <path
          key={at_ul}
          d={`M${x(index)} 88v${index === here ? 52 : 20}`}
          stroke={index === here ? 'var(--madder)' : 'var(--ink)'}
          strokeWidth={index === here ? 3 : 1.5}
        />
      ))}
      {glass.map(({ at_ul, figure }, index) => (
        <text
          key={at_ul}
          x={x(index)}
          y="158"
          className={index === here ? 'barrel-figure strong' : 'barrel-figure'}
          textAnchor="middle"
        >
          {figure}
        </text>
      ))}
    </g>
  );
}

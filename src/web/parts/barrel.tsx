import { say } from '../../words/say.js';

interface BarrelProps {
  readonly capacity_ul: number;
  readonly mark_ul: number;
  readonly scale: 'mL' | 'U-100' | 'U-40';
  readonly volume_ul: number;
}

const left = 6;
const width = 300;
/** Microlitres in what the scale counts: 1 mL, or 1 unit of U-100 (10) or U-40 (25) insulin. */
const per: Readonly<Record<BarrelProps['scale'], number>> = { mL: 1000, 'U-100': 10, 'U-40': 25 };

/** A syringe barrel drawn to scale, with the plunger at the mark to draw to. */
export function Barrel({ capacity_ul, mark_ul, scale, volume_ul }: BarrelProps) {
  const x = (ul: number): number => left + (width * Math.min(ul, capacity_ul)) / capacity_ul;
  const marks = Math.floor(capacity_ul / mark_ul);
  const step = [1, 2, 5, 10, 20, 25, 50, 100].find((every) => marks / every <= 6) ?? marks;
  const drawn = Array.from({ length: marks + 1 }, (_, index) => index * mark_ul);
  const figure = (ul: number): string => String(ul / per[scale]);
  const at = x(volume_ul);
  return (
    <svg
      className="barrel"
      viewBox="0 0 334 62"
      style={{ width: '100%', maxWidth: 440, display: 'block' }}
      role="img"
      aria-label={say('parts.barrel', { mark: figure(volume_ul), scale, whole: figure(capacity_ul) })}
    >
      <rect x={left} y="15" width={Math.max(0, at - left)} height="22" fill="var(--wash-cobalt)" />
      <rect x={left} y="14" width={width} height="24" fill="none" stroke="var(--rule)" strokeWidth="1.5" />
      {drawn.map((ul, index) => (
        <path key={ul} d={`M${x(ul)} 14v${index % step === 0 ? 9 : 5}`} stroke="var(--ink)" strokeWidth="1" />
      ))}
      <rect x={at} y="11" width="5" height="30" fill="var(--ink)" />
      <path d={`M${at + 5} 26H334`} stroke="var(--ink)" strokeWidth="4" />
      {drawn
        .filter((ul, index) => index % step === 0 && ul > 0)
        .map((ul) => (
          <text
            key={ul}
            x={x(ul)}
            y="56"
            fontSize="12.5"
            textAnchor="middle"
            fill="var(--ink)"
            fontFamily="var(--figure)"
          >
            {figure(ul)}
          </text>
        ))}
    </svg>
  );
}

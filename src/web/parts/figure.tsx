interface FigureProps {
  /** A number and its unit with a no-break space between, as src/core/quantity writes them: `0.075 mL`. */
  readonly text: string;
  readonly big?: boolean;
}

/** A number in the figure face with its unit beside it, never on another line. */
export function Figure({ text, big = false }: FigureProps) {
  const cut = text.search(/[\u00a0 ]/);
  const number = cut < 0 ? text : text.slice(0, cut);
  const unit = cut < 0 ? '' : text.slice(cut + 1).replaceAll(' ', '\u00a0');
  return (
    <span className={big ? 'figure big' : 'figure'}>
      {number}
      {unit === '' ? null : <span className="unit">{`\u00a0${unit}`}</span>}
    </span>
  );
}

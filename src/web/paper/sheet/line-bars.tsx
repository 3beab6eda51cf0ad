import { code128, drawingSVG } from 'bwip-js/browser';
import { useMemo } from 'react';

/** A code as bars (Code 128) with its signs below; every hand scanner reads it, and a person can type it. */
export function LineBars({ code }: { code: string }) {
  const picture = useMemo(() => {
    const svg = code128({ bcid: 'code128', text: code, height: 7, paddingwidth: 4 }, drawingSVG());
    return `data:image/svg+xml;utf8,${encodeURIComponent(svg)}`;
  }, [code]);
  return (
    <span className="line-code">
      <img src={picture} alt="" />
      <span className="mono">{code}</span>
    </span>
  );
}

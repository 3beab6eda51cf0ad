import { drawingSVG, qrcode } from 'bwip-js/browser';
import { useMemo } from 'react';

/** A QR code as crisp squares (ISO/IEC 18004); what stands in it stands beside it in letters, too. */
export function Qr({ text, label }: { text: string; label: string }) {
  const picture = useMemo(() => {
    const svg = qrcode(
      { bcid: 'qrcode', text, paddingwidth: 8, paddingheight: 8, backgroundcolor: 'FFFFFF' },
      drawingSVG(),
    );
    return `data:image/svg+xml;utf8,${encodeURIComponent(svg)}`;
  }, [text]);
  return <img src={picture} alt={label} width={220} height={220} />;
}

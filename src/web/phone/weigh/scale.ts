import { useState } from 'react';
import { type WeightUnit, weightUnits } from '../../../core/quantity/units.js';

/** The scale on this device: what it shows, and what stands on it before the animal does. */
export interface Scale {
  readonly unit: WeightUnit;
  readonly tare_g: number;
}

const key = 'roundhand.scale';

function kept(): WeightUnit | null {
  try {
    const text = localStorage.getItem(key);
    return weightUnits.find((unit) => unit === text) ?? null;
  } catch {
    return null;
  }
}

/** The unit is chosen once for the scale and stays; the tare is for this sitting only. */
export function useScale(usual: WeightUnit): readonly [Scale, (scale: Partial<Scale>) => void] {
  const [scale, setScale] = useState<Scale>(() => ({ unit: kept() ?? usual, tare_g: 0 }));
  const change = (next: Partial<Scale>): void => {
    try {
      if (next.unit !== undefined) localStorage.setItem(key, next.unit);
    } catch {
      // Holds until the page is closed.
    }
    setScale((before) => ({ ...before, ...next }));
  };
  return [scale, change];
}

import type { LabelSize } from '../../../papers/draw-up/label.js';

const base = (from: string): string => `/drawup/${encodeURIComponent(from)}`;

export const sheetPath = (from: string): string => base(from);
export const cardPath = (from: string, key: string): string => `${base(from)}/card/${encodeURIComponent(key)}`;
export const labelsPath = (from: string, size: LabelSize, key = ''): string =>
  `${base(from)}/labels/${size}${key === '' ? '' : `/${encodeURIComponent(key)}`}`;

/** What to put on before a section, and what to do on leaving it. */
export const wards = {
  'wear.gloves': 'gloves',
  'wear.boots': 'boots kept for this section, or shoe covers',
  'wear.gown': 'gown',
  'wear.sleeves': 'sleeve protectors',
  'wear.device-bag': 'phone or tablet in a fresh clear bag',
  'leave.gown': 'Gown off, inside out, into the bin of this section',
  'leave.gloves': 'Gloves off, into the bin',
  'leave.boots': 'Boots off, left here',
  'leave.hands': 'Hands washed with soap for 20 seconds',
  'leave.cart': 'Table, scale and cart wiped and left wet for the full time',
  'leave.device': 'Phone wiped with a damp cloth, or its bag thrown away; never sprayed',
} as const satisfies Record<string, string>;

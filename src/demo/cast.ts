import type { WardKey } from './wards.js';

/** One invented animal, told in days before the day the demo is looked at. */
export interface CastAnimal {
  readonly key: string;
  readonly name: string;
  readonly litter: string | null;
  readonly sex: 'female' | 'male' | 'unknown';
  readonly neutered: 'yes' | 'no' | 'unknown';
  /** Age on the last day of the demo. */
  readonly ageDays: number;
  /** How far the estimated birth day may be off, to either side; 0 when it is known. */
  readonly unsureDays: number;
  /** Days ago that it came; the first day of the demo for those that were there before. */
  readonly cameDaysAgo: number;
  readonly home: WardKey;
  readonly kennel: string;
  readonly collar: string;
  readonly coat: string;
  readonly mark: string;
  readonly size: number;
  readonly adult_g: number;
  /** True when it came with a chip in it. */
  readonly chipped: boolean;
  readonly notes: string;
}

interface Litter {
  readonly key: string;
  readonly name: string;
  readonly coat: string;
  readonly ageDays: number;
  readonly unsureDays: number;
  readonly cameDaysAgo: number;
  readonly home: WardKey;
  readonly kennel: string;
  readonly notes: string;
  /** Name, sex, collar, mark, size. */
  readonly kittens: readonly (readonly [string, 'f' | 'm' | '?', string, string, number])[];
}

const plain = 'none to be seen';

/** Litters whose kittens look alike: the collar tells them apart, a mark confirms it where there is one. */
export const litters: readonly Litter[] = [
  {
    key: 'herb',
    name: 'Herb litter',
    coat: 'black, short',
    ageDays: 63,
    unsureDays: 3,
    cameDaysAgo: 32,
    home: 'kittens-a',
    kennel: 'A1',
    notes: 'All five are black. Basil and Dill can be told apart by the collar only.',
    kittens: [
      ['Basil', 'm', 'teal', plain, 1.04],
      ['Chervil', 'f', 'coral', 'a few white hairs on the chest', 0.97],
      ['Dill', 'm', 'yellow', plain, 1.03],
      ['Fennel', 'f', 'violet', 'kinked tip of the tail', 0.95],
      ['Lovage', 'f', 'white', 'notch in the left ear', 0.99],
    ],
  },
  {
    key: 'meadow',
    name: 'Meadow litter',
    coat: 'brown tabby, short',
    ageDays: 77,
    unsureDays: 2,
    cameDaysAgo: 40,
    home: 'kittens-a',
    kennel: 'A2',
    notes: '',
    kittens: [
      ['Burdock', 'm', 'red', plain, 1.05],
      ['Sorrel', 'f', 'teal', 'white toes on the right hind foot', 0.96],
      ['Yarrow', 'f', 'orange', plain, 0.94],
      ['Campion', 'm', 'blue', 'white tip of the tail', 1.01],
    ],
  },
  {
    key: 'berry',
    name: 'Berry litter',
    coat: 'black and white, short',
    ageDays: 98,
    unsureDays: 0,
    cameDaysAgo: 42,
    home: 'kittens-a',
    kennel: 'A3',
    notes: '',
    kittens: [
      ['Bramble', 'm', 'green', 'black chin', 1.02],
      ['Damson', 'f', 'violet', 'white left foreleg to the elbow', 0.95],
      ['Sloe', 'f', 'yellow', 'black spot on the nose', 0.93],
      ['Bilberry', 'm', 'red', 'broad white collar of fur', 1.06],
    ],
  },
  {
    key: 'tree',
    name: 'Tree litter',
    coat: 'grey tabby, short',
    ageDays: 52,
    unsureDays: 3,
    cameDaysAgo: 20,
    home: 'kittens-a',
    kennel: 'A4',
    notes: '',
    kittens: [
      ['Alder', 'm', 'teal', 'ring on the tail broken', 1.02],
      ['Hazel', 'f', 'coral', plain, 0.98],
      ['Rowan', 'm', 'yellow', plain, 1.0],
      ['Aspen', 'f', 'violet', 'pale belly', 0.95],
    ],
  },
  {
    key: 'finch',
    name: 'Finch litter',
    coat: 'black, short',
    ageDays: 36,
    unsureDays: 1,
    cameDaysAgo: 24,
    home: 'kittens-b',
    kennel: 'B1',
    notes: 'Four black kittens with their mother, Wren.',
    kittens: [
      ['Siskin', 'f', 'teal', plain, 0.98],
      ['Serin', 'm', 'orange', plain, 1.03],
      ['Twite', 'm', 'white', 'grey undercoat at the neck', 1.0],
      ['Brambling', '?', 'pink', plain, 0.94],
    ],
  },
  {
    key: 'wader',
    name: 'Wader litter',
    coat: 'brown tabby, short',
    ageDays: 26,
    unsureDays: 1,
    cameDaysAgo: 12,
    home: 'kittens-b',
    kennel: 'B2',
    notes: 'Fed by hand and weighed every morning.',
    kittens: [
      ['Knot', 'm', 'teal', plain, 1.03],
      ['Ruff', 'm', 'coral', 'dark stripe over the nose', 1.0],
      ['Dunlin', 'f', 'yellow', plain, 0.96],
      ['Sanderling', '?', 'violet', plain, 0.9],
    ],
  },
  {
    key: 'fern',
    name: 'Fern litter',
    coat: 'ginger tabby, half-long',
    ageDays: 45,
    unsureDays: 2,
    cameDaysAgo: 15,
    home: 'kittens-b',
    kennel: 'B3',
    notes: '',
    kittens: [
      ['Bracken', 'm', 'blue', plain, 1.04],
      ['Polypody', 'm', 'green', 'white bib', 1.0],
      ['Spleenwort', 'f', 'red', plain, 0.95],
    ],
  },
  {
    key: 'sedge',
    name: 'Roadside litter',
    coat: 'tortoiseshell, short',
    ageDays: 84,
    unsureDays: 3,
    cameDaysAgo: 38,
    home: 'foster',
    kennel: 'F1',
    notes: 'In a foster home; comes in for treatments.',
    kittens: [
      ['Teasel', 'f', 'teal', 'ginger blaze', 0.97],
      ['Thistle', 'f', 'yellow', 'black left forefoot', 1.0],
      ['Tansy', 'f', 'coral', 'ginger tip of the tail', 0.95],
    ],
  },
  {
    key: 'moss',
    name: 'Moss litter',
    coat: 'grey, short',
    ageDays: 70,
    unsureDays: 3,
    cameDaysAgo: 6,
    home: 'quarantine',
    kennel: 'Q1',
    notes: 'Came from a house where a cat was ill with panleukopenia.',
    kittens: [
      ['Haircap', 'm', 'red', plain, 0.98],
      ['Cushion', 'f', 'blue', plain, 0.94],
      ['Feather', 'f', 'green', 'white hairs between the eyes', 0.96],
    ],
  },
];

type AdultRow = readonly [
  name: string,
  sex: 'f' | 'm',
  neutered: 'yes' | 'no' | 'unknown',
  ageDays: number,
  cameDaysAgo: number,
  home: WardKey,
  kennel: string,
  coat: string,
  mark: string,
  adult_g: number,
  chipped: boolean,
  notes: string,
];

const adultRows: readonly AdultRow[] = [
  ['Heron', 'm', 'yes', 1460, 42, 'ward', 'W1', 'grey tabby', 'torn right ear', 4450, true, ''],
  ['Bittern', 'm', 'yes', 2200, 42, 'ward', 'W2', 'brown tabby', 'white chin', 4900, false, ''],
  ['Plover', 'f', 'yes', 900, 42, 'ward', 'W3', 'black and white', 'white left hip', 3700, true, ''],
  ['Lapwing', 'f', 'yes', 730, 36, 'ward', 'W4', 'tortoiseshell', 'ginger forehead', 3400, false, ''],
  ['Betony', 'f', 'yes', 1100, 33, 'ward', 'W5', 'black', plain, 3600, false, ''],
  ['Vetch', 'm', 'yes', 640, 30, 'ward', 'W6', 'black', plain, 4300, false, 'Shy; hides at the back of the kennel.'],
  ['Mallow', 'f', 'yes', 1830, 27, 'ward', 'W7', 'cream, half-long', 'blue eyes', 3900, true, ''],
  ['Gorse', 'm', 'yes', 800, 25, 'ward', 'W8', 'ginger tabby', 'white bib', 5100, false, ''],
  ['Larch', 'm', 'yes', 1250, 21, 'ward', 'W9', 'grey', 'grey nose', 4700, false, ''],
  ['Marjoram', 'f', 'no', 540, 18, 'ward', 'W10', 'brown tabby', 'white hind feet', 3300, false, ''],
  ['Curlew', 'f', 'yes', 2900, 16, 'ward', 'W11', 'white', 'one blue eye', 3500, true, ''],
  ['Kestrel', 'm', 'yes', 980, 15, 'ward', 'W12', 'brown tabby', 'kinked tail', 4600, false, ''],
  ['Speedwell', 'f', 'yes', 450, 11, 'ward', 'W13', 'grey and white', 'grey left ear', 3100, false, ''],
  ['Wren', 'f', 'no', 700, 24, 'kittens-b', 'B1', 'black', 'nursing', 3450, false, 'Mother of the Finch litter.'],
  ['Jackdaw', 'm', 'unknown', 1300, 5, 'quarantine', 'Q2', 'grey and black', 'scar over the nose', 4800, false, ''],
  ['Rook', 'f', 'yes', 860, 9, 'quarantine', 'Q3', 'black', 'white toe left forefoot', 3550, false, ''],
  ['Fieldfare', 'm', 'yes', 1020, 14, 'ward', 'W17', 'brown tabby', 'white belly', 4250, false, ''],
  ['Redwing', 'f', 'yes', 610, 19, 'ward', 'W18', 'ginger tabby', 'pale chin', 3200, false, ''],
  ['Comfrey', 'f', 'yes', 1500, 23, 'ward', 'W19', 'grey tabby', 'bare patch on the ear', 3650, true, ''],
  [
    'Magpie',
    'f',
    'no',
    760,
    10,
    'foster',
    'F2',
    'black and white',
    'white breast',
    4100,
    false,
    'In a foster home to have her kittens.',
  ],
  ['Angelica', 'f', 'yes', 1900, 29, 'foster', 'F3', 'tortoiseshell and white', 'half ginger face', 3800, true, ''],
  ['Nightjar', 'm', 'unknown', 500, 2, 'intake', 'I1', 'brown tabby', plain, 4000, false, ''],
  ['Hyssop', 'f', 'unknown', 680, 1, 'intake', 'I2', 'grey tabby', 'white tip of the tail', 3300, false, ''],
  ['Borage', 'm', 'unknown', 1150, 1, 'intake', 'I3', 'black', 'torn left ear', 4400, false, ''],
  ['Rue', 'f', 'unknown', 590, 1, 'intake', 'I4', 'tortoiseshell', 'ginger chin', 3250, false, ''],
  ['Goldcrest', 'f', 'yes', 840, 42, 'ward', 'W14', 'cream tabby', plain, 3350, false, ''],
  ['Merlin', 'm', 'yes', 1330, 41, 'ward', 'W15', 'grey', 'white whiskers on one side', 4650, true, ''],
  ['Osprey', 'm', 'yes', 1700, 40, 'ward', 'W16', 'black and white', 'black nose', 5000, false, ''],
];

const sexes = { f: 'female', m: 'male', '?': 'unknown' } as const;
const keyOf = (name: string): string => name.toLowerCase();

const kittens: readonly CastAnimal[] = litters.flatMap((litter) =>
  litter.kittens.map(([name, sex, collar, mark, size]) => ({
    key: keyOf(name),
    name,
    litter: litter.key,
    sex: sexes[sex],
    neutered: 'no' as const,
    ageDays: litter.ageDays,
    unsureDays: litter.unsureDays,
    cameDaysAgo: litter.cameDaysAgo,
    home: litter.home,
    kennel: litter.kennel,
    collar,
    coat: litter.coat,
    mark,
    size,
    adult_g: sex === 'm' ? 4400 : 3600,
    chipped: false,
    notes: litter.notes,
  })),
);

const adults: readonly CastAnimal[] = adultRows.map(
  ([name, sex, neutered, ageDays, cameDaysAgo, home, kennel, coat, mark, adult_g, chipped, notes]) => ({
    key: keyOf(name),
    name,
    litter: null,
    sex: sexes[sex],
    neutered,
    ageDays,
    // Adults are estimated by their teeth: half a year to either side.
    unsureDays: 180,
    cameDaysAgo,
    home,
    kennel,
    collar: '',
    coat,
    mark,
    size: 1,
    adult_g,
    chipped,
    notes,
  }),
);

/** Everybody who comes in at the door; three more come out of a file, see file.ts. */
export const cast: readonly CastAnimal[] = [...kittens, ...adults];

/** Those who have gone to a new home or another shelter, with the day. */
export const departures: readonly {
  readonly key: string;
  readonly daysAgo: number;
  readonly how: 'adopted' | 'transferred';
  readonly note: string;
}[] = [
  { key: 'merlin', daysAgo: 22, how: 'adopted', note: 'To an invented family.' },
  { key: 'osprey', daysAgo: 17, how: 'transferred', note: 'To another invented shelter.' },
  { key: 'goldcrest', daysAgo: 6, how: 'adopted', note: 'To an invented family.' },
  { key: 'tansy', daysAgo: 3, how: 'adopted', note: 'To her foster carer.' },
];

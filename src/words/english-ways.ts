import { age } from './english-age.js';
import type { Language } from './language.js';

const months = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
];
const conjunction = new Intl.ListFormat('en-GB', { type: 'conjunction' });
const twoDigits = (figure: number): string => String(figure).padStart(2, '0');

/** How English is written, its messages left aside. */
export const ways: Omit<Language, 'messages'> = {
  tag: 'en',
  name: 'English',
  day: ({ year, month, day }) => `${day} ${months[month - 1] ?? month} ${year}`,
  time: ({ hour, minute }) => `${twoDigits(hour)}:${twoDigits(minute)}`,
  age,
  list: (items) => conjunction.format(items),
};

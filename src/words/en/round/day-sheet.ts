/** The sheet for a day on which no device and no server works. */
export const daySheetWords = {
  'day-sheet.open': 'Sheet for the day everything dies',
  'day-sheet.title': 'The day on paper, {on}',
  'day-sheet.lead':
    'Print it in the morning. Should no device work, the shift is worked from it: everything that was known when it was made. Afterwards each line with a code is keyed in once; what was recorded meanwhile is shown then. The veterinarian and local rules decide.',
  'day-sheet.stops': 'What stops',
  'day-sheet.no-stops': 'Nothing stopped anything when this was made.',
  'day-sheet.waiting': 'Waits, and tests that run',
  'day-sheet.running': 'A test runs since {at}: read it at its time.',
  'day-sheet.held': '{what}: {why}',
  'day-sheet.waits': '{what}: {why}',
  'day-sheet.unplanned': 'Due today, in no round',
  'day-sheet.unplanned-lead':
    'Without a code: key it in on the page of the animal. The amount is by the last weight that may be used; without one, weigh first.',
  'day-sheet.unplanned-note':
    '{count, plural, one {# animal is} other {# animals are}} due something today that is in no round. Prepare a round first: then each line has a code to key it in by.',
  'day-sheet.no-rounds': 'No round is prepared for today.',
} as const;

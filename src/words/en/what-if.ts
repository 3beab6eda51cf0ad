/** What would be due if something were so; nothing of it is recorded. */
export const whatIf = {
  'what-if.title': 'What if',
  'what-if.open': 'Pretend something',
  'what-if.close': 'Close',
  'what-if.not-recorded':
    'Only pretended: nothing you enter here is recorded, sent or kept, and nobody else sees it. It is gone when you leave this page.',
  'what-if.day': 'Suppose it is',
  'what-if.weight': 'Suppose it weighs',
  'what-if.dose': 'Suppose it was given',
  'what-if.no-dose': 'nothing',
  'what-if.dose-day': 'Given on',
  'what-if.seen': 'Suppose somebody sees',
  'what-if.no-seen': 'nothing new',
  'what-if.clear': 'Stop pretending',
  'what-if.nothing-yet': 'Pretend another day, a weight, a dose or something seen; what would be due then stands here.',
  'what-if.count':
    '{count, plural, =0 {Nothing would be otherwise on {day}.} one {One treatment would stand otherwise on {day}.} other {# treatments would stand otherwise on {day}.}}',
  'what-if.table': 'What would be due, beside what is due now',
  'what-if.change': 'Difference',
  'what-if.change.newly-due': 'would be due',
  'what-if.change.no-longer-due': 'no longer due',
  'what-if.change.moved': 'another day',
  'what-if.change.otherwise': 'stands otherwise',
  'what-if.change.same': 'as now',
  'what-if.now': 'Now',
  'what-if.then': 'Then',
  'what-if.time-line': 'Time line as it would be',
} as const satisfies Record<string, string>;

/** Sentences about point-of-care tests: kit, clock, reading, and what a result is worth. */
export const test = {
  'test.kit-cold-unknown':
    '{kit}: nobody noted when it came out of the cold. Note the time now and wait {minutes} minutes.',
  'test.kit-warming': '{kit} is still too cold. It may be used from {at_time}.',
  'test.kit-out-too-long': '{kit} has been out of the cold for more than {minutes} minutes. Take another one.',
  'test.lot-missing-kit': '{kit}: scan or enter the lot on the box.',
  'test.lot-missing-conjugate': '{kit}: scan or enter the lot on the conjugate bottle.',
  'test.lots-differ':
    '{kit}: the box is lot {box} and the conjugate is lot {bottle}. They do not belong together. Find the bottle of this box.',
  'test.blood-too-much':
    '{wanted} is more blood than this animal may lose: {limit} in {days} days, of which {drawn} are drawn already. Ask the medical team.',

  'test.minutes': '{minutes}:{seconds}',
  'test.read-too-early':
    'Read after {after}, before the window opens at {opens}. Not valid: it says nothing. Repeat with a new kit, or read again inside the window.',
  'test.read-too-late':
    'Read after {after}, past the close of the window at {closes}. Not valid: marks that come late mean nothing. Repeat with a new kit.',
  'test.zone-not-looked-at':
    'Not every zone was looked at ({zones}). The test counts as invalid; look again or repeat.',
  'test.pattern-unknown': 'These marks do not fit this kit. The test counts as invalid; repeat with a new kit.',
  'test.result-negative': 'Negative: the control mark is there and no other.',
  'test.result-reactive':
    'Reactive. Not a diagnosis: tell supervisor, caregiver and medical team, and put a sign on the kennel.',
  'test.result-reactive-faint':
    'Reactive, with a faint mark; a faint mark is a mark. Have a second person look, then tell supervisor, caregiver and medical team, and put a sign on the kennel.',
  'test.result-invalid': 'Invalid: the kit did not work. Test again with a new kit.',

  'test.share-out-of-range': 'The {name} must be between 0 and 1 (or 0 and 100\u00a0percent).',
  'test.counts-impossible': 'The {name} cannot be {hits} of {of}.',
  'test.study-empty': 'The four counts are all 0.',
  'test.of-hundred-positives':
    'Of 100 animals with a reactive result like this one about {infected} are infected and {not} are not.',
  'test.of-hundred-negatives': 'Of 100 animals with a negative result about {infected} are infected anyway.',
  'test.of-ten-thousand-negatives':
    'Of 10000 animals with a negative result about {infected, plural, =0 {none is} one {one is} other {# are}} infected anyway.',
  'test.range-wilson':
    'The study behind it was of limited size: between {low} and {high} of 100 (95\u00a0percent intervals by Wilson, worst and best ends).',
  'test.range-exact':
    'The study behind it was of limited size: between {low} and {high} of 100 (95\u00a0percent exact intervals, worst and best ends).',
  'test.medical-team-decides':
    'A reactive animal goes to the medical team; one result never decides anything that cannot be undone.',
  'test.chain-not-independent':
    'Worked out as if the errors of the tests were independent. They seldom are: same antigen, perhaps the same tube.',
} as const satisfies Record<string, string>;

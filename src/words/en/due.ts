/** When treatments are due and why, and what past ones were worth. Titles of sources are shown beside these. */
export const due = {
  'due.what': '{schedule}',
  'due.what.dose': '{schedule} {dose}',

  'due.interval': '{what} is due {date}: {span} after dose {previous} on {on}.',
  'due.interval.last': '{what} is due {date}: {span} after the last one on {on}.',
  'due.interval.since': '{what} is due {date}: {span} after {since} on {on}.',
  'due.interval.not-counted':
    '{what} is due {date}: {span} after the one on {on}, which did not count ({reason}) but still sets the distance.',
  'due.age': '{what} is due {date}: at {span} of age.',
  'due.age.estimated': '{what} is due {date}: at {span} of age, counted from the estimated birth date.',
  'due.arrival': '{what} is due {date}: on arrival.',
  'due.seen': '{what} is due {date}: it was seen or ordered that day.',
  'due.apart': '{what} is due {date}: {span} after another product that it must be kept apart from.',
  'due.last-done': '{what} is due {date}: not before the last one.',
  'due.again': '{what} is due again from {date}: the one on {on} did not count ({reason}).',
  'due.times': '{what} is due {date}, at these times of the day: {times}.',
  'due.open': '{what} is due {date}.',
  'due.then-ends': '{reason} The series ends with the first dose given at {span} of age or later.',
  'due.then-stops': '{reason} None is due from {span} of age on.',
  'due.then-changes': '{reason} This goes on to {span} of age, then the next step of the schedule follows.',

  'due.complete': '{schedule} is complete.',
  'due.complete.once': '{schedule} was done on {on}. Nothing more is due.',
  'due.complete.series': '{schedule} is complete: {count} valid doses, the last on {on}.',
  'due.complete.next': '{ended} {next}',
  'due.complete.chip': 'Chip {chip} is in and was read in the animal.',
  'due.complete.not-needed': '{schedule} is not needed.',
  'due.reactive':
    '{schedule} was reactive on {on}. One reactive test is not a diagnosis: confirming it lies with the medical team.',
  'due.reactive.confirm': '{reason} The protocol: confirm it {words}',
  'due.reactive.confirm-from': '{reason} The protocol: confirm it, from {date} on, {words}',
  'due.reactive.planned': '{reason} Planned for {date}: {what}. Word of {person}.',
  'due.reactive.plan-passed': '{reason} The plan for {date} ({what}, word of {person}) has passed without a result.',
  'due.reactive.next': '{reason} {next}',
  'due.reactive.unclear':
    '{schedule} was reactive on {on}. Another method ({method}, {date}) was unclear: confirming it still lies with the ' +
    'medical team. Word of {person}.',
  'due.reactive.differs':
    '{schedule}: reactive on {on}, and the results of another method differ. The medical team writes down with its own hand what holds.',
  'due.reactive.confirmed':
    '{schedule} was reactive on {on}, and another method ({method}, {date}) confirmed it. What follows lies with the ' +
    'medical team. Word of {person}.',
  'due.reactive.not-confirmed':
    '{schedule} was reactive on {on}; another method ({method}, {date}) did not confirm it. What that means lies with ' +
    'the medical team. Word of {person}.',
  'due.test.repeat': '{schedule} on {on} says nothing: {reason}. It is to be repeated.',
  'due.test.unread': '{schedule} was begun and has no reading.',
  'due.lamp.glow':
    '{schedule} on {on}: it glowed. That is a suspicion, not a diagnosis: the medical team decides. {next}',
  'due.lamp.unsure': '{schedule} on {on}: unsure. The medical team looks at it. {next}',
  'due.aged-out': '{schedule} could be done until {date}. The animal is too old for it now.',
  'due.not-recommended': '{schedule} is not meant for an animal of this age.',
  'due.not-here': '{schedule} is not done in the section where the animal is.',
  'due.on-need': '{schedule} is done only when it is seen to be needed.',
  'due.on-need.again':
    '{schedule} was done on {on}. It is repeated only when seen to be needed, and not before {date}.',

  'due.hold.rule': '{words}',
  'due.hold.unknown': 'Waits for an answer: {question}',
  'due.hold.placed': 'On hold: {what}.',
  'due.hold.needs-first': 'Waits for {schedule}.',
  'due.hold.reactive-first': 'Waits for the medical team: {schedule} was reactive.',
  'due.hold.under-weight': 'Weighed {weight} on {on}. It waits until the animal weighs {least}.',
  'due.hold.under-label-age':
    'The labels of the products for this ask for an older animal. The first may be used from {date}, or sooner on a ' +
    'standing order of the veterinarian.',
  'due.hold.order': 'The order says to wait: {code}.',
  'due.hold.order-by-another':
    'Nobody may give this: it was written in the name of {by} by another hand and is no order until {by} has countersigned it.',
  'due.hold.chip-not-confirmed':
    'Chip {chip} was put in but has not been read in the animal yet. Scan again, with another scanner too, before ' +
    'anyone thinks of a second chip.',
  'due.hold.test-running':
    'A test was begun at {at_time} on {at_day} and has no reading yet. Read it, or note that it was given up.',
  'due.hold.age-unknown': 'The age is not known, and this depends on it. Estimate the age first.',
  'due.ask.age-unknown': 'The age is not known, and this depends on it. Is the animal old enough?',
  'due.ask.rule': '{words}',
  'due.ask.unknown': '{question}',
  'due.ask.weight': 'No weight is known. It needs at least {least}: weigh first.',

  'due.judged.valid': '{schedule} on {on} counts: {reason}.',
  'due.judged.reactive': '{schedule} on {on}: reactive. Not a diagnosis: the medical team confirms it.',
  'due.judged.valid-dose': '{schedule} {dose} on {on} counts: {reason}.',
  'due.judged.not-valid': '{schedule} on {on} does not count: {reason}.',
  'due.judged.not-valid-until': '{schedule} on {on} does not count: {reason}. It would have counted from {date}.',
  'due.judged.extra': '{schedule} on {on} was not needed: {reason}.',
  'due.judged.substandard': '{schedule} on {on} has to be repeated: {reason}.',
  'due.judged.pending': '{schedule} on {on} is open: {reason}.',

  'due.reason.in-time': 'in time',
  'due.reason.grace': 'early, but within the days of grace that the protocol allows',
  'due.reason.too-young': 'the animal was too young',
  'due.reason.too-old': 'the animal was too old',
  'due.reason.too-soon': 'too soon after the one before',
  'due.reason.too-near-other-product': 'too near to a product it must be kept apart from',
  'due.reason.same-day': 'a second one on the same day',
  'due.reason.series-complete': 'the schedule was complete',
  'due.reason.not-recommended': 'not meant for an animal of this age',
  'due.reason.in-the-future': 'its date is still to come, so the date must be wrong',
  'due.reason.before-birth': 'its date is before the birth date, so one of the two must be wrong',
  'due.reason.product-does-not-satisfy': 'this kind of product is written down but does not satisfy the schedule',
  'due.reason.product-of-other-class': 'the product is not one that this schedule asks for',
  'due.reason.product-unknown': 'the product is in no formulary of the shelter',
  'due.reason.expired-lot': 'the lot was past its expiry date',
  'due.reason.withdrawn-lot': 'the lot was recalled or had been stored wrongly',
  'due.reason.not-taken': 'it was not taken',
  'due.reason.test-invalid': 'the test showed no valid result',
  'due.reason.test-outside-window': 'the test was not read inside its time window',
  'due.reason.test-read-early': 'the test was read before its time window',
  'due.reason.test-read-late': 'the test was read after its time window',
  'due.reason.test-lots-differ': 'kit and conjugate were not of one lot',
  'due.reason.test-no-times': 'nobody wrote down when the test was started or read',
  'due.reason.test-kit-unknown': 'it is not known with which kit the test was done, or when it was started',
  'due.held-because': '{hold} {because}',
  'due.reason.test-abandoned': 'the test was given up',
  'due.reason.running': 'it has no reading yet',
  'due.reason.not-confirmed': 'the chip has not been read in the animal yet',
  'due.reason.not-ordered': 'the order asks for nothing at that time',
  'due.reason.same-time': 'a second one for the same time of the order',

  'due.span.years': '{n, plural, one {# year} other {# years}}',
  'due.span.months': '{n, plural, one {# month} other {# months}}',
  'due.span.weeks': '{n, plural, one {# week} other {# weeks}}',
  'due.span.days': '{n, plural, one {# day} other {# days}}',
  'due.span.less': 'less {part}',
  'due.span.sum': '{parts}',

  'due.since.previous': 'the one before',
  'due.since.dose': 'an earlier dose',
  'due.since.schedule': 'another treatment',
  'due.since.arrival': 'arrival',
  'due.since.observation': 'it was seen',
  'due.since.implant': 'the chip was put in',

  'due.step.born': 'Not before birth',
  'due.step.arrival': 'Not before arrival',
  'due.step.seen': 'Not before it was seen or ordered',
  'due.step.last-done': 'Not before the last one',
  'due.step.minimum-age': 'Youngest age {span}',
  'due.step.minimum-interval': 'At least {span} after {since}',
  'due.step.apart': 'Kept apart from another product for {span}',
  'due.step.recommended-age': 'Recommended from {span} of age',
  'due.step.recommended-interval': 'Recommended {span} after {since}',
  'due.step.late-age': 'Late from {span} of age',
  'due.step.late-interval': 'Late from {span} after {since}',
  'due.step.maximum-age': 'Too old from {span} of age',
  'due.step.end-age': 'Not from {span} of age on',

  'due.order':
    '{name} is due {date}: ordered by {by} from {start}, {timing}.{amount, select, none {} other { The order says: “{amount}”. The tool has not worked this out.}}',
  'due.order.not-countersigned': '{order} Written down by somebody else, not yet countersigned.',
  'due.order.days': '{n, plural, one {once a day} other {every # days}}',
  'due.order.times': 'at {times}',
  'due.order.hours': '{n, plural, one {every hour} other {every # hours}}',
  'due.order.amount': 'Ordered: {amount}',
  'due.order.complete':
    '{name} is complete: {count, plural, one {# done} other {# done}}, {missed, plural, =0 {none missed} ' +
    'one {# missed} other {# missed}}.',
  'due.order.ended-missed':
    '{name} has ended: {count, plural, =0 {none done} one {# done} other {# done}}, ' +
    '{missed} missed. A veterinarian ends it or orders anew.',
  'due.order.ended': '{name} was ended on {on}: {why}',
  'due.order.stopped': '{name} stopped by its own terms: {code} was seen on {on}.',
  'due.order.not-done': 'Not done: {reason}.',
  'due.order.time-passed': 'Missed: the time {at} on {date} had passed and the next had come. It is not made up.',
  'due.order.day-passed': 'Missed: its day had passed and the next had come.',
  'due.order.needs-licence': 'Only a veterinarian with a licence on record can do this. {person} has none.',
  'due.order.malformed': 'The order cannot be kept as it is: {detail}',
  'due.order.amount-elsewhere': 'An amount stands in {fields}: write it in the amount, or take it out.',
  'due.order.field.name': 'the short name',
  'due.order.field.why': 'the reason',
  'due.order.needs-amount': '{product} has no amount of its own: write how much of it is ordered.',
  'due.order.unknown': 'No signed document of the shelter has {what}.',

  'due.choice.unknown': 'The protocol has no choice {choice} with an option {option}.',
  'due.choice.does-not-fit': 'This option does not fit the protocol: {detail}',
} as const satisfies Record<string, string>;

/** Why a flag was raised; its short name in lists: flag-names.ts. */
export const flags = {
  'flag.reactive':
    'Antigen mark seen, control present, read inside the window (kit lot {lot}). Not a verdict: the medical team confirms. Keep {animal} apart until then.',
  'flag.reactive.faint':
    'Antigen mark seen, but faint, control present, read inside the window (kit lot {lot}). A faint mark counts. Not a verdict: the medical team confirms. Keep {animal} apart until then.',
  'flag.reactive.later-negative': 'A later test that the protocol asked for was negative.',
  'flag.follow-up.plan': 'Planned for {date}: {what}. Word of {person}.',
  'flag.follow-up.confirmed': '{method}, {date}: confirmed. Word of {person}.',
  'flag.follow-up.not-confirmed': '{method}, {date}: not confirmed. Word of {person}.',
  'flag.follow-up.unclear': '{method}, {date}: unclear. Word of {person}.',
  'flag.follow-up-told':
    '{by}, who is not of the medical team, wrote down about the reactive test of {animal}: {word} Look whether that is what was said; only the medical team’s answer closes this.',
  'flag.follow-up-doubtful':
    'What was written down about the reactive test of {animal} settles nothing: {reason} Only the medical team’s answer closes this.',
  'flag.follow-up-doubtful.person': '{person} was not of the medical team then.',
  'flag.follow-up-doubtful.before-reading': 'the result is of {date}, before the test was read.',
  'flag.follow-up-doubtful.ahead': 'the result is of {date}, which was still to come.',
  'flag.follow-up-doubtful.plan-far': 'the plan is for {date}, more than {days} days off.',
  'flag.results-differ':
    'Results of the second method for {animal} differ. First: {first} Then: {second} The test is not settled until the medical team itself has written down what holds. Keep {animal} apart until then.',
  'flag.second-start':
    'A second start was written down under one test of {animal}. The first one counts: {first}. The second: {second}. Only the medical team’s answer closes this.',
  'flag.second-start.one': '{kit}, lot {lot}, by {person} on {at}',
  'flag.clock-decides':
    'A test of {animal} counts only because a phone said that its clock was {minutes, plural, one {# minute} other {# minutes}} off. By the times as written it was read outside its window. Only the medical team’s answer closes this.',
  'flag.test-made-to-count':
    '{was} That was changed by {person} on {on_day} at {on_time}. Look whether the test may count; only the medical team’s answer closes this.',
  'flag.lamp-glow':
    'Something glowed on {animal} under the ringworm lamp. A suspicion, not a diagnosis: the medical team decides on a culture. Keep {animal} out of shared rooms until then; fresh gloves after it.',
  'flag.lamp-unsure':
    'Nobody was sure whether {animal} glowed under the ringworm lamp. The medical team looks again. Keep {animal} out of shared rooms until then.',
  'flag.lamp-unanswered': 'The ringworm lamp was noted on {animal} without what it showed. Ask, or look again.',
  'flag.moved-while-apart':
    '{animal} was moved to {section} while a test or the lamp kept {animal} out of shared rooms.',
  'flag.moved-too-clean':
    '{animal} was moved to {section}, which is cleaner than {animal} may be in now: {what}. Look where it is, and who shared the room.',
  'flag.left-open': '{animal} left {whose} with this open: {what}',
  'flag.left-open.nobody': 'on nobody’s word',
  'flag.left-open.other': 'on the word of {person}, who was not of the medical team then,',
  'flag.test-unread': 'A test of {animal} was begun and never read. It says nothing; a repeat is due.',
  'flag.test-invalid':
    'No valid control, or the failed-test mark is there (kit lot {lot}). The test says nothing; a repeat is due.',
  'flag.test-not-valid': 'The reading does not count: {reason} (kit lot {lot}). A repeat is due.',
  'flag.test-untimed':
    'Nobody wrote down when the test was started or read, so whether it was read in its window is not known (kit lot {lot}). A repeat is due.',
  'flag.mark-not-counted':
    'An antigen mark was seen on a test that does not count: {reason} (kit lot {lot}). It proves nothing either way: keep {animal} apart until a repeat.',
  'flag.mark-not-counted.faint':
    'An antigen mark was seen, faint, on a test that does not count: {reason} (kit lot {lot}). A faint mark is a mark, and it proves nothing either way: keep {animal} apart until a repeat.',
  'flag.mark-not-counted.later': 'A later test says more.',
  'flag.reading-taken-back':
    'A reactive reading of {animal}, of {on_day} at {on_time}, was taken back by {person}, who is not of the medical team. Only the medical team’s answer closes this. Keep {animal} apart until then.',
  'flag.glow-taken-back':
    'What the ringworm lamp showed on {animal} on {on_day} at {on_time} was taken back by {person}, who is not of the medical team. Only the medical team’s answer closes this. Keep {animal} out of shared rooms until then.',
  'flag.observation-taken-back':
    '{state, select, absent {That {animal} was without “{what}”} other {“{what}” of {animal}}}, noted by {noted} on {on_day} at {on_time}, was taken back by {person}, who is not of the medical team. Only the medical team’s answer closes this.',
  'flag.observation-taken-back.due':
    '{state, select, absent {That {animal} was without “{what}”} other {“{what}” of {animal}}}, noted by {noted} on {on_day} at {on_time}, was taken back by {person}, who is not of the medical team. No longer held by it: {due}. Only the medical team’s answer closes this.',
  'flag.observation-taken-back.apart':
    '“{what}” of {animal}, noted by {noted} on {on_day} at {on_time}, was taken back by {person}, who is not of the medical team. By it {animal} was kept apart: look whether that is over. Only the medical team’s answer closes this.',
  'flag.taken-back': '{was} Taken back by {person} on {on_day} at {on_time}: {change} It still waits for an answer.',
  'flag.taken-back.withdrawn': 'the record was withdrawn (“{reason}”).',
  'flag.taken-back.given-up': 'the test was given up.',
  'flag.taken-back.given': 'it now says {amount}, given on {at}.',
  'flag.taken-back.weighed': 'it now says {weight}.',
  'flag.taken-back.moved': 'it now says {section}.',
  'flag.taken-back.chip': 'the scan or the implant was corrected, and now names chip {chip}.',
  'flag.taken-back.of-another': 'the scan of chip {chip} is now said to be another cat’s, or to have been misread.',
  'flag.taken-back.no-chip': 'it now says that no chip was found.',
  'flag.taken-back.other': 'it now says something else; the record of the animal shows both.',
  'flag.kit-lot-unknown':
    'The lot of the kit or of its conjugate was not written down: nobody can say that they belong together, and a recall would not find this test.',
  'flag.draw-unused':
    'Blood was drawn for this test, and the test was never started: the blood was thrown away. A repeat needs another draw.',
  'flag.test-abandoned': 'The test was given up. A repeat is due.',
  'flag.kit-lot-not-kit':
    'The lot written down for a test of {animal} is no lot of kits here. Look at the box, and put the lot right.',
  'flag.kit-not-warm':
    'A test of {animal} was started {at_day} at {at_time}; by what is written down, its kit had come out of the cold {out_day} at {out_time} and should warm for {minutes, plural, one {# minute} other {# minutes}}. Ask the medical team whether to repeat it.',
  'flag.kit-cold-unknown':
    'Nobody wrote down when the kit of a test of {animal} came out of the cold. Ask whether it was warm.',
  'flag.kit-lot-differs': 'Kit lot {kit} was run with conjugate lot {conjugate}. The result does not count.',
  'flag.given-twice': '{product} at {first} and again at {second}. Both kept.',
  'flag.dose-taken-back':
    '{person} took back {product}, which {given} wrote down as given at {at}. Ask what was given before it is given again.',
  'flag.hold-nobodys':
    'Nobody is named who looks after the hold on {animal} ({what}). Place it again with a name and a day, or lift it.',
  'flag.hold-recheck':
    'The hold on {animal} ({what}) was to be looked at again on {date}; {person} looks after it. Lift it, or place it again with another day.',
  'flag.held-long':
    '{animal} has been waiting for {treatments} for longer than the protocol lets it wait unasked. {why} Ask whether it still has to wait.',
  'flag.given-early': '{product} came too soon to count. {reason}',
  'flag.expired-lot': '{product} from lot {lot}, which expired on {date}. The dose does not count.',
  'flag.withdrawn-lot': '{product} from lot {lot}, which has been withdrawn. The dose does not count.',
  'flag.moved-crossed':
    '{animal} was moved to {to} by somebody who knew it at {from}; the record had it at {had} by then. Look where it is.',
  'flag.sign-left':
    'Nothing keeps {animal} apart any more, and its sign still hangs: {place}. Take it down, and say so.',
  'flag.order-to-countersign':
    'An order for {animal}, {order}, {how} in the name of {by}, who has not countersigned it yet.',
  'flag.order-to-countersign.until':
    'An order for {animal}, {order}, {how} in the name of {by}, who has not countersigned it yet: nothing of it is drawn up from {at} on.',
  'flag.order-disowned':
    'An order for {animal}, {order}, {how} in the name of {by}, who says that it is not theirs. It has ended; look what was given.',
  'order-told.written': 'written by another hand',
  'order-told.beside': 'written by another hand to take the place of an order that stands,',
  'order-told.told': 'told by telephone and read back',
  'order-told.not-read-back': 'told by telephone and not read back',
  'flag.drawn-past':
    'Blood of {animal} was drawn with a ready-prepared syringe of lot {lot}, which kept until {until}. The medical team says whether what was tested from it stands.',
  'flag.syringe-past': 'A dose of {animal} was drawn with a syringe of box {lot}, which kept until {until}.',
  'flag.syringe-withdrawn':
    'A syringe of lot {lot} was used on {animal}; the lot has been recalled or was stored wrongly.',
  'flag.lot-unknown': '{product} from a lot that is not in the list (“{lot}”).',
  'flag.given-not-as-ordered': '{given} of {product} given: {times} times what was ordered ({ordered}).',
  'flag.outside-limits': '{given} of {product} given: outside the limits of the product for {weight}.',
  'flag.weight-of-the-age': 'any weight that a cat of that age may have',
  'flag.given-no-weight':
    '{product} goes by the weight, and no weight of {animal} was on record when it was given. Weigh, and hold the amount against it.',
  'flag.given-doubtful-weight':
    '{product} was given to {animal} on a doubtful weight of {weight}. Both kept. Weigh again.',
  'flag.given-no-amount': 'How much {product} {animal} was given is not written down.',
  'flag.given-two-units':
    '{product} for {animal} is written down as “{written}” and as {given}. Ask which of them was given.',
  'flag.given-amount-unread': '{product} for {animal}: “{written}” is no amount that can be read. Ask who gave it.',
  'flag.ends-before':
    'What was noted of {animal} ends on {until}, before it begins on {from}. It holds until the day is put right.',
  'flag.guard-shortened':
    '{person} noted {what} of {animal} again, until {until}. {noted} of the medical team had said {stands}; that stands until they say otherwise.',
  'flag.guard-shortened.open': 'nothing of an end',
  'flag.guard-shortened.until': 'until {until}',
  'flag.guard-lifted':
    '{person} noted that {what} of {animal} is over, which {noted} of the medical team had noted. It stands until they answer.',
  'flag.seen-no-more':
    '{person} noted that “{what}” of {animal} is over, which {noted} had noted on {on_day}. It kept {animal} apart; nothing does now. Only the medical team’s answer closes this.',
  'flag.seen-no-more.due':
    '{person} noted that “{what}” of {animal} is over, which {noted} had noted on {on_day}. No longer held by it: {due}. The medical team looks whether that is so.',
  'flag.left-quarantine':
    '{animal} was moved from {from} to {to}, and nothing on record says why it had been there, nor that its time was over. Ask the medical team before it shares the room.',
  'flag.observed-ahead':
    '{what} of {animal} was noted for {on}, a day still to come. What it asks to wait, waits already.',
  'flag.hold-lifted-by-other':
    '{person} ended a hold on {animal} that {placed} of the medical team had placed: {hold}. It holds nothing now.',
  'flag.chip-found-taken-back':
    '{chip} was read in {animal}, and {person} took that back. It stays named until somebody has scanned the whole animal again.',
  'flag.chip-second':
    'Chip {chip} was put into {animal}, which carries {also} already. Both stand on its record. Scan the whole animal, and ask whose chip the other is.',
  'flag.chip-not-whole': '“{chip}” stands as a chip of {animal} and is no whole number. Scan the animal again.',
  'flag.chip-raw-differs': 'The reader sent {raw} for {animal}, and {chip} is written down. Scan again.',
  'flag.arrives-ahead':
    '{animal} is written down as arriving on {arrived}, a day to come: until then nothing is due to it. Put the day right.',
  'flag.leaves-ahead':
    '{animal} was written down as leaving on {on}, a day to come. It stays on all lists; record that it left when it has.',
  'flag.left-before-arrival':
    '{animal} was written down as leaving on {on}, before it arrived on {arrived}. One of the two is wrong: is it here?',
  'flag.given-while-held': '{product} was given to {animal} while a hold stood: {reason} Both kept.',
  'flag.given-against':
    '{product} was given to {animal} although it was to wait: {reason} The medical team looks at it.',
  'flag.given-not-ready': '{product} was given to {animal} before it was time: {reason}',
  'flag.given-order-too-soon':
    '{product} was given for an order of {animal} sooner, or more often in a day, than that lets it: {reason}',
  'flag.given-order-over': '{product} was given for an order of {animal} of which nothing was to be done: {reason}',
  'flag.given-not-ordered':
    '{product} was given to {animal} for an order that nobody wrote for {animal}. Whose order was it? Look at both animals.',
  'flag.given-other-way': '{product} was given {given}; by the formulary it goes {route}.',
  'flag.given-not-for-cats': '{product} was given to {animal}. {reason}',
  'flag.given-not-allowed':
    '{product} was given to {animal} by {person}, and the formulary leaves it to the medical team.',
  'flag.given-against-label': '{product} was given to {animal} against its label. {reason}',
  'flag.given-under-label': '{product} was given to {animal} under the least of its label. {reason}',
  'flag.given-unlisted':
    '{product} was given to {animal} and is in no formulary that was in force: nobody could check dose, route or species.',
  'flag.order-missed':
    '{name}, ordered for {animal}, has ended with {missed, plural, one {# dose missed} other {# doses missed}} and {count, plural, =0 {none given} other {# given}}. The veterinarian ends it or orders it again.',
  'flag.other-amount': '{given} of {product} given; {planned} had been worked out.',
  'flag.not-all-taken': '{animal} did not take all of the {product}.',
  'flag.gate-passed': '{product} given past a stop ({gate}). Reason: {reason}',
  'flag.not-identified': '{product} given on a round without the animal having been identified first.',
  'flag.override': 'Identified without chip or marks. Reason: {reason}.',
  'flag.bit-somebody':
    '{animal} bit a person. Wash the wound with soap and water now and have a doctor see it today. The animal stays where it is until the medical team has said how long it is watched and who has to be told: the law of the place decides that.',
  'flag.looks-ill': '{animal}: {sign} was noted. Look at it today.',
  'flag.left-ill': 'Something due was not given to {animal}, because it is ill. Look at it today.',
  'flag.weight-doubtful': '{weight} does not fit the last weight or the age, and was kept. Weigh again.',
  'flag.weight-beyond-jump':
    '{animal} was weighed twice at {weight}, far from the weight before. One scale does not prove that: weigh on another, or have the medical team weigh it. No dose goes by it until then.',
  'flag.weight-other-scale':
    '{animal} weighs {weight} by two scales, far from the weight before. Doses go by it: look at the animal.',
  'flag.weight-beyond-age':
    '{animal} was weighed twice at {weight}, which no cat of {age} weighs. A scale proves nothing here: have the medical team weigh it, and look at the date of birth. No dose goes by it until then.',
  'flag.no-section': 'The place of {animal} is unknown or not a section. Choose one, or it is on no round.',
  'flag.future': 'Recorded for a day in the future. Check the clock of the device.',
  'flag.stamped-ahead':
    'Stamped {ahead} ahead, on the device with the number {device}. It counts from when it came in, {at}. Check that, and the clock of that device.',
  'flag.stamped-ahead.of':
    '{what} Stamped {ahead} ahead, on the device with the number {device}. It counts from when it came in, {at}. Check that, and the clock of that device.',
  'flag.clock-fast':
    'The clock of the device with the number {device} was {ahead} fast on {date}, as it had measured. Its records were put right by as much. Set that clock.',
  'flag.server-clock-back':
    'The clock of the server lay {behind} behind its own records when records of {animal} came in; they count as come in at {at}. It had been set back, or was fast before. Set it right, and look at what was recorded then.',
  'flag.ahead.minutes': '{n, plural, one {# minute} other {# minutes}}',
  'flag.ahead.hours': '{n, plural, one {# hour} other {# hours}}',
  'flag.ahead.days': '{n, plural, one {# day} other {# days}}',
  'flag.ahead.person': 'What is recorded of {name} as a person of the shelter.',
  'flag.ahead.section': 'What is recorded of the section {name}.',
  'flag.ahead.lot': 'What is recorded of lot {name}.',
  'flag.ahead.round': 'A record of a round.',
  'flag.ahead.document': 'A protocol or formulary that was filed, signed or retired.',
  'flag.ahead.shelter': 'A record of the shelter as a whole.',
  'flag.ahead.file': 'A file that was brought in.',
  'flag.ahead.flag': 'The answer to a flag.',
  'flag.wrong-animal': 'Scanned as {animal}, but the chip read was {found}; the chip on record is {chip}.',
  'flag.chip-read-before':
    'Chip {found} was read on {animal} when no chip was on its record; {chip} went in later. It may carry both: look for two chips, and for an owner.',
  'flag.chip-not-read':
    'No chip could be read after implanting {chip}. Look for it in the coat, scan again with another reader.',
  'flag.chip-not-scanned': 'Chip {chip} was implanted, and no scan of {animal} afterwards is written down. Scan it.',
  'flag.chip-differs':
    'Chip {chip} was implanted, {found} was read afterwards. Neither number is trusted until this is cleared up.',
  'flag.chip-gone-on':
    'Chip {chip} or {found}: neither is trusted, and the work on {animal} went on at the word of {person} ({how}): {reason}',
  'flag.chip-doubtful': 'Chip {chip}: {why}',
  'flag.chip-no-box': 'Chip {chip} went in and is on the list of no box. Compare it with the label of its pack.',
  'flag.chip-seen-outside':
    'Chip {chip} fell out after implanting and was discarded. Look at the hole; another one is due.',
  'flag.chip-not-found':
    'Chip {chip} could not be found after implanting, by a reader that reads, and counts as lost. It may still be in {animal}: look for two chips.',
  'flag.blood-waited':
    'The blood of {animal} had waited {minutes} minutes when its test was started; at most {limit} are set. Reason: {reason}',
  'flag.second-look-missing': 'The test of {animal} was read by one person: the second look is still missing.',
  'flag.readings-differ':
    'Two readings of one kit of {animal} differ. The more serious one stands: {first}. The other one: {second}.',
  'flag.readings-differ.one': '{result}, by {person} on {at}',
  'flag.chip-owner':
    'Chip {chip} was read in {animal} and is on nobody’s record: a possible owner’s chip. Look for the owner; no other chip goes in.',
  'flag.reader-stray':
    'The reader was tried on chip {chip}, which is on nobody’s record and on no box’s list. It may be in {animal}: scan it from head to tail before any other chip goes in.',
  'flag.chip-put-off':
    'Chip {chip} was read on {animal}, and the team says that it is another cat’s or was misread. It is on nobody’s record: make sure.',
  'flag.chip-shared': 'Chip {chip} is on the record of {animals}. One of them is wrong.',
  'flag.lot-below-zero': 'Lot {lot}: {count} more used than there were. Count it.',
  'flag.lot-expired': 'Lot {lot} expired on {date}. Take it off the shelf.',
  'flag.lot-expires-soon':
    'Lot {lot} expires on {date}, in {days, plural, =0 {less than a day} one {# day} other {# days}}; {left} left.',
  'flag.kit-lot-fails': 'Kit lot {lot}: {failed} of {runs} tests failed. Check storage, steps and the box.',
  'flag.went-back': 'The team went back to {section} after a sicker section. Reason: {reason}',
  'flag.not-written-down':
    'Round of {date}: {lots, plural, =0 {no lot missing} one {# dose without a lot} other {# doses without a lot}}, {amounts, plural, =0 {no amount missing} one {# without an amount} other {# without an amount}}. A recall finds only lots that were written down; ask the team while it remembers.',
  'flag.not-handed-back': 'The round of {date} was begun and never handed back.',
  'flag.none-in-force.protocol':
    'No protocol is in force any more, since what {person} recorded at {at}: nothing is worked out as due, for any animal. A veterinarian has to sign one.',
  'flag.none-in-force.formulary':
    'No formulary is in force any more, since what {person} recorded at {at}: no dose is worked out, for any animal. A veterinarian has to sign one.',
  'flag.role-changed':
    '{by} changed the role of {person} from {from} to {to}, on {at}. Since then {person} has answered {count, plural, =0 {no flag} one {# flag} other {# flags}}. Look whether that was meant, and at what {person} recorded since.',
  'flag.role-changed.until':
    '{by} changed the role of {person} from {from} to {to}, on {at}; it lasted until {until}. In that time {person} answered {count, plural, =0 {no flag} one {# flag} other {# flags}}. Look whether that was meant, and at what {person} recorded then.',
  'flag.role-changed.joined':
    '{by}, who is not of the medical team, put {person} on it as somebody new, on {at}. Since then {person} has answered {count, plural, =0 {no flag} one {# flag} other {# flags}}. Look whether that was meant, and at what {person} recorded since. Only the answer of another of the medical team closes this.',
  'flag.role-changed.left':
    '{by}, who is not of the medical team, recorded on {at} that {person} of the medical team works here no longer. Look whether that was meant. Only the medical team’s answer closes this.',
  'flag.role-changed.returned':
    '{by}, who is not of the medical team, recorded on {at} that {person} of the medical team works here again. Since then {person} has answered {count, plural, =0 {no flag} one {# flag} other {# flags}}. Look whether that was meant. Only the answer of another of the medical team closes this.',
  'flag.retired-unlicensed.protocol':
    '{person} took version {version} of the protocol out of force on {at}, without a licence: “{reason}”. Only the answer of another of the medical team closes this.',
  'flag.retired-unlicensed.formulary':
    '{person} took version {version} of the formulary out of force on {at}, without a licence: “{reason}”. Only the answer of another of the medical team closes this.',
  'flag.reading-elsewhere':
    'A test was read for {animal} that was never begun on {animal}: the reading may belong to another animal. It counts for nobody until that is cleared up.',
  'flag.run-shared':
    'One and the same test is on record for {animal} and for {others} (written by {people}). Nobody can tell from the record whose blood was in the kit, and a result may be the other one’s. Ask who drew, started and read it, before anything goes by either result. Only the medical team’s answer closes this.',
  'flag.run-shared.back':
    'One and the same test was on record for {animal} and for {others} (written by {people}); what was recorded of it for one of them has been taken back since. Ask whose blood was in the kit, before anything goes by a result. Only the medical team’s answer closes this.',
  'flag.number-shared':
    '{animal} and {others} are in care under one number, {number}. What is written under it can be meant for either: make sure by chip or marks, and give one of them another number. Only that closes this.',
  'flag.weight-entered-differs':
    'What was typed for {animal}, “{entered}”, is not the weight that was kept, {weight}. Weigh again, or put it right before a dose goes by it.',
  'flag.born-changed':
    '{person}, who is not of the medical team, changed when {animal} was born: from {from} to {to}. Weight limits and due dates are worked out by it: look whether it is right. Only the medical team’s answer closes this.',
  'flag.born-changed.narrower':
    '{person}, who is not of the medical team, changed when {animal} was born: from {from} to {to}. Weight limits and due dates are worked out by it.',
  'flag.born-changed.day': '{day}',
  'flag.born-changed.span': 'a day from {first} to {last}',
  'flag.born-changed.unknown': 'an unknown day from {first} to {last}',
  'flag.born-after':
    '{animal} is on record as born on {born}, after its arrival on {arrived}. What is due by age cannot be trusted until that is put right.',
  'flag.name-unseen': 'A name or number of an animal shows nothing that can be seen. Give it one that can be read.',
  'flag.put-back':
    'The records here were put back from an older copy, without the last {lost}. Sent again by the devices of: {names}. Let every phone and computer come near the network once, then look whether anything of that time is missing.',
  'flag.long-before':
    'A record of {animal} says {on}, which is before {animal} was born or before 1990. A weight of such a day counts for nothing; put the day right.',
  'flag.unknown-animal':
    '{count, plural, one {One record is} other {# records are}} about an animal nobody has taken in ({animal}).',

  'override.no-reader': 'no chip reader at hand',
  'override.chip-unreadable': 'the chip could not be read',
  'override.collar-lost': 'the collar was lost',
  'override.marks-alike': 'no chip, and marks like its neighbours’',
  'override.label-unreadable': 'the label could not be read',
  'override.known-to-the-team': 'the team knows the animal',
  'override.other': 'another reason',
} as const satisfies Record<string, string>;

/** Sentences about records that cannot be taken, and about acts that need something first. */
export const log = {
  'log.malformed': 'This record cannot be read ({detail}). It stays on the device until somebody has dealt with it.',
  'log.malformed-body':
    'A record of the kind “{kind}” cannot be read ({detail}). It stays on the device until somebody has dealt with it.',
  'log.text-broken': 'This record has text with half a character or an unprintable mark in it and stays on the device.',
  'log.number-endless': 'This record has a number in it that is too large to be written. It stays on the device.',
  'log.too-deep': 'This record is nested more than {most} levels deep and cannot be read. It stays on the device.',
  'log.corrects-elsewhere':
    'This record corrects one about something else. Withdraw the other one where it stands and record this one again.',
  'log.corrects-other-kind':
    'A record of this kind cannot take the place of the one that it corrects. Withdraw the other one and record this one again.',
  'log.unknown-kind': 'This program does not know records of the kind “{kind}”. Update it, then send again.',
  'log.newer-version':
    'A record of the kind “{kind}” comes from a newer version of the program (shape {version}). Update this one first.',
  'log.needs-licence': '{name} has no veterinary licence on record. Only medical staff with a licence can sign.',
  'log.signer-differs':
    'This signature names {signer}, licence {licence}, but it was made by {name}, whose name or licence on record is another. Everybody signs in their own name; sign again.',
  'log.retires-under-other':
    'This takes a document out of force under the licence {licence}, which is not that of {name}, who did it. Leave the licence out, or let its holder do it.',
  'log.corrects-order-of-another':
    'Only the veterinarian who ordered it puts this order otherwise, by their own hand. Others end it, and ask for a new one.',
  'log.order-not-told':
    'An order in a veterinarian’s name counts only by their own hand, or told by telephone: then say that it was told, and they countersign it.',
  'log.chip-as-read': 'The chip “{chip}” is not written as it is read: {whole}. Scan again. Nothing has been saved.',
  'log.chip-class':
    'The chip {chip} is of the kind {is}, and this record says {said}. Scan again. Nothing has been saved.',
  'log.order-of-another':
    'This order stands in the name of somebody else than {name}, who made it. Everybody orders in their own name.',
  'log.no-such-version': 'There is no version {version} of “{id}” to sign.',
  'log.contradicts-itself': 'This version contradicts itself and cannot be signed: {fault}',
  'log.already-signed': 'Version {version} of “{id}” is signed already.',
  'log.answer-needs-words': 'Write in a few words what was done or found. A flag does not go without an answer.',
  'log.withdrawal-needs-reason': 'Say why this record does not count. It stays visible with the reason.',
  'log.birth-reversed': 'The earliest birth date is after the latest one. Swap them.',
  'log.name-or-number': 'Give the animal a name or a number, so that people can find it.',
  'log.countersigns-for-other': 'Nobody countersigns an order in another’s name. Let the veterinarian do it.',
  'log.told-to-nobody': 'An order told by telephone names who heard it and wrote it down.',
  'log.keeps-no-time': 'By this they would keep no time at all. Check the day and the hour.',
  'log.hold-ends-before-start': 'The hold would end before it begins. Check the two dates.',
  'log.hold-too-long':
    'A hold ends, or is looked at again, by {date} at the latest. What has to wait longer is placed anew then.',
  'log.hold-needs-owner': 'Say who looks after this hold.',
  'log.hold-needs-day': 'Say the day on which the hold ends, or the day on which it is looked at again.',
  'log.hold-recheck-before-start': 'The day of looking again has to come after the day on which the hold begins.',
  'log.flag-elsewhere': 'The answer names another flag than the one it is about.',
  'log.subject-elsewhere':
    'This record is filed under one thing and speaks of another. Record it again under the one that it is about.',
  'log.follow-up-person':
    '{name} is not of the medical team. Name the veterinarian or technician whose word about the reactive test this is.',
  'log.leave-word-person':
    '{name} is not of the medical team. Name the veterinarian or technician on whose word the animal leaves with something open.',
  'log.demo-stays': 'A real shelter cannot be turned into the invented one, nor that into a real one.',
  'log.odd-field': 'A field has a name that no record may have ({name}).',
  'log.nothing-signed':
    'No protocol and formulary signed by a veterinarian are in force. Only signed ones drive a round.',
  'log.lost-protocol':
    'The protocol in force ({id}, version {version}) cannot be read from the records any more, so nothing can be worked out as due. Put the last backup in its place, or file the protocol again and have it signed.',
  'log.lost-formulary':
    'The formulary in force ({id}, version {version}) cannot be read from the records any more, so no dose and nothing due can be worked out. Put the last backup in its place, or file the formulary again and have it signed.',
  'log.unsure-protocol':
    'A record about the protocol ({id}) cannot be read any more, so nobody can tell which version is in force and nothing can be worked out as due. Run verify, and put the last backup in its place; without a backup, have the protocol signed again.',
  'log.unsure-formulary':
    'A record about the formulary ({id}) cannot be read any more, so nobody can tell which version is in force, and no dose and nothing due can be worked out. Run verify, and put the last backup in its place; without a backup, have the formulary signed again.',
  'log.round-needs-section': 'Choose at least one section to visit.',
  'log.two-people': 'Treater and holder are the same person. Choose two people, or leave the holder empty.',
  'log.no-such-section': 'There is no section “{section}”.',
  'log.going-back':
    '{section} is cleaner than a section visited before. Wash hands, change everything worn, and say why you go back.',
  'log.tests-running':
    '{count, plural, one {One test is} other {# tests are}} still running. Read {count, plural, one {it} other {them}} first, or record why not.',
  'log.zones-missing': 'Say for every zone of the kit whether a mark is there. Missing: {zones}.',
  'log.not-handed-back': 'The team has not handed this round back yet.',
  'log.already-accepted': 'This round was accepted already.',

  'prepare.no-section':
    '{count, plural, one {One animal in care is} other {# animals in care are}} in no section, so no round meets {count, plural, one {it} other {them}}. The flags “No section” say which.',
  'prepare.short': '{what}: {wanted} needed, {left} usable in stock.',
  'prepare.left-out': 'Not on the cart, because it is stopped: {what} for {animal}. {why}',
  'prepare.short-chips': 'Chips: {wanted} needed with the spare, {left} in stock.',
} as const satisfies Record<string, string>;

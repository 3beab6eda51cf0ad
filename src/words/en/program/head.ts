/** Sentences of the signed head of the records, and of what is proved by it. */
export const head = {
  'head.none': 'There are no records yet that a head could stand for.',
  'head.not-signed': 'The head is not signed by the key that stands beside it.',
  'head.not-in': 'The record is not in the log that this head stands for, or it was changed.',
  'head.not-beginning': 'The log of the older head is not the beginning of this one, or the proof was changed.',

  'head.title': 'Signed head of the records',
  'head.fetching': 'The signed head is asked for …',
  'head.not-here': 'No signed head on this sheet: {why}',
  'head.of': 'The log had {size, plural, one {# record} other {# records}} on {at_day}, {at_time}.',
  'head.root': 'Root',
  'head.key': 'Key of the server',
  'head.signature': 'Signature',
  'head.what-for':
    'With this sheet anybody can show later that a record was there by then, and that nothing before it was changed or taken out (prove, check-proof).',

  'cli.prove.what': 'prove that a record is in the log by a signed head, or that an older log is the beginning of it',
  'cli.prove.argument': 'id of a record; left out with --since',
  'cli.prove.one-of': 'Say which record is to be proved, by its id, or with --since which older log; not both.',
  'cli.prove.not-a-number': '“{given}” is no number of records.',
  'cli.prove.no-head': 'No head was signed for {size} records.',
  'cli.prove.not-there': 'The head of {size} records has no record “{record}”: it came later, or is not there.',
  'cli.prove.not-that-many': 'The head of {size} records has no beginning of {since}.',
  'cli.check-proof.what': 'look at a proof without the records: does the signed head bear it out',
  'cli.check-proof.argument': 'file that prove has written, “-” for standard input',
  'cli.check-proof.malformed': 'This is no proof as prove writes one.',
  'cli.check-proof.fault': '■ {why}',
  'cli.check-proof.other-key': 'The head was signed by another key than {key}.',
  'cli.check-proof.other-root': 'The head has another root than {root}.',
  'cli.check-proof.record':
    '✓ The record {id} ({kind}) is in place {place} of the {size} records whose head was signed on {at}.',
  'cli.check-proof.beginning':
    '✓ The first {since, plural, one {# record} other {# records}} are the beginning of the {size} whose head was signed on {at}; root then: {root}',
  'cli.check-proof.compare': 'Compare with the paper: root {root}, key {key}',
  'cli.restore.what': 'put records back into a folder that has none, from a copy or a whole export',
  'cli.restore.option-from':
    'a copy, or a file that export records has written with its pictures in the folder FILE.blobs',
  'cli.restore.option-to': 'folder for the records; it must not hold any',
  'cli.restore.from-and-to':
    'Say with --from where the records come from, and with --to into which folder they are put.',
  'cli.restore.done':
    '{records, plural, one {# record} other {# records}} put back in {folder}; the last one came in on {at_day}, {at_time}. What was recorded after that is on devices: they send it by themselves.',
  'cli.verify.heads': '{count, plural, =0 {No head} one {# head} other {# heads}} signed so far',
  'cli.verify.head-wrong':
    '■ The head of {size, plural, one {# record} other {# records}} that was signed on {at} is not borne out by the records: they were changed since, or the head was. Look at the sheets that were printed, and at the last copy.',
} as const satisfies Record<string, string>;

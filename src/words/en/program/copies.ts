/** Sentences of the copies of the records. */
export const copies = {
  'copies.place-missing':
    'The folder for copies {folder} is not there: the disk may not be plugged in. It is not made by itself.',
  'copies.place-closed':
    'The folder for copies {folder} may not be read or written by the account that runs the server: change its rights, or name another folder.',
  'copies.place-no-folder': 'The place for copies {folder} is a file and no folder: name a folder.',
  'copies.place-full': 'The disk with the folder for copies {folder} is full: make room, or name another folder.',
  'copies.failed': 'The copy in {folder} could not be made ({detail}).',
  'copies.records-damaged':
    'The records are damaged: no copy was made over them, and the older copies are still there. Run verify.',
  'copies.none': 'There is no copy of the records in the second place. {why}',
  'copies.old': 'The newest copy of the records in the second place is of {at_day}, {at_time}. {why}',
  'copies.passphrase-missing': 'There is no file {file} with the passphrase.',
  'copies.passphrase-short':
    'The passphrase in {file} has fewer than 15 characters. Take several words that nobody would guess, and keep them where this computer is not.',
  'copies.not-a-copy': 'The file {file} is neither a copy nor a whole export of records.',
  'copies.sealed': 'The copy {file} is sealed: give the passphrase with --passphrase-file.',
  'copies.not-opened': 'The copy {file} does not open with this passphrase, or it is damaged. Nothing was made.',
  'copies.not-unpacked': 'The copy {file} cannot be unpacked ({detail}). Nothing was made.',
  'copies.not-whole': 'The records in the copy {file} are not whole. Nothing was made; try an older copy.',
  'copies.every-wrong': '“{given}” is not a number of hours from 1 to 168.',
  'copies.place-first': 'Say with --copies into which folder the copies go.',

  'cli.copy.what': 'make one verified copy of records and pictures now, also while the server runs',
  'cli.copy.option-out': 'folder for the copy; it must be there',
  'cli.copy.out-missing': 'Say with --out into which folder the copy goes.',
  'cli.copy.done': 'Copied, read back and compared: {file}',
} as const satisfies Record<string, string>;

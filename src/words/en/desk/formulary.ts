/** A formulary as a file: saved, changed outside, read back, compared and laid down as a draft. */
export const formularyDesk = {
  'formulary-desk.export': 'Save as a file',
  'formulary-desk.import': 'Read from a file',
  'formulary-desk.by-file':
    'Products, strengths and limits are changed in the file: save a version, change it in any editor, and read it back. What does not fit is told with its place; what is read is a draft until a veterinarian has signed it.',
  'formulary-desk.medical-only': 'Everybody may read the formulary; the medical team writes it.',
  'formulary-desk.read': 'A formulary from a file',
  'formulary-desk.version': 'Number of this version',
  'formulary-desk.version-taken': 'Version {version} is here already; give it another number.',
  'formulary-desk.version-empty': 'It needs a number.',
  'formulary-desk.nothing-differs': 'Nothing in this file differs from version {version}, so there is nothing to file.',
  'formulary-desk.lay-down': 'File as a draft',
  'formulary-desk.faults': 'It contradicts itself and cannot be signed like this:',
  'formulary-desk.differs':
    '{count, plural, =0 {Nothing differs from the signed version {version}.} one {One value differs from the signed version {version}:} other {# values differ from the signed version {version}:}}',
  'formulary-desk.all-new': 'No formulary is signed yet, so everything in it is new.',
  'formulary-desk.place': 'Where',
  'formulary-desk.before': 'Signed',
  'formulary-desk.after': 'New',
  'formulary-desk.not-there': 'not there',
  'formulary-desk.departs': 'departs from: {title}',
} as const satisfies Record<string, string>;

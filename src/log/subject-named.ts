import type { LogRecord } from './record.js';

/** The subject that the body of a record names itself; null for kinds whose body does not say what they are about. */
export function subjectNamed(record: LogRecord): string | null {
  switch (record.kind) {
    case 'person-described':
      return `person:${record.body.person}`;
    case 'section-described':
      return `section:${record.body.section}`;
    case 'protocol-filed':
      return `document:${record.body.protocol.id}`;
    case 'formulary-filed':
      return `document:${record.body.formulary.id}`;
    case 'document-signed':
    case 'document-retired':
      return `document:${record.body.id}`;
    case 'flag-taken':
    case 'flag-answered':
      return `flag:${record.body.flag}`;
    default:
      return null;
  }
}

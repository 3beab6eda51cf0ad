import { copyFileSync, existsSync, mkdtempSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import SqliteDatabase from 'better-sqlite3';

/** What the engine still tells of a damaged store beside its records: where it ended, and what each place was about. */
export interface StillKnown {
  readonly head: { readonly seq: number; readonly hash: string } | null;
  /** Subjects by place, as far as the index over them can be read. */
  readonly subjects: ReadonlyMap<number, string>;
}

/** Ask the engine, on a copy in a folder of its own inside `room`: it would mend the file that it opens. */
export function stillKnown(file: string, room: string): StillKnown {
  const folder = mkdtempSync(join(room, 'salvage-'));
  const copy = join(folder, 'copy.sqlite');
  const subjects = new Map<number, string>();
  let head: StillKnown['head'] = null;
  try {
    copyFileSync(file, copy);
    if (existsSync(`${file}-wal`)) copyFileSync(`${file}-wal`, `${copy}-wal`);
    const engine = new SqliteDatabase(copy);
    try {
      head = headOf(engine);
      // From both ends: the index may be broken off somewhere between them.
      for (const order of ['asc', 'desc']) readSubjects(engine, order, subjects);
    } finally {
      engine.close();
    }
  } catch {
    // Not even to be opened: then the records alone have to say.
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
  return { head, subjects };
}

function headOf(engine: SqliteDatabase.Database): StillKnown['head'] {
  try {
    const head = engine.prepare<[], { seq: unknown; hash: unknown }>('select seq, hash from log_head').get();
    if (typeof head?.seq !== 'number' || typeof head.hash !== 'string') return null;
    return { seq: head.seq, hash: head.hash };
  } catch {
    return null;
  }
}

function readSubjects(engine: SqliteDatabase.Database, order: string, into: Map<number, string>): void {
  try {
    const rows = engine.prepare<[], { seq: unknown; subject: unknown }>(
      `select seq, subject from records indexed by records_subject order by subject ${order}, seq ${order}`,
    );
    for (const { seq, subject } of rows.iterate()) {
      if (typeof seq === 'number' && typeof subject === 'string') into.set(seq, subject);
    }
  } catch {
    // As far as it went.
  }
}

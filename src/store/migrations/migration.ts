import type { Compilable, SchemaModule } from 'kysely';

type Statement = Compilable & { execute(): Promise<unknown> };

/**
 * One step of the store's shape. Steps are numbered 1, 2, 3 without gaps and never change once released: manifest.json
 * holds the checksum of what each one compiles to. Columns are added, never re-meant. Read tables are not here: they
 * are made from src/store/read-tables.ts and thrown away when that changes.
 */
export interface Migration {
  readonly number: number;
  readonly name: string;
  readonly statements: (schema: SchemaModule) => readonly Statement[];
}

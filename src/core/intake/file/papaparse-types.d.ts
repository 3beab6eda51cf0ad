/**
 * The part of papaparse that the core and the wire use. The published types bring Node's ambient types with them, and with those
 * the compiler would no longer notice a clock or a file read there (their tsconfig.json point here).
 */
interface Step {
  readonly data: string[];
  readonly errors: readonly { readonly code: string }[];
  /** Position in the text after this row and its line end. */
  readonly meta: { readonly cursor: number };
}
declare const papaparse: {
  parse(
    text: string,
    how: { delimiter: string; newline: '\n'; quoteChar: '"'; skipEmptyLines: false; step: (row: Step) => void },
  ): void;
  unparse(
    table: { fields: readonly string[]; data: readonly (readonly (string | number)[])[] },
    how: { newline: '\r\n'; escapeFormulae: true },
  ): string;
};
export default papaparse;

import { argumentsIn, parsed } from '../../src/words/message.js';
import type { Chapters } from './catalogue.js';
import type { Findings } from './tree.js';

/** Ways of writing that are misread at the cage (ISMP list of error-prone abbreviations and dose designations, 2021). */
const misread: readonly { readonly pattern: RegExp; readonly why: string }[] = [
  { pattern: /(^|[^\d.,])\.\d/, why: 'a number without the zero before its point' },
  { pattern: /\d\.\d*0(?!\d)/, why: 'a number with a zero at its end' },
  { pattern: /\b(cc|ML|ml|Ml)\b/, why: 'millilitres not written mL' },
  { pattern: /[µμ]g/, why: 'micrograms not written mcg' },
  { pattern: /(\d|\})[ ]?(U|IU|u)\b/, why: 'units not written out' },
  { pattern: /(\d|\})[ ]?(mL|mg|mcg|kg|g|units?)\b/, why: 'a figure and its unit that a line end can part' },
];

/** Messages that are not well-formed, are empty, stand in two chapters, or write a quantity in a way that is misread. */
export function wordingFaults(chapters: Chapters): Findings {
  const faults: string[] = [];
  const home = new Map<string, string>();
  for (const [chapter, messages] of Object.entries(chapters)) {
    for (const [key, text] of Object.entries(messages)) {
      const at = `src/words/en/${chapter}.ts:1 ${key}`;
      const other = home.get(key);
      if (other !== undefined) faults.push(`${at} stands in ${other}.ts too`);
      home.set(key, chapter);
      if (text.trim() === '') faults.push(`${at} is empty`);
      const broken = syntaxFault(text);
      if (broken !== null) faults.push(`${at} is not a well-formed message: ${broken}`);
      else if (!isReadByCompiler(text))
        faults.push(`${at} has a value in a form that the compiler does not read: ${text}`);
      for (const { pattern, why } of misread) if (pattern.test(text)) faults.push(`${at} has ${why}: ${text}`);
    }
  }
  return { read: home.size, faults };
}

/** As src/words/en/asks.ts reads it: `{name}`, `{name, plural, ...}` and `{name, select, ...}`, and no brace that is text. */
const isReadByCompiler = (text: string): boolean =>
  !/'[{}]/.test(text) &&
  [...argumentsIn(parsed(text))].every(([name, use]) =>
    text.includes(use === 'plain' ? `{${name}}` : `{${name}, ${use}, `),
  );

function syntaxFault(text: string): string | null {
  try {
    argumentsIn(parsed(text));
    return null;
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
}

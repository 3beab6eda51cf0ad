import { describe, expect, test } from 'vitest';
import { saidIn } from '../../src/web/words-with-parts.js';
import { chapters } from '../../src/words/en/index.js';
import { english } from '../../src/words/english.js';
import { unsaidFaults } from './catalogue.js';
import { expectClean, filesOf, isTest, planted, projectTree, source } from './tree.js';
import { visibleTextFaults } from './visible-text.js';
import { wordingFaults } from './wording.js';

describe('the message catalogue', () => {
  test('has no sentence that nothing says', () => {
    expectClean(unsaidFaults(projectTree(), chapters), 60);
  });

  test('is well-formed and cannot be misread', () => {
    expectClean(wordingFaults(chapters), 100);
  });

  test('takes up every file of the language', async () => {
    const files = filesOf(projectTree(), /^src\/words\/en\/[a-z]+\/[a-z-]+(?<!\.test)\.ts$/).map(([path]) => path);
    expect(files.length).toBeGreaterThanOrEqual(13);
    for (const path of files) {
      const parts: Record<string, Record<string, string>> = await import(`../../${path}`);
      const keys = Object.values(parts).flatMap((part) => Object.keys(part));
      expect({ path, left: keys.filter((key) => !Object.hasOwn(english.messages, key)) }).toEqual({ path, left: [] });
    }
  });

  test('comes whole with the parts of the program that say it', () => {
    const files = filesOf(projectTree(), source).filter(([path]) => !isTest(path) && !path.startsWith('src/words/'));
    const brought = new Set(files.flatMap(([, text]) => Object.keys(saidIn(text, english.messages))));
    expect(Object.keys(english.messages).filter((key) => !brought.has(key))).toEqual([]);
    // biome-ignore lint/suspicious/noTemplateCurlyInString: a source, as it stands in a file
    expect(saidIn("say('a.b'); say(`a.c-${kind}`);", { 'a.b': '', 'a.c-d': '', 'a.d': '' })).toEqual({
      'a.b': '',
      'a.c-d': '',
    });
  });

  const messages = { due: { 'due.on': 'Due on {on}.', 'due.late': 'Late.', 'due.hold.cold': 'Too cold.' } };
  test('refuses a message that is only said in a test', () => {
    const tree = planted({
      'src/log/a.ts': `said('due.on', { on: day }); const k = \`due.hold.\${kind}\`;`,
      'src/log/a.test.ts': `said('due.late');`,
    });
    expect(unsaidFaults(tree, messages).faults).toEqual(['src/words/en/due.ts:1 due.late is never said']);
  });

  test.each([
    ['not ICU', 'Due {on', 'not a well-formed message'],
    ['a plural without other', '{n, plural, one {#}}', 'not a well-formed message'],
    ['empty', ' ', 'is empty'],
    ['naked point', 'give .5\u00a0mL', 'zero before its point'],
    ['trailing zero', 'give 1.0\u00a0mL', 'zero at its end'],
    ['cc', 'give 1\u00a0cc', 'not written mL'],
    ['µg', 'give {n}\u00a0µg', 'not written mcg'],
    ['U', 'give 10\u00a0units, not 10U', 'not written out'],
    ['a breaking space', 'give {n} mL', 'that a line end can part'],
    ['of a form that only the formatter reads', 'Due {on, date}', 'in a form that the compiler does not read'],
    ['a brace in quotes', "Due '{'on'}', {on}", 'in a form that the compiler does not read'],
    ['spaced otherwise', '{n,plural, other {#}}', 'in a form that the compiler does not read'],
  ])('refuses a message that is %s', (_, text, why) => {
    const { faults } = wordingFaults({ due: { 'due.a': text } });
    expect(faults).toHaveLength(1);
    expect(faults[0]).toContain(why);
  });

  test('refuses one key in two chapters and lets plain sentences through', () => {
    expect(wordingFaults({ due: { a: 'A U-100 syringe.' }, dose: { a: 'At 0.05\u00a0mL.' } }).faults).toEqual([
      'src/words/en/dose.ts:1 a stands in due.ts too',
    ]);
  });
});

describe('visible text', () => {
  test('comes from the catalogue on every screen', () => {
    expectClean(visibleTextFaults(projectTree()), 10);
  });

  test.each([
    ['plain text', '<p>Hello</p>'],
    ['a literal', `<p>{'Hello'}</p>`],
    ['a template', `<p>{\`\${n} of \${m}\`}</p>`],
    ['either of two', `<p>{late ? t('late') : 'on time'}</p>`],
    ['a condition', `<p>{late && 'late'}</p>`],
    ['text put together', `<>{n + ' cats'}</>`],
    ['a name for the reader', '<button aria-label="Close" />'],
    ['a field', `<input placeholder={'Weight'} />`],
  ])('refuses %s', (_, jsx) => {
    const { faults } = visibleTextFaults(planted({ 'src/web/a.tsx': `export const a =\n  ${jsx};` }));
    expect(faults).toHaveLength(1);
    expect(faults[0]).toContain('src/web/a.tsx:2 shows words of its own: ');
  });

  test('lets keys, figures, glyphs and class names through', () => {
    const jsx = `<p className="row" id={'x'} title={t('a')}>{t('b')} ✓ 12 {n}{' · '}{kind === 'late' ? t('c') : null}</p>`;
    expect(visibleTextFaults(planted({ 'src/web/a.tsx': `export const a = ${jsx};` })).faults).toEqual([]);
  });
});

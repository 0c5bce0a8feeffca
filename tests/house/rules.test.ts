/** The list of rules, the tests and the code speak of the same rules. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { rulesNamed, titlesIn, titlesUnder } from './titles.ts';

const list = readFileSync('projections/rules.md', 'utf8');
const entries = [...list.matchAll(/^- \*\*(R-\d{2})\*\* (.*)$/gm)].map(([, rule = '', words = '']) => ({
  rule,
  built: !words.startsWith('_Not built yet._'),
}));
const titles = titlesUnder('tests');

describe('the list of rules', () => {
  test('has each number once, in order', () => {
    const numbers = entries.map(({ rule }) => rule);
    expect(numbers.length).toBeGreaterThan(45);
    expect([...new Set(numbers)].sort()).toEqual(numbers);
    expect(rulesNamed(list).filter((rule) => !numbers.includes(rule))).toEqual([]);
  });

  test('each built rule has a test whose title names it', () => {
    const named = new Set(titles.flatMap(({ title }) => rulesNamed(title)));
    expect(entries.filter(({ rule, built }) => built && !named.has(rule)).map(({ rule }) => rule)).toEqual([]);
  });

  test('no title names a rule that is not on the list', () => {
    const known = new Set(entries.map(({ rule }) => rule));
    expect(titles.filter(({ title }) => rulesNamed(title).some((rule) => !known.has(rule)))).toEqual([]);
  });

  test('no test is switched off or run alone', () => {
    expect(titles.filter(({ switches }) => switches.length > 0)).toEqual([]);
  });
});

describe('reading titles', () => {
  const read = (text: string) => titlesIn(text, 'made-up.test.ts').map(({ title }) => title);

  test('plain, in a group, in a table, from a property and in a template they are all seen', () => {
    expect(read("test('R-10 a', () => {});")).toEqual(['R-10 a']);
    expect(read("describe('R-11 b', () => { it('c', () => {}); });")).toEqual(['R-11 b > c']);
    expect(read("test.each([[1]])('R-12 %i', () => {});")).toEqual(['R-12 %i']);
    expect(read("test.prop([x], { seed: 1 })('R-13 d', () => {});")).toEqual(['R-13 d']);
    expect(read('for (const x of y) test(`R-14 $' + '{x} e`, () => {});')).toEqual(['R-14 … e']);
    expect(read("test('R-15 f ' + g, () => {});")).toEqual(['R-15 f ']);
  });

  test('a number in a comment or in the body is no title', () => {
    expect(read("// test('R-10 a')\nconst a = 'R-11';\ntest('b', () => { say('R-12'); });")).toEqual(['b']);
  });

  test('a switched-off test is noticed, through its group too', () => {
    const switchesOf = (text: string) => titlesIn(text, 'made-up.test.ts').flatMap(({ switches }) => switches);
    expect(switchesOf('test.sk' + "ip('a', () => {});")).toEqual(['skip']);
    expect(switchesOf('describe.sk' + "ip('a', () => { test('b', () => {}); });")).toEqual(['skip']);
    expect(switchesOf("test.each([1])('a', () => {});")).toEqual([]);
  });
});

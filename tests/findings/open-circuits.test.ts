import { describe, expect, test } from 'vitest';
import { type Analysis, analyse } from '../../server/core/analysis.ts';
import { findAll } from '../../server/core/findings/find.ts';
import type { Finding } from '../../server/core/findings/rule.ts';
import { createTrees } from '../../server/core/model/trees.ts';
import type { Link } from '../../server/core/model/wiring.ts';
import { rangeOf } from '../../server/core/syntax/tree.ts';
import { STANDING_CAUTION } from '../support/example.ts';
import { type Example, readExamples } from '../support/examples.ts';
import { worldOf } from '../support/world.ts';

/*
 * A machine without one of its wires. Each link of each example is left out in turn, and something must be said that
 * names a part at one of its ends, or one that a bar at its end leads to: no wire is there for nothing.
 */

/** Links whose absence changes nothing that anybody needs, with the reason. */
const NEEDLESS: ReadonlyMap<string, string> = new Map([
  [
    'contactor.14 -> contactor.A1',
    'without it the contactor holds only while its button is pressed, which some machines want',
  ],
]);

describe.each(readExamples())('$name', ({ machine: name, files }: Example) => {
  const trees = createTrees();
  const analyseText = (text: string) =>
    analyse(name, text, worldOf(new Map([...files, [name, text]])), trees);
  const whole = analyseText(files.get(name) ?? '');
  const before = new Set(findAll(whole).map(nameOf));
  const links = whole.kind === 'machine' ? whole.machine.links : [];
  const found = links.map((link) => {
    const after = analyseText(without(whole, link));
    const fresh = findAll(after).filter(
      (finding) => !before.has(nameOf(finding)) && !STANDING_CAUTION.test(finding.code),
    );
    return { link, after, fresh };
  });

  test('has links, and all of them are left out one by one', () => {
    expect(links.length).toBeGreaterThan(0);
    for (const { after } of found)
      expect(after.kind === 'machine' && after.machine.links.length).toBe(links.length - 1);
  });

  test('says something near each of them', () => {
    const silent = found.filter(({ link, after, fresh }) => {
      const parts = near(whole, link);
      return !fresh.some((finding) => parts.some((part) => tells(after, finding, part)));
    });
    expect(silent.map(({ link }) => sayLink(link)).filter((link) => !NEEDLESS.has(link))).toEqual([]);
  });

  test('says it once', () => {
    const several = found.filter(({ fresh }) => fresh.length > 1);
    expect(several.map(({ link, fresh }) => [sayLink(link), ...fresh.map(({ code }) => code)])).toEqual([]);
  });

  test('offers no links for the mains', () => {
    for (const { link, fresh } of found) {
      const mains = fresh.filter(({ data }) => data.isMains === true);
      for (const finding of mains) expect(finding.fixes, sayLink(link)).toEqual([]);
    }
  });

  test('offers a link that closes the circuit of an input again', () => {
    const inputs = found.flatMap(({ link, fresh }) => {
      const finding = fresh.find(({ code, data }) => code === 'wiring/no-return' && data.input !== undefined);
      return finding ? [{ link, titles: (finding.fixes ?? []).map(({ title }) => title) }] : [];
    });
    const cured = inputs.filter(({ titles }) => titles.length > 0);
    expect(inputs.length).toBeGreaterThan(10);
    // What is left is a choice that is not ours, such as between several free outputs.
    expect(cured.length / inputs.length).toBeGreaterThan(0.8);
  });
});

const nameOf = ({ code, message }: Finding) => `${code} ${message}`;

const sayLink = ({ from, to }: Link) => `${from.part}.${from.terminal} -> ${to.part}.${to.terminal}`;

/** The parts at the ends of a link, and those that a bar or strip among them leads to. */
function near(analysis: Analysis, { from, to }: Link): string[] {
  if (analysis.kind !== 'machine') return [];
  const { parts, links } = analysis.machine;
  const ends = [from.part, to.part];
  const bars = ends.filter((end) => parts.get(end)?.sheet?.partClass === 'terminal-strip');
  const beyond = links.filter((link) => [link.from, link.to].some(({ part }) => bars.includes(part)));
  return [...ends, ...beyond.flatMap((link) => [link.from.part, link.to.part])];
}

/** Whether a finding names a part, in its words or in the place where it stands. */
function tells({ tree }: Analysis, { at, message }: Finding, part: string): boolean {
  const range = rangeOf(tree, at);
  const place = range ? tree.text.slice(range.from, range.to) : '';
  return [message, place].some((text) => text.split(/[^\w-]+/).includes(part));
}

/** The text of a machine without one of its links; a list of ends or links keeps the others. */
function without({ tree }: Analysis, link: Link): string {
  const { text } = tree;
  const [whole, end] = [rangeOf(tree, link.at), rangeOf(tree, link.to.at)];
  if (!whole || !end) throw new Error(`${sayLink(link)} has no place`);
  const cut = (from: number, to: number) => text.slice(0, from) + text.slice(to);
  const inner = text.slice(whole.from, whole.to);
  if (inner.includes(',')) {
    const after = /^\s*,\s*/.exec(text.slice(end.to, whole.to));
    const before = /,\s*$/.exec(text.slice(whole.from, end.from));
    return after
      ? cut(end.from, end.to + after[0].length)
      : cut(end.from - (before?.[0].length ?? 0), end.to);
  }
  const line = text.lastIndexOf('\n', whole.from - 1) + 1;
  const isAlone = /^\s*- (?:\{ link: )?$/.test(text.slice(line, whole.from));
  if (isAlone) return cut(line, text.indexOf('\n', whole.to) + 1);
  const after = /^\s*,\s*/.exec(text.slice(whole.to));
  const before = /,\s*$/.exec(text.slice(0, whole.from));
  return after
    ? cut(whole.from, whole.to + after[0].length)
    : cut(whole.from - (before?.[0].length ?? 0), whole.to);
}

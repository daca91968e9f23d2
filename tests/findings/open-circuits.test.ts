import { describe, expect, test } from 'vitest';
import { type Analysis, analyse } from '../../server/core/analysis.ts';
import { findAll } from '../../server/core/findings/find.ts';
import type { Finding } from '../../server/core/findings/rule.ts';
import { createTrees } from '../../server/core/model/trees.ts';
import type { Link } from '../../server/core/model/wiring.ts';
import { rangeOf } from '../../server/core/syntax/tree.ts';
import { type Example, readExamples } from '../support/examples.ts';
import { worldOf } from '../support/world.ts';

/*
 * A machine without one of its wires. Each link of each example is left out in turn, and something must be said that
 * names a part at one of its ends, or one of their terminals: no wire is there for nothing.
 */

/** Links whose absence changes nothing that anybody needs, with the reason. */
const NEEDLESS: ReadonlyMap<string, string> = new Map([]);

describe.each(readExamples())('$name', ({ machine: name, files }: Example) => {
  const trees = createTrees();
  const analyseText = (text: string) =>
    analyse(name, text, worldOf(new Map([...files, [name, text]])), trees);
  const whole = analyseText(files.get(name) ?? '');
  const before = new Set(findAll(whole).map(nameOf));
  const links = whole.kind === 'machine' ? whole.machine.links : [];
  const found = links.map((link) => {
    const after = analyseText(without(whole, link));
    return { link, after, fresh: findAll(after).filter((finding) => !before.has(nameOf(finding))) };
  });

  test('has links, and all of them are left out one by one', () => {
    expect(links.length).toBeGreaterThan(0);
    for (const { after } of found)
      expect(after.kind === 'machine' && after.machine.links.length).toBe(links.length - 1);
  });

  test('says something near each of them', () => {
    const silent = found.filter(({ link, after, fresh }) => {
      const parts = [link.from.part, link.to.part];
      return !fresh.some((finding) => parts.some((part) => tells(after, finding, part)));
    });
    expect(silent.map(({ link }) => sayLink(link)).filter((link) => !NEEDLESS.has(link))).toEqual([]);
  });

  test('says it once', () => {
    const several = found.filter(({ fresh }) => fresh.length > 1);
    expect(several.map(({ link, fresh }) => [sayLink(link), ...fresh.map(({ code }) => code)])).toEqual([]);
  });

  test('offers links that close the circuit again, and none for the mains', { timeout: 120_000 }, () => {
    for (const { link, fresh } of found) {
      for (const { code, data, fixes = [] } of fresh) {
        if (code !== 'wiring/no-return') continue;
        if (data.isMains === true) expect(fixes, sayLink(link)).toEqual([]);
        // What a contact without an input should bridge is a choice that is not ours.
        else if (data.input !== undefined || data.awaited !== undefined)
          expect(fixes.length, sayLink(link)).toBeGreaterThan(0);
      }
    }
  });
});

const nameOf = ({ code, message }: Finding) => `${code} ${message}`;

const sayLink = ({ from, to }: Link) => `${from.part}.${from.terminal} -> ${to.part}.${to.terminal}`;

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

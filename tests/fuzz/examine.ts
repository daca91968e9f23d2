import type { Analysis } from '../../server/core/analysis.ts';
import { HINT_KINDS } from '../../server/core/features/inlay-hints.ts';
import { createFettle, type Fettle } from '../../server/core/fettle.ts';
import type { Finding } from '../../server/core/findings/rule.ts';
import type { Edit } from '../../server/core/problem.ts';
import { rangeOf } from '../../server/core/syntax/tree.ts';
import { everythingOf } from '../support/everything.ts';
import { worldOf } from '../support/world.ts';
import { must, type TextCase } from './case.ts';
import { type Answer, Clock, MOST_CPU } from './clock.ts';
import { examineLayout } from './examine-layout.ts';
import { examineNames } from './examine-names.ts';

/** Words that are no words, but a value that somebody forgot. */
const LEAKS = /\bundefined\b|\bNaN\b|\[object |\bInfinity\b/;

/**
 * Takes a text through the whole product, as an editor would, and holds it to what must be true of every text whatever:
 * nothing throws, nothing takes long, places lie inside the text, no text is lost, and what was kept from earlier
 * versions makes no difference.
 * @throws Fault, or whatever the product threw
 */
export function examine(one: TextCase): void {
  // Once may be the collector's turn; what takes long takes long again.
  let slowest = examineOnce(one);
  if (slowest.taken > MOST_CPU) slowest = examineOnce(one);
  must(slowest.taken <= MOST_CPU, () => `${slowest.question} took ${Math.round(slowest.taken / 1000)} ms`);
}

/** @returns the answer that took longest */
function examineOnce({ file, versions, others, cursor }: TextCase): Answer {
  const texts = new Map(Object.entries(others));
  const clock = new Clock();
  const fettle = clock.over(createFettle(worldOf(texts)));
  for (const [index, text] of versions.entries()) {
    texts.set(file, text);
    const analysis = fettle.analyse(file, text);
    const isLast = index === versions.length - 1;
    if (!isLast) fettle.findings(analysis);
    else examineVersion(fettle, analysis, texts, Math.round(cursor * text.length));
  }
  if (versions.length > 1) compareWithFresh(fettle, file, texts);
  return clock.slowest;
}

function examineVersion(
  fettle: Fettle,
  analysis: Analysis,
  texts: ReadonlyMap<string, string>,
  offset: number,
): void {
  const { text } = analysis.tree;
  must(
    analysis.tree.blocks.reduce((sum, block) => sum + block.text.length, 0) === text.length,
    () => 'text lost in blocks',
  );
  const findings = fettle.findings(analysis);
  examineFindings(analysis, findings);
  for (const { finding } of fettle.silenced(analysis)) examineFindings(analysis, [finding]);
  for (const value of analysis.values.byAddress.values()) {
    must(Number.isFinite(value.si), () => `${value.address} is ${value.si}`);
    must(!LEAKS.test(value.working), () => `the working of ${value.address} says ${value.working}`);
  }
  examineAt(fettle, analysis, offset);
  for (const { code, fixes } of findings.slice(0, 40))
    for (const fix of (fixes ?? []).slice(0, 2)) {
      must(!LEAKS.test(fix.title), () => `a cure of ${code} is called ${fix.title}`);
      applyEdits(analysis, fix.edits, code);
    }
  const all = applyEdits(analysis, fettle.fixAll(analysis), 'fix all');
  // Nobody asks what the cured text means; it must be read without a fault.
  fettle.findings(fettle.analyse(analysis.file, all));
  const summary = JSON.stringify(fettle.summary(analysis).items);
  must(!/"(?:undefined|NaN)"/.test(summary), () => `the summary says ${LEAKS.exec(summary)?.[0]}`);
  const { changes } = fettle.compareWithTexts(analysis, texts);
  const lists = [
    changes.parts,
    changes.links,
    changes.settings,
    changes.values,
    changes.appeared,
    changes.gone,
    changes.steps,
  ];
  must(
    lists.every(({ length }) => length === 0),
    () => 'a text differs from itself',
  );
  examineLayout(fettle, analysis);
  examineNames(texts, analysis, offset);
}

/** Findings stand inside the text, in its order, and have words. */
function examineFindings({ tree }: Analysis, findings: readonly Finding[]): void {
  let last = 0;
  for (const { code, at, message } of findings) {
    must(message !== '' && !LEAKS.test(message), () => `${code} says: ${message}`);
    const range = rangeOf(tree, at);
    must(range !== undefined, () => `${code} is nowhere`);
    must(
      range.from >= 0 && range.from <= range.to && range.to <= tree.text.length,
      () => `${code} is outside of the text`,
    );
    must(range.from >= last, () => `${code} is out of order`);
    last = range.from;
  }
}

/** What depends on a cursor, and what is drawn all over the text. */
function examineAt(fettle: Fettle, analysis: Analysis, offset: number): void {
  const { text } = analysis.tree;
  const inside = (from: number, to: number, what: string) =>
    must(
      from >= 0 && from <= to && to <= text.length,
      () => `${what} is outside of the text: ${from} to ${to}`,
    );
  const hover = fettle.hover(analysis, offset);
  if (hover) {
    const range = rangeOf(analysis.tree, hover.at);
    inside(range?.from ?? -1, range?.to ?? -1, 'a hover');
    must(!LEAKS.test(hover.markdown), () => `a hover says ${hover.markdown}`);
  }
  for (const { from, to, label, insert } of fettle.completions(analysis, offset)) {
    inside(from, to, `completion ${label}`);
    must(from <= offset && offset <= to, () => `completion ${label} is not at the cursor`);
    must(!LEAKS.test(insert), () => `completion ${label} inserts ${insert}`);
  }
  for (const hint of fettle.inlayHints(analysis, 0, text.length, new Set(HINT_KINDS)))
    inside(hint.offset, hint.offset, `hint ${hint.label}`);
  for (const { from, to } of fettle.lenses(analysis)) inside(from, to, 'a lens');
  for (const { from, to } of fettle.folds(analysis)) inside(from, to, 'a fold');
  for (const { from, to } of fettle.selections(analysis, offset)) inside(from, to, 'a selection');
  for (const { range, nameRange } of fettle.symbols(analysis)) {
    inside(range.from, range.to, 'a symbol');
    must(
      range.from <= nameRange.from && nameRange.to <= range.to,
      () => 'the name of a symbol is outside of it',
    );
  }
  for (const { block, tokens } of fettle.tokens(analysis)) {
    let end = 0;
    for (const token of tokens) {
      must(token.from >= end && token.to <= block.text.length, () => 'tokens overlap');
      end = token.to;
    }
  }
  fettle.refactorings(analysis, offset, Math.min(text.length, offset + 40));
  fettle.followUps(analysis, 0, text.length);
  const tryable = fettle.tryableAt(analysis, offset);
  if (tryable) fettle.whatIf(analysis, []);
  fettle.idAt(analysis, offset);
  fettle.colours(analysis);
  fettle.notComputed(analysis);
}

/** The text after some edits, which lie inside it and do not overlap. */
function applyEdits({ tree }: Analysis, edits: readonly Edit[], what: string): string {
  const placed = edits.map(({ at, text }) => {
    const range = rangeOf(tree, at);
    must(range !== undefined, () => `an edit of ${what} is nowhere`);
    return { ...range, text };
  });
  placed.sort((a, b) => a.from - b.from || a.to - b.to);
  let [result, end] = ['', 0];
  for (const { from, to, text } of placed) {
    must(
      from >= end && from <= to && to <= tree.text.length,
      () => `edits of ${what} overlap or lie outside`,
    );
    result += tree.text.slice(end, from) + text;
    end = to;
  }
  return result + tree.text.slice(end);
}

/** What was kept over the versions makes no difference. */
function compareWithFresh(fettle: Fettle, file: string, texts: ReadonlyMap<string, string>): void {
  const text = texts.get(file) ?? '';
  const names = [...texts.keys()];
  const fresh = createFettle(worldOf(texts));
  const kept = everythingOf(fettle, fettle.analyse(file, text), names);
  for (const [feature, said] of Object.entries(everythingOf(fresh, fresh.analyse(file, text), names)))
    must(kept[feature] === said, () => `${feature}: what was kept is not what is computed anew`);
}

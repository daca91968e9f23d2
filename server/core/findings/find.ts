import type { Analysis } from '../analysis.ts';
import { said } from '../language/say.ts';
import { checkCodes } from '../project/check.ts';
import { type Silenced, settle } from '../silence/settle.ts';
import type { Span } from '../syntax/node.ts';
import { rangeOf } from '../syntax/tree.ts';
import { isBroken } from '../syntax/yaml-block.ts';
import { RULES } from './list.ts';
import { findOnOtherSide } from './other-side.ts';
import type { Finding, Found, Rule } from './rule.ts';

interface Settled {
  readonly shown: readonly Finding[];
  readonly silenced: readonly Silenced[];
}

const kept = new WeakMap<Analysis, Settled>();
const CODES = RULES.map(({ code }) => code);
const OF_SILENCE = RULES.filter(({ code }) => code.startsWith('silence/'));

/** All findings of one analysed text that nobody has silenced, in the order of the text. Computed once for each analysis. */
export function findAll(analysis: Analysis): readonly Finding[] {
  return findBoth(analysis).shown;
}

/** The findings that somebody has silenced, in the order of the text. */
export function findSilenced(analysis: Analysis): readonly Silenced[] {
  return findBoth(analysis).silenced;
}

function findBoth(analysis: Analysis): Settled {
  let found = kept.get(analysis);
  if (!found) {
    const unread = unreadPlaces(analysis);
    const ours = RULES.flatMap((rule) => findBy(rule, analysis, unread));
    const all = inOrder(analysis, [...ours, ...findOnOtherSide(analysis, ours, findAll)]);
    const settled = settle(analysis, all, CODES);
    const { shown, silenced } = settled;
    const problems = analysis.kind === 'project' ? checkCodes(analysis.tree.root, CODES) : settled.problems;
    const judged = { ...analysis, problems };
    const own = problems.length === 0 ? [] : OF_SILENCE.flatMap((rule) => findBy(rule, judged, unread));
    found = { shown: own.length === 0 ? shown : inOrder(analysis, [...shown, ...own]), silenced };
    kept.set(analysis, found);
  }
  return found;
}

function findBy(rule: Rule, analysis: Analysis, unread: readonly Span[]): Finding[] {
  const findings: Finding[] = [];
  for (const found of rule.find(analysis)) {
    if (!rule.code.startsWith('yaml/') && isHeldBack(found.at, unread)) continue;
    findings.push(withWords(rule, found));
  }
  return findings;
}

/** Fixes are looked for only when somebody asks for them, so they are not copied. */
function withWords({ code, severity, title, say }: Rule, found: Found): Finding {
  const { at, data, related = [] } = found;
  return {
    at,
    data,
    related,
    get fixes() {
      return found.fixes ?? [];
    },
    code,
    severity,
    title: said(title),
    message: say(data),
  };
}

/** Codes after which values are missing from their block that the text seems to have. */
const OPEN: ReadonlySet<string> = new Set(['yaml/alias-unresolved', 'yaml/alias-too-large']);

/** The places of which YAML itself could not make sense. */
function unreadPlaces({ problems }: Analysis): Span[] {
  return problems
    .filter(({ code }) => code.startsWith('yaml/'))
    .map(({ code, at }) => (OPEN.has(code) ? { block: at.block, from: 0, to: at.block.text.length } : at));
}

/** Whatever else could be said of a place that is not YAML is a consequence of that. */
function isHeldBack(at: Span, unread: readonly Span[]): boolean {
  return (
    isBroken(at.block) ||
    unread.some((place) => place.block === at.block && place.from <= at.to && place.to >= at.from)
  );
}

function inOrder(analysis: Analysis, findings: readonly Finding[]): Finding[] {
  const placed = findings.map((finding) => ({
    finding,
    from: rangeOf(analysis.tree, finding.at)?.from ?? 0,
  }));
  placed.sort((a, b) => a.from - b.from || (a.finding.code < b.finding.code ? -1 : 1));
  return placed.map(({ finding }) => finding);
}

import type { Analysis } from '../analysis.ts';
import type { Span } from '../syntax/node.ts';
import { rangeOf } from '../syntax/tree.ts';
import { isBroken } from '../syntax/yaml-block.ts';
import { RULES } from './list.ts';
import type { Finding, Found, Rule } from './rule.ts';

const kept = new WeakMap<Analysis, readonly Finding[]>();

/** All findings of one analysed text, in the order of the text. Computed once for each analysis. */
export function findAll(analysis: Analysis): readonly Finding[] {
  let findings = kept.get(analysis);
  if (!findings) {
    const unread = unreadPlaces(analysis);
    findings = inOrder(
      analysis,
      RULES.flatMap((rule) => findBy(rule, analysis, unread)),
    );
    kept.set(analysis, findings);
  }
  return findings;
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
    title,
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

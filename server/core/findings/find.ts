import type { Analysis } from '../analysis.ts';
import type { Span } from '../syntax/node.ts';
import { rangeOf } from '../syntax/tree.ts';
import { isBroken } from '../syntax/yaml-block.ts';
import { RULES } from './list.ts';
import type { Finding, Rule } from './rule.ts';

const kept = new WeakMap<Analysis, readonly Finding[]>();

/** All findings of one analysed text, in the order of the text. Computed once for each analysis. */
export function findAll(analysis: Analysis): readonly Finding[] {
  let findings = kept.get(analysis);
  if (!findings) {
    findings = inOrder(
      analysis,
      RULES.flatMap((rule) => findBy(rule, analysis)),
    );
    kept.set(analysis, findings);
  }
  return findings;
}

function findBy(rule: Rule, analysis: Analysis): Finding[] {
  const findings: Finding[] = [];
  for (const found of rule.find(analysis)) {
    if (isHeldBack(rule, found.at)) continue;
    findings.push({
      ...found,
      code: rule.code,
      severity: rule.severity,
      title: rule.title,
      message: rule.say(found.data),
    });
  }
  return findings;
}

/** While a block is not YAML, whatever else could be said of it is a consequence of that. */
function isHeldBack(rule: Rule, at: Span): boolean {
  return !rule.code.startsWith('yaml/') && isBroken(at.block);
}

function inOrder(analysis: Analysis, findings: readonly Finding[]): Finding[] {
  const placed = findings.map((finding) => ({
    finding,
    from: rangeOf(analysis.tree, finding.at)?.from ?? 0,
  }));
  placed.sort((a, b) => a.from - b.from || (a.finding.code < b.finding.code ? -1 : 1));
  return placed.map(({ finding }) => finding);
}

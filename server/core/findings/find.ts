import type { Analysis } from '../analysis.ts';
import { said } from '../language/say.ts';
import { checkCodes } from '../project/check.ts';
import { fact } from '../reuse/fact.ts';
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
    found = settleAll(analysis);
    kept.set(analysis, found);
  }
  return found;
}

function settleAll(analysis: Analysis): Settled {
  const ours = BY_RULE.flatMap((find) => find(analysis).map((made) => presentIn(analysis, made)));
  const all = inOrder(analysis, [...ours, ...findOnOtherSide(analysis, ours, findAll)]);
  const settled = settle(analysis, all, CODES);
  const { shown, silenced } = settled;
  const problems = analysis.kind === 'project' ? checkCodes(analysis.tree.root, CODES) : settled.problems;
  if (problems.length === 0) return { shown, silenced };
  const judged: Analysis = Object.create(analysis, { problems: { value: problems } });
  const own = OF_SILENCE.flatMap((rule) => findBy(rule, judged).map((made) => presentIn(judged, made)));
  return { shown: inOrder(analysis, [...shown, ...own]), silenced };
}

/** A finding that later versions can take over: it is data alone, and says where its fixes are to be looked for. */
interface Made {
  readonly finding: Omit<Finding, 'fixes'>;
  readonly rule: Rule;
  /** Its place among all that the rule found. */
  readonly place: number;
}

/** What each rule finds, which is taken over from version to version while what the rule read is the same. */
const BY_RULE = RULES.map((rule) => fact('analysis', (analysis: Analysis) => findBy(rule, analysis)));

function findBy(rule: Rule, analysis: Analysis): Made[] {
  const all = foundBy(rule, analysis);
  if (all.length === 0) return [];
  const unread = unreadPlaces(analysis);
  return all.flatMap((found, place): Made[] => {
    if (!rule.code.startsWith('yaml/') && isHeldBack(found.at, unread)) return [];
    return [{ finding: withWords(rule, found), rule, place }];
  });
}

const byAnalysis = new WeakMap<Analysis, Map<Rule, readonly Found[]>>();

/** All that a rule finds in one version, with its fixes, which refer to that version and go with it. */
function foundBy(rule: Rule, analysis: Analysis): readonly Found[] {
  const byRule = byAnalysis.get(analysis) ?? new Map<Rule, readonly Found[]>();
  byAnalysis.set(analysis, byRule);
  const found = byRule.get(rule) ?? [...rule.find(analysis)];
  byRule.set(rule, found);
  return found;
}

/**
 * A finding as one of this version. It says the same at the same place as when it was made; but a fix may stand at the
 * end of a list that has grown since, so fixes are looked for anew when somebody asks for them.
 */
function presentIn(analysis: Analysis, { finding, rule, place }: Made): Finding {
  return {
    ...finding,
    get fixes() {
      return foundBy(rule, analysis)[place]?.fixes ?? [];
    },
  };
}

function withWords({ code, severity, title, say }: Rule, { at, data, related = [] }: Found): Made['finding'] {
  return { at, data, related, code, severity, title: said(title), message: say(data) };
}

/** Codes after which values are missing from their block that the text seems to have. */
const OPEN: ReadonlySet<string> = new Set(['yaml/alias-unresolved', 'yaml/alias-too-large']);

/** The places of which YAML itself could not make sense. */
const unreadPlaces = fact('analysis', ({ problems }: Analysis): readonly Span[] =>
  problems
    .filter(({ code }) => code.startsWith('yaml/'))
    .map(({ code, at }) => (OPEN.has(code) ? { block: at.block, from: 0, to: at.block.text.length } : at)),
);

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

import type { Analysis } from '../analysis.ts';
import type { Finding, Severity } from '../findings/rule.ts';
import { say } from '../language/say.ts';
import { nearestName } from '../nearest.ts';
import type { Fix, Problem } from '../problem.ts';
import { sayOf } from '../project/project.ts';
import { rangeOf } from '../syntax/tree.ts';
import { type Directive, lineMeant, readDirectives, VERBS, type Word } from './directives.ts';
import { removeDirective, removeWord } from './remove.ts';

/** A finding that somebody has silenced, and where and why they did. It is still told in the summary. */
export interface Silenced {
  readonly finding: Finding;
  readonly by: 'line' | 'file' | 'project';
  readonly reason: string;
}

/** What is left of the findings once everything that was silenced is set apart. */
export interface Settled {
  readonly shown: readonly Finding[];
  readonly silenced: readonly Silenced[];
  /** Silences that do nothing, or that cannot be understood. */
  readonly problems: readonly Problem[];
}

/** YAML that cannot be read is no matter of opinion, and a silence is not to be silenced. */
export function canBeSilenced(code: string): boolean {
  return !code.startsWith('yaml/') && !code.startsWith('silence/');
}

/** Sets apart what comments silence. @param codes every code that a finding may have */
export function settle(analysis: Analysis, findings: readonly Finding[], codes: readonly string[]): Settled {
  const directives = readDirectives(analysis.tree);
  const { project } = analysis;
  if (directives.length === 0 && project.file === undefined)
    return { shown: findings, silenced: [], problems: [] };
  const shown: Finding[] = [];
  const silenced: Silenced[] = [];
  const used = new Set<Word>();
  // What is said of one line comes before what is said of the whole file, with its reason.
  const asked = directives
    .filter(({ verb }) => isVerb(verb.text))
    .sort((a, b) => Number(isForFile(a)) - Number(isForFile(b)))
    .map((directive) => ({ directive, line: lineOf(analysis, directive) }));
  for (const finding of findings) {
    const from = rangeOf(analysis.tree, finding.at)?.from ?? -1;
    const [first, ...others] = asked.flatMap(({ directive, line }) => {
      const word = directive.codes.find(({ text }) => text === finding.code);
      return word && line.from <= from && from <= line.to ? [{ directive, word }] : [];
    });
    const reasonOfProject = sayOf(project.silences, finding.code);
    if (!canBeSilenced(finding.code)) shown.push(finding);
    else if (first) {
      for (const { word } of [first, ...others]) used.add(word);
      const { reason } = first.directive;
      silenced.push({ finding, by: isForFile(first.directive) ? 'file' : 'line', reason });
    } else if (reasonOfProject !== undefined)
      silenced.push({ finding, by: 'project', reason: reasonOfProject });
    else shown.push(weighed(finding, sayOf(project.severities, finding.code)));
  }
  const problems = directives.flatMap((directive) => judge(analysis, directive, used, codes));
  return { shown, silenced, problems };
}

/** A finding that matters more or less in a project. Its fixes stay unread until somebody asks for them. */
function weighed(finding: Finding, severity: Severity | undefined): Finding {
  return severity === undefined || severity === finding.severity
    ? finding
    : Object.create(finding, { severity: { value: severity, enumerable: true } });
}

const isVerb = (text: string) => VERBS.some((verb) => verb === text);

function lineOf(analysis: Analysis, directive: Directive): { from: number; to: number } {
  if (directive.verb.text === 'silence-file') return { from: 0, to: analysis.tree.text.length };
  return lineMeant(analysis.tree, directive) ?? { from: -2, to: -2 };
}

function judge(
  analysis: Analysis,
  directive: Directive,
  used: ReadonlySet<Word>,
  codes: readonly string[],
): Problem[] {
  if (!isVerb(directive.verb.text)) return [misspelt(directive.verb, VERBS, 'verb')];
  if (directive.codes.length === 0) {
    const data = { typed: '', nearest: '', what: 'nothing' };
    return [
      {
        code: 'silence/unknown-code',
        at: directive.at,
        data,
        fixes: fixesOf(removeDirective(analysis.tree, directive)),
      },
    ];
  }
  // While the text cannot be read, nothing can be said of what it would lead to.
  const isUnclear =
    analysis.wants.length > 0 || analysis.problems.some(({ code }) => code.startsWith('yaml/'));
  return directive.codes.flatMap((word): Problem[] => {
    if (!codes.includes(word.text)) return [misspelt(word, codes, 'code')];
    if (!canBeSilenced(word.text))
      return [
        {
          code: 'silence/unknown-code',
          at: word.at,
          data: { typed: word.text, nearest: '', what: 'fixed' },
          fixes: fixesOf(removeWord(analysis.tree, directive, word)),
        },
      ];
    if (used.has(word) || isUnclear) return [];
    const scope = directive.verb.text === 'silence' ? 'line' : 'file';
    return [
      {
        code: 'silence/unused',
        at: word.at,
        data: { silenced: word.text, scope },
        fixes: fixesOf(removeWord(analysis.tree, directive, word)),
      },
    ];
  });
}

function fixesOf(edit: Fix['edits'][number] | undefined): Fix[] {
  return edit ? [{ title: say`Remove it`, edits: [edit], safe: true }] : [];
}

function misspelt({ text, at }: Word, known: readonly string[], what: 'verb' | 'code'): Problem {
  const nearest = nearestName(text, known.filter(canBeSilenced)) ?? nearestByName(text, known) ?? '';
  const fixes =
    nearest === '' ? [] : [{ title: say`Change to ${nearest}`, edits: [{ at, text: nearest }], safe: false }];
  return { code: 'silence/unknown-code', at, data: { typed: text, nearest, what }, fixes };
}

/** A code in another family: `power/drop` for `wire/drop`. */
function nearestByName(typed: string, known: readonly string[]): string | undefined {
  const name = typed.slice(typed.indexOf('/') + 1);
  return known.find((code) => code.slice(code.indexOf('/') + 1) === name && canBeSilenced(code));
}

const isForFile = ({ verb }: Directive) => verb.text === 'silence-file';

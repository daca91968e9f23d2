import type { Analysis, MachineAnalysis } from '../../server/core/analysis.ts';
import { titleOf } from '../../server/core/features/markdown.ts';
import type { Derived } from '../../server/core/values/derived.ts';

/** One kind of value, with everything that was said of its kind. */
export interface ValueEntry {
  /** With `AX`, `PART` and the like in place of names. */
  readonly address: string;
  readonly title: string;
  readonly unit: string;
  /** In words, the most usual first. */
  readonly formulas: readonly string[];
  readonly sources: readonly string[];
  /** What names itself as the limit. */
  readonly limits: readonly string[];
  /** A formula with figures. */
  readonly working: string;
}

/** What is lacking for a kind of value. */
export interface Lack {
  readonly address: string;
  readonly needs: string;
}

interface Gathered {
  readonly title: string;
  readonly units: Set<string>;
  readonly formulas: Map<string, number>;
  readonly sources: Set<string>;
  readonly limits: Set<string>;
  working: string;
}

/** Titles of values whose address holds two names. */
const TITLES: Readonly<Record<string, string>> = {
  'circuits.PART.CIRCUIT.rest': 'What an input sees at rest',
  'circuits.PART.CIRCUIT.operated': 'What an input sees operated',
  'circuits.PART.CIRCUIT.margin': 'Distance of what an input sees to its nearest threshold',
  'circuits.PART.CIRCUIT.broken-wire': 'What an input sees when a wire breaks',
  'settings.PART.SETTING.now': 'What a setting stands at',
  'settings.PART.SETTING.wanted': 'What the definition wants of a setting',
};

/** How many ways to come about are shown of one value. */
const MOST_FORMULAS = 4;

/** Gathers the values of some machines by their kind, in the order in which they are computed. */
export function collectValues(analyses: readonly Analysis[]): {
  readonly values: readonly ValueEntry[];
  readonly lacks: readonly Lack[];
} {
  const gathered = new Map<string, Gathered>();
  const lacks = new Map<string, Lack>();
  for (const analysis of analyses) {
    if (analysis.kind !== 'machine') continue;
    const plain = namesTakenOut(analysis);
    // A part may be called by a word that texts use as well, such as `source`.
    const inText = namesTakenOut(analysis, true);
    for (const value of analysis.values.byAddress.values()) gather(gathered, value, plain, inText);
    for (const { address, needs, moot } of analysis.values.missing.values()) {
      const lack = { address: kindOf(address), needs: plain(needs) };
      if (!moot) lacks.set(`${lack.address} ${lack.needs}`, lack);
    }
  }
  return { values: [...gathered].map(makeEntry), lacks: [...lacks.values()] };
}

function gather(
  gathered: Map<string, Gathered>,
  value: Derived,
  plain: (text: string) => string,
  inText: (text: string) => string,
): void {
  const kind = kindOf(value.address);
  const known = gathered.get(kind) ?? {
    title: TITLES[kind] ?? capital(titleOf(kind).replace(/ of (?:AX|PART|WIRE)\b/, '')),
    units: new Set(),
    formulas: new Map(),
    sources: new Set(),
    limits: new Set(),
    working: '',
  };
  gathered.set(kind, known);
  const formula = shorten(plain(value.formula));
  known.units.add(value.unit);
  known.formulas.set(formula, (known.formulas.get(formula) ?? 0) + 1);
  known.sources.add(withoutFigures(inText(value.source)));
  if (value.limit !== undefined) known.limits.add(plain(value.limit));
  // A working that is an equation says more than a figure that was taken over.
  if (known.working === '' || (!known.working.includes('=') && value.working.includes('=')))
    known.working = value.working.length < MOST_WORKING ? value.working : known.working;
}

const MOST_WORKING = 160;

function makeEntry([address, { title, units, formulas, sources, limits, working }]: [
  string,
  Gathered,
]): ValueEntry {
  const usual = [...formulas].sort((a, b) => b[1] - a[1]).map(([formula]) => formula);
  return {
    address,
    title,
    unit: address.startsWith('settings.') ? 'the unit of the setting' : [...units].sort().join(' or '),
    formulas: usual.slice(0, MOST_FORMULAS),
    sources: [...sources].slice(0, MOST_FORMULAS),
    limits: [...limits].sort(),
    working,
  };
}

/** An address without the names of one machine. */
function kindOf(address: string): string {
  const [section, owner, ...rest] = address.split('.');
  if (section === 'axes') return ['axes', 'AX', ...rest].join('.');
  if (section === 'parts') return ['parts', 'PART', ...rest].join('.');
  if (section === 'wires') return ['wires', 'WIRE', ...rest.slice(-1)].join('.');
  if (section === 'circuits') return ['circuits', 'PART', 'CIRCUIT', ...rest.slice(1)].join('.');
  if (section === 'settings') return ['settings', 'PART', 'SETTING', ...rest.slice(-1)].join('.');
  if (section === 'records') return ['records', 'N', ...rest].join('.');
  return [section, owner, ...rest].join('.');
}

/** Puts what a part is in place of its name, and `the axis` in place of its letter. */
function namesTakenOut({ machine }: MachineAnalysis, isWholeText = false): (text: string) => string {
  const names = [...machine.parts.values()]
    .filter(({ name }) => !isWholeText || name.includes('-'))
    .map((part) => [part.name, part.sheet?.partClass ?? 'part'] as const)
    .sort((a, b) => b[0].length - a[0].length);
  const settings = new Set(
    [...machine.parts.values()].flatMap(({ sheet }) => [...(sheet?.settings.keys() ?? [])]),
  );
  return (text) => {
    let plain = text.replace(/\bdrop in (?:wire )?\S+/g, 'drop in a wire');
    for (const [name, partClass] of names)
      plain = plain.replaceAll(wordOf(name), `the ${partClass.replace('-', ' ')}`);
    for (const name of settings) if (plain === name) plain = 'the setting';
    return plain
      .replace(/\b(of|on) [XYZABCUVW]\b/g, '$1 the axis')
      .replace(/(the [a-z ]+)\.[\w+-]+/g, '$1')
      .replace(/\b(?:[\d.]+ mm2|\d+ AWG)/g, 'its size')
      .replace(/factor for \d+/g, 'factor for some')
      .replace(/\bwire [A-Z0-9][\w-]*/g, 'a wire');
  };
}

/** Sources that name figures of one machine, such as what would bind next. */
function withoutFigures(source: string): string {
  return source.replace(/\d[\d.]* (?:mm\/min|rpm)/g, '…').replace(/the worst of \d+/, 'the worst of them');
}

const wordOf = (name: string) =>
  new RegExp(`(?<![\\w-])${name.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')}(?![\\w-])`, 'g');

/** A sum of many alike is shown as two of them. */
function shorten(formula: string): string {
  return formula.replace(/([^()+]+?)(?: \+ \1)+(?= \+|\)|$)/g, '$1 + …');
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

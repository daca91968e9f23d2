import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';

interface Rule {
  readonly include?: string;
  readonly match?: string;
  readonly begin?: string;
  readonly end?: string;
  readonly name?: string;
  readonly captures?: Readonly<Record<string, { readonly name: string }>>;
  readonly patterns?: readonly Rule[];
}

const file = path.resolve(import.meta.dirname, '../../client/grammar/fettle.tmLanguage.json');
const grammar: { patterns: Rule[]; repository: Record<string, Rule> } = JSON.parse(
  fs.readFileSync(file, 'utf8'),
);

/**
 * The words of one line with the last part of their scope but one, by the rules of TextMate: the leftmost match wins,
 * and of several there the first rule. Only what stands on one line is tried.
 */
function scopesOf(line: string): readonly string[] {
  const rules = flatten(grammar.patterns);
  const words: string[] = [];
  for (let at = 0; at < line.length; ) {
    const matches = rules.flatMap((rule) => {
      const inner = [...(rule.patterns ?? []).map(({ match }) => match), '.'].join('|');
      const pattern = rule.match ?? `${rule.begin}(?:${inner})*?(?:${rule.end})`;
      const match = new RegExp(pattern, 'dg');
      match.lastIndex = at;
      const found = match.exec(line);
      return found && found[0] !== '' ? [{ rule, found }] : [];
    });
    const [first] = matches.sort((a, b) => a.found.index - b.found.index);
    if (!first) break;
    const { rule, found } = first;
    const captures = Object.entries(rule.captures ?? {});
    if (rule.name) words.push(say(found[0], rule.name));
    for (const [group, { name }] of captures) {
      const text = found[Number(group)];
      if (text) words.push(say(text, name));
    }
    at = found.index + found[0].length;
  }
  return words.filter((word) => !word.startsWith('punctuation'));
}

function flatten(rules: readonly Rule[]): readonly Rule[] {
  return rules.flatMap((rule): readonly Rule[] => {
    const included = rule.include && grammar.repository[rule.include.slice(1)];
    if (included) return flatten([included]);
    if (rule.match || (rule.begin && rule.end)) return [rule];
    return flatten(rule.begin ? [] : (rule.patterns ?? []));
  });
}

function say(text: string, scope: string): string {
  return `${scope.replace(/\.fettle$/, '')} ${text.trim()}`;
}

describe('the grammar', () => {
  it.each([
    ['machine: Half-hull router', ['entity.name.type.section machine']],
    ['  Y:', ['entity.name.tag Y']],
    [
      '  P24: { choices: [off, on], yes: no }',
      ['entity.name.tag P24', 'entity.name.tag choices', 'entity.name.tag yes'],
    ],
    [
      '    travel: 640 mm # far',
      [
        'entity.name.tag travel',
        'constant.numeric 640',
        'keyword.other.unit mm',
        'comment.line.number-sign # far',
      ],
    ],
    [
      '    voltage: 18..32 V',
      [
        'entity.name.tag voltage',
        'constant.numeric 18',
        'keyword.operator.span ..',
        'constant.numeric 32',
        'keyword.other.unit V',
      ],
    ],
    [
      '    acceleration: 400 mm/s2',
      ['entity.name.tag acceleration', 'constant.numeric 400', 'keyword.other.unit mm/s2'],
    ],
    [
      'set: { P21: 320 /mm }',
      [
        'entity.name.type.section set',
        'entity.name.tag P21',
        'constant.numeric 320',
        'keyword.other.unit /mm',
      ],
    ],
    [
      '    gearing: 1:1',
      ['entity.name.tag gearing', 'constant.numeric 1', 'keyword.operator.ratio :', 'constant.numeric 1'],
    ],
    [
      '  - logic-psu.V+ -> panel.DC+',
      [
        'variable.other.part logic-psu',
        'variable.other.property.terminal V+',
        'keyword.operator.link ->',
        'variable.other.part panel',
        'variable.other.property.terminal DC+',
      ],
    ],
    [
      '  - drive-x.A- -> motor-x.A-  BU',
      [
        'variable.other.part drive-x',
        'variable.other.property.terminal A-',
        'keyword.operator.link ->',
        'variable.other.part motor-x',
        'variable.other.property.terminal A-',
        'constant.other.colour BU',
      ],
    ],
    [
      '    wire: 4 x 0.75 mm2 screened',
      [
        'entity.name.tag wire',
        'constant.numeric 4',
        'keyword.operator.times x',
        'constant.numeric 0.75',
        'keyword.other.unit mm2',
      ],
    ],
    [
      '  wire: 0.25 mm2 GNYE',
      [
        'entity.name.tag wire',
        'constant.numeric 0.25',
        'keyword.other.unit mm2',
        'constant.other.colour GNYE',
      ],
    ],
    [
      '  panel: { sheet: sheets/four-axis-panel.part.yaml }',
      [
        'entity.name.tag panel',
        'entity.name.tag sheet',
        'string.unquoted.sheet sheets/four-axis-panel.part.yaml',
      ],
    ],
    [
      '  psu: { sheet: generic/supply-24v }',
      ['entity.name.tag psu', 'entity.name.tag sheet', 'string.unquoted.sheet generic/supply-24v'],
    ],
    [
      '  - { date: 2026-03-02, axis: X }',
      ['entity.name.tag date', 'constant.numeric.date 2026-03-02', 'entity.name.tag axis'],
    ],
    ['  axes: [5V, XP, XD]', ['entity.name.tag axes']],
    [
      `  about: 'it''s # no comment' # one`,
      [
        'entity.name.tag about',
        `string.quoted.single 'it''s # no comment'`,
        'comment.line.number-sign # one',
      ],
    ],
    ['  label: W#14', ['entity.name.tag label']],
  ])('reads %s', (line, wanted) => {
    expect(scopesOf(line)).toEqual(wanted);
  });

  it('knows no booleans, since axis Y and the choices on and no are words', () => {
    expect(fs.readFileSync(file, 'utf8')).not.toMatch(/language\.boolean|constant\.language/);
  });

  it('ends a block of text where its indentation ends', () => {
    const { begin, while: during } = grammar.repository['block-text'] as Rule & { while: string };
    const head = new RegExp(begin ?? '').exec('  about: |');
    expect(head?.[1]).toBe('  ');
    const inside = new RegExp(during.replace('\\1', head?.[1] ?? ''));
    expect([inside.test('    24 V -> here'), inside.test(''), inside.test('  next: 1')]).toEqual([
      true,
      true,
      false,
    ]);
  });
});

import fc from 'fast-check';
import { randomFrom } from '../support/random.ts';
import type { TextCase } from './case.ts';
import { examine } from './examine.ts';
import { definitions } from './grammar.ts';
import type { Target } from './target.ts';
import { writeYaml } from './write-yaml.ts';

const SHEET =
  'part: Own\nclass: drive\nterminals: { a: [V+, V-, PUL-] }\ncircuits: { x: { power-in: [V+, V-] } }\n';

/** Pieces of YAML put together without any grammar but its own. */
const pieces = fc
  .array(
    fc.tuple(
      fc.constantFrom('', '  ', '    ', '\t', '      '),
      fc.constantFrom(
        '',
        '- ',
        '? ',
        ': ',
        '- - ',
        '&a ',
        '*a ',
        '!!map ',
        '<<: ',
        '| ',
        '>- ',
        '"',
        '{ ',
        '[ ',
        '# ',
      ),
      fc.constantFrom(
        'parts',
        'a',
        'wiring',
        'axes',
        '*a',
        'x: y',
        'a.b -> c.d',
        '1 mm',
        '{ b: 1 }',
        '[ 1, 2 ]',
        '"x',
        '',
      ),
      fc.constantFrom(':', ': ', '', ' }', ' ]', '"', ' &b', ' # c', ','),
    ),
    { maxLength: 25 },
  )
  .map((lines) => ({ file: 'a.machine.yaml', text: lines.map((line) => line.join('')).join('\n') }));

const byGrammar = fc
  .tuple(definitions, fc.integer())
  .map(([{ file, value }, seed]) => ({ file, text: writeYaml(value, randomFrom(seed)) }));

/** YAML of all forms: by the format's own grammar, with what nearly fits, and by YAML's alone. */
export const structureTarget: Target<TextCase> = {
  name: 'structure',
  about: 'YAML by the grammar of the format, with keys, units and names that nearly fit, and YAML without it',
  share: 14,
  cases: fc
    .tuple(
      fc.oneof({ weight: 4, arbitrary: byGrammar }, { weight: 1, arbitrary: pieces }),
      fc.double({ min: 0, max: 1, noNaN: true }),
    )
    .map(([{ file, text }, cursor]) => ({
      file,
      versions: [text],
      others: { 'own.part.yaml': SHEET },
      cursor,
    })),
  check: examine,
  store: (one) => one,
  replay: (stored) => examine(stored as TextCase),
};

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { CIRCUIT_KINDS, MEANINGS } from '../../../schemas/index.ts';
import { checkShape } from '../../../server/core/shape/check.ts';
import { fieldsOf } from '../../../server/core/shape/fields.ts';
import { machineShape, sheetShape } from '../../../server/core/shape/shapes.ts';
import type { Block, Node, Scalar } from '../../../server/core/syntax/node.ts';
import { readTree } from '../../../server/core/syntax/tree.ts';

const block: Block = { text: '' };
const place = { block, from: 0, to: 0 };

const word = fc.oneof(
  fc.constantFrom(
    ...[
      ...machineShape.keys.keys(),
      ...sheetShape.keys.keys(),
      ...CIRCUIT_KINDS.keys(),
      ...Object.keys(MEANINGS),
    ],
    ...[
      'X',
      'A',
      'travel',
      'screw',
      'link',
      'links',
      'cable',
      'does',
      'drop',
      '__proto__',
      'constructor',
      '~',
      '',
    ],
  ),
  fc.constantFrom(
    '5 mm',
    '5',
    '1,5 mm',
    '18..32 V',
    '32..18 V',
    '3:1',
    '4 x 0.75 mm2',
    'a.b -> c.d',
    '230 V 50 Hz',
    'pulse X',
  ),
  fc.string({ unit: 'binary', maxLength: 12 }),
);

const scalar = word.map((text): Scalar => ({ ...place, kind: 'scalar', text, style: 'plain', textFrom: 0 }));

const { node } = fc.letrec<{ node: Node; map: Node; list: Node }>((tie) => ({
  node: fc.oneof({ maxDepth: 6, depthSize: 'small' }, scalar, tie('map'), tie('list')),
  map: fc
    .uniqueArray(fc.record({ key: scalar, value: fc.option(tie('node'), { nil: undefined }) }), {
      maxLength: 6,
      selector: (pair) => pair.key.text,
    })
    .map((pairs): Node => ({ ...place, kind: 'map', pairs, flow: true })),
  list: fc
    .array(fc.option(tie('node'), { nil: undefined }), { maxLength: 4 })
    .map((items): Node => ({ ...place, kind: 'list', items, flow: true })),
}));

const CODE = /^(?:shape|unit)\/[a-z-]+$/;

test('any tree is checked and read without a throw', () => {
  fc.assert(
    fc.property(node, (root) => {
      for (const shape of [machineShape, sheetShape]) {
        for (const problem of checkShape(root, shape)) expect(problem.code).toMatch(CODE);
        const fields = fieldsOf(root, shape);
        for (const key of shape.keys.keys()) {
          fields.text(key);
          for (const entry of fields.child(key).entries()) entry.fields.quantity('travel');
        }
      }
    }),
    { numRuns: 2000, seed: 7 },
  );
});

test('any text is checked without a throw', () => {
  fc.assert(
    fc.property(
      fc.array(
        fc.tuple(
          fc.constantFrom('', '  ', '    ', '- '),
          word,
          fc.constantFrom(':', ': ', ': { ', ' }', ', ', ''),
          word,
        ),
      ),
      (parts) => {
        const text = parts.map((part) => part.join('')).join('\n');
        for (const shape of [machineShape, sheetShape]) checkShape(readTree(text).root, shape);
      },
    ),
    { numRuns: 500, seed: 7 },
  );
});

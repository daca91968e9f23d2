import { expect, test } from 'vitest';
import { analyseTexts, applyFix } from '../support/marked.ts';

const sheets = new Map([
  [
    'panel.part.yaml',
    `part: Panel
class: controller
settings:
  P21: { is: pulses-per-length, axis: X, unit: /mm, decimals: 3, span: 1..20000 /mm }
  P22: { is: pulses-per-length, axis: Y, unit: /mm, decimals: 3, span: 1..20000 /mm }
  P25: { is: travel, axis: X, unit: mm, decimals: 0, span: 1..9999 mm, default: 300 mm }
  P26: { is: acceleration, axis: X, unit: mm/s2, decimals: 0, span: 1..9999 mm/s2, default: 100 mm/s2 }
`,
  ],
]);

const machine = (set: string) => `machine: Toy mill
parts:
  panel: { sheet: panel.part.yaml${set} }   # card 2
  drive-x: { sheet: generic/microstep-drive-50v, set: { microsteps: 16 } }
  drive-y: { sheet: generic/microstep-drive-50v, set: { microsteps: 16 } }
  motor-x: { sheet: generic/stepper-57mm-2nm }
  motor-y: { sheet: generic/stepper-57mm-2nm }
axes:
  X: { drive: drive-x, motor: motor-x, screw: { lead: 5 mm }, travel: 640 mm, acceleration: 400 mm/s2 }
  Y: { drive: drive-y, motor: motor-y, screw: { lead: 10 mm } }
`;

function following(text: string) {
  const { analysis, findings } = analyseTexts(new Map([['mill.machine.yaml', text], ...sheets]));
  return { analysis, findings: findings.filter(({ code }) => code.startsWith('setting/')) };
}

const FOUR = ', set: { P21: 320.000 /mm, P22: 160.000 /mm }';

test.each(['\n', '\r\n'])('every setting that follows is updated by one action, with line ends %j', (end) => {
  const { analysis, findings } = following(machine(FOUR).replaceAll('\n', end));
  expect(findings.map(({ code }) => code)).toEqual([
    'setting/left-at-default',
    'setting/left-at-default',
    'setting/differs',
    'setting/differs',
  ]);
  for (const { fixes } of findings) {
    const [own, all] = fixes ?? [];
    expect(own?.title).toMatch(/^Set P2\d of panel to/);
    expect(all?.title).toBe('Update all 4 settings that follow');
    const text = all && applyFix(analysis, all);
    expect(text).toMatch(/P21: 640\.000 \/mm, P22: 320\.000 \/mm.*\}.*# card 2/);
    expect(following(text ?? '').findings).toEqual([]);
  }
});

test('a part without settings gets them all in one entry', () => {
  const { analysis, findings } = following(machine(''));
  expect(findings.map(({ code }) => code)).toEqual([
    'setting/left-at-default',
    'setting/left-at-default',
    'setting/not-written', // two scales, which have no value as delivered
  ]);
  const all = findings[0]?.fixes?.[1];
  expect(all && applyFix(analysis, all)).toContain(
    'panel: { sheet: panel.part.yaml, set: { P25: 640 mm, P26: 400 mm/s2 } }   # card 2',
  );
});

test('one setting alone has one fix', () => {
  const { findings } = following(
    machine(', set: { P21: 320.000 /mm, P22: 320.000 /mm, P25: 640 mm, P26: 400 mm/s2 }'),
  );
  expect(findings.map(({ fixes }) => fixes?.length)).toEqual([1]);
});

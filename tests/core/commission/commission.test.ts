import { describe, expect, test } from 'vitest';
import { analyse, type MachineAnalysis } from '../../../server/core/analysis.ts';
import { listSteps } from '../../../server/core/commission/commission.ts';
import { listTriedSteps } from '../../../server/core/commission/results.ts';
import { STAGES } from '../../../server/core/commission/step.ts';
import { complete } from '../../../server/core/features/completion.ts';
import { createTrees } from '../../../server/core/model/trees.ts';
import { listRefactorings } from '../../../server/core/refactor/list.ts';
import { makeMachine, readPanelSheet } from '../../bench/machines.ts';
import { readExample } from '../../support/example.ts';
import { applyFix } from '../../support/marked.ts';
import { worldOf } from '../../support/world.ts';
import { AXIS, smallMachine } from '../values/small-machine.ts';

function read(text: string): MachineAnalysis {
  const file = 'router.machine.yaml';
  const files = new Map([
    [file, text],
    ['sheets/four-axis-bench-panel.part.yaml', readPanelSheet()],
  ]);
  const analysis = analyse(file, text, worldOf(files), createTrees());
  if (analysis.kind !== 'machine') throw new Error('not a machine');
  return analysis;
}
const stepOf = (text: string, id: string) => {
  const step = listTriedSteps(read(text)).find((each) => each.id === id);
  if (!step) throw new Error(`there is no step ${id}`);
  return step;
};
const record = (line: string) => readExample().replace('\nrecords:\n', `\nrecords:\n  - ${line}\n`);

describe.each([
  ['the example', readExample()],
  ['a larger machine', makeMachine(900)],
  ['a small machine', smallMachine({ two: true })],
  ['nothing', 'machine: Empty\n'],
])('the order of the steps of %s', (_, text) => {
  const analysis = read(text);
  const steps = listSteps(analysis);

  test('no two steps have one name, and each comes after those that it depends on', () => {
    const before = new Set<string>();
    for (const { id, after } of steps) {
      expect(before.has(id), id).toBe(false);
      for (const needed of after) expect(before.has(needed), `${id} after ${needed}`).toBe(true);
      before.add(id);
    }
    const places = steps.map(({ stage }) => STAGES.indexOf(stage));
    expect(places).toEqual(places.toSorted((a, b) => a - b));
  });

  test('terminals and settings are those of the machine', () => {
    for (const { id, terminals, settings } of steps) {
      for (const terminal of terminals) {
        const [part = '', name = ''] = terminal.split(/\.(.*)/);
        const known = part === 'mains' || analysis.machine.parts.get(part)?.sheet?.terminals.has(name);
        expect(known, `${id}: ${terminal}`).toBe(true);
      }
      for (const setting of settings) {
        const [part = '', name = ''] = setting.split(/\.(.*)/);
        expect(analysis.machine.parts.get(part)?.sheet?.settings.has(name), `${id}: ${setting}`).toBe(true);
      }
    }
  });
});

test('an emergency stop is measured at what it cuts and at what is behind that, not at what it tells', () => {
  const { terminals, expected, cautions } = stepOf(readExample(), 'stop:stop-button');
  expect(terminals).toEqual(expect.arrayContaining(['contactor.A1', 'contactor.A2', 'motor-psu.L']));
  expect(terminals).not.toContain('panel.I13');
  expect(expected.map(({ when }) => when)).toEqual(
    expect.arrayContaining(['pressed, contactor.coil', 'pressed, motor-psu.mains', 'released']),
  );
  expect(cautions.join(' ')).toMatch(/welded leaves the mains/);
});

test('the example is brought up from the plug to the spindle', () => {
  const ids = listSteps(read(readExample())).map(({ id }) => id);
  const wanted = [
    'isolate',
    'earth:frame.PE',
    'supply:motor-psu',
    'load:drive-x',
    'stop:stop-button',
    'input:panel.I1',
    'settings:panel',
    'direction:X',
    'limits:X',
    'scale:X',
    'homing:Z',
    'homing:X',
    'handwheel',
    'spindle-signal',
    'spindle-stop',
  ];
  expect(ids.filter((id) => wanted.includes(id))).toEqual(wanted);
});

describe('figures', () => {
  test('a supply is expected at what it is trimmed to, a load at what reaches it', () => {
    expect(stepOf(readExample(), 'supply:motor-psu').expected[0]).toMatchObject({ shown: '44.0 V' });
    expect(stepOf(readExample(), 'load:panel').expected[0]).toMatchObject({
      shown: '24 V',
      tolerance: 'within 20..30 V, by its sheet',
    });
  });

  test('a current is not measured across an input, where a meter would join its two sides', () => {
    const text = `machine: Bench
parts:
  panel: { sheet: generic/controller-4-axis-isolated, set: { x-home-use: on } }
  home-x: { sheet: generic/inductive-pnp-nc }
  psu: { sheet: generic/supply-24v }
wiring:
  - psu.V+ -> panel.DC+, home-x.BN
  - psu.V- -> panel.DC-, home-x.BU, panel.3-
  - home-x.BK -> panel.3+
`;
    expect(stepOf(text, 'input:panel.3+').act).toContain('never from one terminal to the other');
    expect(stepOf(readExample(), 'input:panel.I1').act).toMatch(/^Measure at the input/);
  });

  test('an input is expected as it was solved, with its thresholds', () => {
    expect(stepOf(readExample(), 'input:panel.I1').expected.slice(0, 2)).toEqual([
      { when: 'at rest', shown: '24 V (on, does not act)', tolerance: 'on above 14 V, off below 6 V' },
      { when: 'operated', shown: '0 V (off, acts)', tolerance: 'on above 14 V, off below 6 V' },
    ]);
  });

  // Arithmetic: 10 V for 24,000 rpm over 0..10 V; 8,000 rpm is a third of it, 16,000 rpm two thirds.
  test('the speed signal is expected in proportion', () => {
    expect(
      stepOf(readExample(), 'spindle-signal').expected.map(({ when, shown }) => `${when}: ${shown}`),
    ).toEqual(['8000 rpm: 3.33 V', '16000 rpm: 6.67 V', '24000 rpm: 10 V']);
  });

  // 600 mm of travel: four fifths are 480 mm, of which 300 mm is the next round move; a twentieth is 30 mm, above 10 mm.
  test('moves are round, keep clear of the ends, and start small and slow', () => {
    const text = smallMachine();
    expect(stepOf(text, 'scale:X').act).toContain('Move X by 300 mm');
    expect(stepOf(text, 'direction:X').act).toContain('move X by +10 mm at 500 mm/min');
  });

  test('in inches the moves are in inches', () => {
    const text = smallMachine({ axis: AXIS.replace('600 mm', '24 in').replace('6000 mm/min', '200 in/min') });
    expect(stepOf(text, 'scale:X').act).toContain('Move X by 10 in');
  });

  test('what stands upright is homed first, and its drop is warned of', () => {
    expect(stepOf(readExample(), 'direction:Z').cautions[0]).toMatch(/may drop/);
    expect(stepOf(readExample(), 'homing:X').cautions).toEqual(['Z is up before X travels.']);
  });
});

describe('results', () => {
  test('a record of what is still expected is done', () => {
    const text = record('{ date: 2026-03-02, step: supply:motor-psu, expected: "44.0 V", seen: 44.1 V }');
    expect(stepOf(text, 'supply:motor-psu').result).toEqual({
      state: 'done',
      date: '2026-03-02',
      seen: '44.1 V',
    });
    expect(stepOf(text, 'supply:logic-psu').result).toEqual({ state: 'open' });
  });

  test('what rests on a change is to be done again', () => {
    const text = record('{ date: 2026-03-02, step: supply:motor-psu, expected: "44.0 V", seen: 44.1 V }');
    expect(
      stepOf(text.replace('output-voltage: 44.0 V', 'output-voltage: 42.0 V'), 'supply:motor-psu').result,
    ).toMatchObject({
      state: 'again',
      why: 'expected was 44.0 V, now it is 42.0 V',
    });
  });

  test('every step can be recorded as it says, and is then done', () => {
    const steps = listSteps(read(readExample())).filter(({ record: line }) => line.includes('step:'));
    const lines = steps.map(({ record: line }) => `  - ${line.replace('date: ?', 'date: 2026-03-02')}\n`);
    const analysis = read(readExample().replace('\nrecords:\n', `\nrecords:\n${lines.join('')}`));
    expect(analysis.problems).toEqual([]);
    const states = listTriedSteps(analysis).map(({ id, result }) => `${id} ${result.state}`);
    expect(states.filter((state) => !state.endsWith(' done'))).toEqual([]);
  });

  test('a measured move counts until another scale is keyed in', () => {
    const noted = readExample().replace(
      'seen: 499.98 mm, within: 0.05 mm',
      'seen: 499.98 mm, within: 0.05 mm, scale: 160 /mm',
    );
    expect(stepOf(noted, 'scale:X').result.state).toBe('done');
    expect(stepOf(noted.replace('c1-1: 160.000 /mm', 'c1-1: 320.000 /mm'), 'scale:X').result).toMatchObject({
      state: 'again',
      why: 'it was measured with 160 /mm',
    });
    expect(stepOf(smallMachine(), 'scale:X').result.state).toBe('open');
  });
});

describe('play', () => {
  const machine = (keyed: string, records: string) =>
    smallMachine({
      panelSettings: 'x-play: { is: backlash, axis: X, unit: mm, decimals: 3, default: 0 mm }',
      panelSet: `x-play: ${keyed}`,
      more: `records:\n${records}`,
    });

  test('is measured where the controller can make up for it, and nowhere else', () => {
    expect(stepOf(machine('0 mm', ''), 'backlash:X').result).toEqual({ state: 'open' });
    expect(listSteps(read(smallMachine())).some(({ id }) => id === 'backlash:X')).toBe(false);
  });

  test('asks for the setting that it makes, and is done once that is keyed in; a scale is another record', () => {
    const record = '  - { date: 2026-03-02, axis: X, backlash: 0.04 mm, within: 0.01 mm, setting: 0 mm }\n';
    expect(stepOf(machine('0 mm', record), 'backlash:X').result).toMatchObject({
      state: 'again',
      seen: '0.04 mm',
      why: 'it asks for 0.04 mm',
    });
    expect(stepOf(machine('0.04 mm', record), 'backlash:X').result.state).toBe('done');
    expect(stepOf(machine('0.04 mm', record), 'scale:X').result.state).toBe('open');
  });
});

describe('the next steps can be recorded where the cursor stands in the records', () => {
  const offers = (text: string, at: string) => {
    const analysis = read(text);
    const offset = text.indexOf(at);
    return listRefactorings(analysis, offset, offset).map((each) => ({
      ...each,
      after: () => applyFix(analysis, { ...each, safe: false }),
    }));
  };

  test('one after the other, with the day of the record before', () => {
    const first = offers(readExample(), 'asked: 360 deg').filter(({ title }) => title.startsWith('Record '));
    expect(first.map(({ title }) => title.split(' as ')[0])).toEqual([
      'Record isolate',
      'Record wires',
      'Record short:logic-psu',
    ]);
    const after = first[0]?.after() ?? '';
    expect(after).toMatch(
      /\n {2}- \{ date: 2026-03-08, step: isolate, expected: "0 V", seen: as expected \}\n/,
    );
    expect(stepOf(after, 'isolate').result).toMatchObject({ state: 'done', seen: 'as expected' });
    expect(
      offers(after, 'asked: 360 deg')
        .map(({ title }) => title)
        .some((title) => title.startsWith('Record isolate')),
    ).toBe(false);
  });

  test('and nowhere else', () => {
    expect(offers(readExample(), 'c8-1').some(({ title }) => title.startsWith('Record '))).toBe(false);
    expect(
      offers('machine: Toy\nrecords:\n', 'records').some(({ title }) => title.startsWith('Record ')),
    ).toBe(false);
  });
});

test('steps are completed with what they expect, those first that are left', () => {
  const text = record('{ date: 2026-03-02, step: isolate, expected: "0 V" }').replace(
    'records:\n',
    'records:\n  - { date: 2026-03-02, step: su }\n',
  );
  const items = complete(read(text), text.indexOf('step: su') + 'step: su'.length);
  expect(items.at(-1)?.label).toBe('spindle-speeds'); // done, like all others that are last
  expect(items.find(({ label }) => label === 'supply:motor-psu')?.insert).toBe(
    'supply:motor-psu, expected: "44.0 V"',
  );
});

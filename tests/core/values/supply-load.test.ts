import { describe, expect, it } from 'vitest';
import { createFettle } from '../../../server/core/fettle.ts';
import { readPanelSheet } from '../../bench/machines.ts';
import { readExample } from '../../support/example.ts';
import { worldOf } from '../../support/world.ts';
import { needsOf, numberAt, smallMachine, valueAt, valuesOf } from './small-machine.ts';

const fan = (figures: string) => ({
  parts: `  fan: { class: load, terminals: { p: [A, B] }, circuits: { motor: { power-in: [A, B]${figures} } } }\n`,
  wiring: '  - psu.V+ -> fan.A\n  - psu.V- -> fan.B\n',
});

describe('the load of a supply', () => {
  it('takes a drive at two thirds of its set current', () => {
    expect(numberAt({}, 'parts.psu.load')).toBeCloseTo(2, 9); // of 3 A
    expect(numberAt({}, 'parts.psu.load-share')).toBeCloseTo(20, 9); // of 10 A
  });
  it('takes the effective value of a current that the drive states as a peak', () => {
    const of = { driveBasis: 'current-basis: peak' };
    expect(numberAt(of, 'parts.psu.load')).toBeCloseTo(2 / Math.SQRT2, 9); // of 3 A
    expect(valueAt(valuesOf(smallMachine(of)), 'parts.psu.load').working).toBe(
      '2/3 × (3 A / √2) = 1.41421 A',
    );
  });
  it('adds drives and other loads up', () => {
    const of = { two: true, ...fan(', current: 0.5 A') };
    expect(numberAt(of, 'parts.psu.load')).toBeCloseTo(4.5, 9);
    const value = valueAt(valuesOf(smallMachine(of)), 'parts.psu.load');
    expect(value.working).toBe('2/3 × (3 A + 3 A) + 0.5 A = 4.5 A');
    expect(value.source).toContain('common practice');
  });
  it('takes a drive without a setting by its sheet', () =>
    expect(
      numberAt({ driveSettings: 'microsteps: { is: microsteps, default: 8 }' }, 'parts.psu.load'),
    ).toBeCloseTo(3, 9));
  it('says which load has no current', () =>
    expect(needsOf(fan(''), 'parts.psu.load')).toBe('the current of fan'));
});

describe('coils and sensors', () => {
  const valves = (count: number) => {
    const names = Array.from({ length: count }, (_, index) => `valve-${index + 1}`);
    const text = [
      'machine: Valves',
      'parts:',
      '  psu: { sheet: generic/supply-24v }',
      ...names.map((name) => `  ${name}: { sheet: generic/coolant-valve-24v }`),
      'wiring:',
      ...names.flatMap((name) => [`  - psu.V+ -> ${name}.V1`, `  - psu.V- -> ${name}.V2`]),
    ].join('\n');
    const fettle = createFettle(worldOf(new Map()));
    const analysis = fettle.analyse('valves.machine.yaml', text);
    return { values: analysis.values, codes: fettle.findings(analysis).map(({ code }) => code) };
  };

  it('load the supply that they hang on, by what flows through them', () => {
    const { values } = valves(3);
    // 24 V on 72 ohm, three times (Ohm's law).
    expect(values.byAddress.get('parts.psu.load')?.value).toBeCloseTo(1, 6);
    expect(values.byAddress.get('parts.psu.load-share')?.value).toBeCloseTo(40, 4);
  });

  it('overload it when there are too many', () => {
    expect(valves(7).codes).toContain('power/above-80');
    expect(valves(8).codes).toContain('power/overloaded');
    expect(valves(5).codes.filter((code) => code.startsWith('power/'))).toEqual([]);
  });
});

describe('what contacts switch', () => {
  const loadOf = (parts: readonly string[], wiring: readonly string[]) => {
    const text = [
      'machine: Bench',
      'parts:',
      '  psu: { sheet: generic/supply-24v }',
      ...parts,
      'wiring:',
      ...wiring,
    ];
    const { values } = createFettle(worldOf(new Map())).analyse('bench.machine.yaml', text.join('\n'));
    return values;
  };
  const button = (name: string) =>
    `  ${name}: { sheet: generic/push-button, set: { contact: normally-open } }`;
  const pump = (name: string) => `  ${name}: { sheet: generic/lubrication-pump-24v }`;

  it('counts once, whichever of two contacts beside each other lets it through', () => {
    const values = loadOf(
      [button('b1'), button('b2'), pump('pump')],
      ['  - psu.V+ -> b1.C1, b2.C1', '  - b1.C2 -> pump.P1', '  - b2.C2 -> pump.P1', '  - pump.P2 -> psu.V-'],
    );
    // 24 V on 48 ohm (Ohm's law)
    expect(values.byAddress.get('parts.psu.load')?.value).toBeCloseTo(0.5, 6);
  });

  it('counts together where all of it comes through one contact', () => {
    const names = ['1', '2', '3'];
    const values = loadOf(
      [
        '  stop: { sheet: generic/emergency-stop-button }',
        ...names.flatMap((name) => [button(`b${name}`), pump(`pump${name}`)]),
      ],
      [
        '  - psu.V+ -> stop.11',
        '  - { link: stop.12 -> b1.C1, wire: 0.5 mm2, length: 20 m, label: 7 }',
        '  - b1.C1 -> b2.C1, b3.C1',
        ...names.flatMap((name) => [`  - b${name}.C2 -> pump${name}.P1`, `  - pump${name}.P2 -> psu.V-`]),
      ],
    );
    // 24 V on three times 48 ohm beside each other, behind 20 m of 39 ohm/km (IEC 60228 class 5).
    const amps = 24 / (48 / 3 + 0.78);
    expect(values.byAddress.get('parts.psu.load')?.value).toBeCloseTo(amps, 6);
    expect(values.byAddress.get('wires.7.current')?.value).toBeCloseTo(amps, 6);
  });

  it('does not count a part twice that is fed through the same contact', () => {
    const values = loadOf(
      [button('b1'), pump('pump'), '  fan: { sheet: generic/fan-24v }'],
      [
        '  - psu.V+ -> b1.C1',
        '  - b1.C2 -> pump.P1, fan.F+',
        '  - pump.P2 -> psu.V-',
        '  - fan.F- -> psu.V-',
      ],
    );
    // 0.25 A of the fan by its sheet, and 24 V on 48 ohm.
    expect(values.byAddress.get('parts.psu.load')?.value).toBeCloseTo(0.75, 6);
  });
});

it('what is switched on together draws its inrush together, as far as the sheets say it', () => {
  const load = (name: string, inrush: string) =>
    `  ${name}: { class: load, terminals: { power: [P, M] }, circuits: { feed: { power-in: [P, M], voltage: 20..28 V, current: 0.2 A${inrush} } } }`;
  const text = [
    'machine: Inrush',
    'parts:',
    '  psu: { sheet: generic/supply-24v }',
    load('fan', ', inrush: 1.5 A'),
    load('lamp', ', inrush: 4 A'),
    load('screen', ''),
    'wiring:',
    ...['fan', 'lamp', 'screen'].flatMap((name) => [`  - psu.V+ -> ${name}.P`, `  - psu.V- -> ${name}.M`]),
  ].join('\n');
  const { values } = createFettle(worldOf(new Map())).analyse('inrush.machine.yaml', text);
  expect(values.byAddress.get('parts.psu.inrush')?.shown).toBe('5.5 A');
});

it('an output of a controller is overloaded by what hangs on it', () => {
  const analyse = (sheet: string) => {
    const fettle = createFettle(worldOf(new Map([['sheets/four-axis-bench-panel.part.yaml', sheet]])));
    const analysis = fettle.analyse('gantry-router.machine.yaml', readExample());
    return fettle.findings(analysis).filter(({ code }) => code.startsWith('power/'));
  };
  expect(analyse(readPanelSheet())).toEqual([]);
  const weak = readPanelSheet().replace(/(sense: +\{ power-out: [^}]*current: )\d+ mA/, '$150 mA');
  expect(weak).not.toBe(readPanelSheet());
  const [finding, ...others] = analyse(weak);
  expect(others).toEqual([]);
  expect(finding?.code).toBe('power/overloaded');
  expect(finding?.message).toContain('panel.sense gives 50 mA');
});

import { describe, expect, it } from 'vitest';
import { type WireMachine, wireFindings, wireValue } from '../core/wires/wire-machine.ts';
import { analyseTexts } from '../support/marked.ts';
import { checkRows, type Row, setAside } from './rows.ts';

// The same rows as of the formulas, written down as wires of a machine, analysed, and read back by their addresses.

const memory = 'from memory' as const;
const here = 'worked out here' as const;

const at = (of: WireMachine, address: string) => wireValue(of, address).value;

/** ohm/1000 ft of one conductor, off a hundred feet of it. */
const perKilofoot = (gauge: number) =>
  10 * at({ wire: `${gauge} AWG`, length: '100 ft' }, 'wires.W1.resistance');
/** ohm/km of one conductor, off a hundred metres of it. */
const perKilometre = (wire: string) => 10 * at({ wire, length: '100 m' }, 'wires.W1.resistance');

checkRows(
  'Machines: resistance by gauge at 20 C (1.3)',
  [
    ...(
      [
        ['N022', 8, '0.6282', 0.6281772],
        ['N024', 12, '1.588', 1.588219],
        ['N025', 14, '2.525', 2.525368],
        ['N027', 18, '6.385', 6.384882],
        ['N028', 20, '10.15', 10.15236],
        ['N030', 24, '25.67', 25.66819],
        ['N031', 26, '40.81', 40.81402],
        ['N033', 30, '103.2', 103.19],
      ] as const
    ).map(
      ([id, gauge, published, recomputed]): Row => ({
        id,
        source: 'HYP',
        what: `AWG ${gauge}, ohm/1000 ft`,
        value: perKilofoot(gauge),
        published,
        recomputed,
      }),
    ),
    { id: 'N034', source: 'TOOL', what: 'AWG 10, ohm/km', value: perKilometre('10 AWG'), published: '3.277' },
    { id: 'N036', source: 'TOOL', what: 'AWG 24, ohm/km', value: perKilometre('24 AWG'), published: '84.2' },
  ],
  10,
);

checkRows(
  'Machines: resistance of fine-stranded conductors at 20 C (1.4)',
  (
    [
      ['N039', '0.5 mm2', '39.0'],
      ['N041', '0.75 mm2', '26.0'],
      ['N045', '1.5 mm2', '13.3'],
      ['N047', '2.5 mm2', '7.98'],
      ['N051', '6 mm2', '3.30'],
      ['N053', '0.25 mm2', '76'],
      ['N054', '0.34 mm2', '53'],
    ] as const
  ).map(
    ([id, wire, published]): Row => ({
      id,
      source: 'C228',
      what: `${wire}, ohm/km`,
      value: perKilometre(wire),
      published,
    }),
  ),
  7,
);

checkRows(
  'Machines: voltage lost there and back (1.6)',
  [
    {
      id: 'N069',
      source: 'C228',
      what: '0.5 mm2, 10 m, 1 A',
      value: at({ wire: '0.5 mm2', length: '10 m', amps: 1 }, 'parts.lamp.drop'),
      recomputed: 0.78,
      standing: here,
    },
    {
      id: 'N070',
      source: 'C228',
      what: '1.5 mm2, 5 m, 6 A, at 20 C',
      value: at({ wire: '1.5 mm2', length: '5 m', amps: 6 }, 'parts.lamp.drop'),
      recomputed: 0.798,
      standing: here,
    },
    {
      id: 'N072',
      source: 'HYP',
      what: 'AWG 18, 8 m, 3 A',
      value: at({ wire: '18 AWG', length: '8 m', amps: 3 }, 'parts.lamp.drop'),
      recomputed: 1.005493,
      standing: here,
    },
  ],
  3,
);

const single = (wire: string) => at({ wire }, 'wires.W1.capacity');
const cabled = (wire: string) => at({ wire, cable: [] }, 'wires.psu.V+:lamp.L+.capacity');
const nfpa = (gauge: number) => at({ wire: `${gauge} AWG`, convention: 'NFPA' }, 'wires.W1.capacity');

checkRows(
  'Machines: capacity by EN 60204-1 (1.7) and NFPA 79 (1.10)',
  [
    ...(
      [
        ['N073', '0.75 mm2', '8.6'],
        ['N081', '1.5 mm2', '13.5'],
        ['N085', '2.5 mm2', '18.3'],
        ['N093', '6 mm2', '31'],
      ] as const
    ).map(
      ([id, wire, published]): Row => ({
        id,
        source: 'MEM',
        what: `${wire}, method B1, A`,
        value: single(wire),
        published,
        standing: memory,
      }),
    ),
    ...(
      [
        ['N078', '1 mm2', '10.1'],
        ['N082', '1.5 mm2', '13.1'],
        ['N090', '4 mm2', '23'],
        ['N094', '6 mm2', '30'],
      ] as const
    ).map(
      ([id, wire, published]): Row => ({
        id,
        source: 'SM',
        what: `${wire}, method B2, A`,
        value: cabled(wire),
        published,
      }),
    ),
    ...(
      [
        ['N129', 30, '0.5'],
        ['N131', 26, '1'],
        ['N132', 24, '2'],
        ['N134', 20, '5'],
        ['N135', 18, '7'],
      ] as const
    ).map(
      ([id, gauge, published]): Row => ({
        id,
        source: 'MEM',
        what: `AWG ${gauge} by NFPA 79, A`,
        value: nfpa(gauge),
        published,
        standing: memory,
      }),
    ),
  ],
  13,
);

checkRows(
  'Machines: conductors that run together (1.9)',
  [
    {
      id: 'N113',
      source: 'MEM',
      what: 'share left of two loaded circuits in one cable',
      value:
        at({ cable: ['psu.V+ -> fan.F+', 'fan.F- -> psu.V-'] }, 'wires.psu.V+:lamp.L+.capacity') /
        cabled('1 mm2'),
      published: '0.80',
      standing: memory,
    },
  ],
  1,
);

setAside({
  N055: 'wires are taken at 20 °C: no key says how warm a conductor is',
  N067: 'stranded wire at 75 °C; the machine has neither',
  N075: 'how a wire is laid is not written down, so only B1 and B2 are reached',
  N435: 'performance levels are not computed: nothing here says that a machine is safe',
  N440: 'the size of a protective conductor is not checked against that of its line',
  N097: 'the ambient temperature is not written down; 40 °C is taken',
});

/** A supply and a load by IEC or NFPA, and whether a colour on the plus wire is accepted. */
const accepts = (convention: 'IEC' | 'NFPA', colour: string) =>
  !wireFindings({ convention, colours: [colour, colour], supply: 5 }).some((code) =>
    /wire\/(?:colour|green-yellow)/.test(code),
  );

describe('Machines: colours of direct-current control conductors (2.3)', () => {
  it('F030 IEC 60204-1 13.2.4: blue', () => expect(accepts('IEC', 'BU')).toBe(true));
  it('F035 NFPA 79: blue', () => expect(accepts('NFPA', 'BU')).toBe(true));
  it('F037 NFPA 79: white with a blue stripe where it is grounded', () =>
    expect(accepts('NFPA', 'WHBU')).toBe(true));
  it('F031, F038 both: orange for what stays live', () =>
    expect([accepts('IEC', 'OG'), accepts('NFPA', 'OG')]).toEqual([true, true]));
  it.each(['BN', 'RD', 'GN', 'WH', 'GY', 'PK', 'VT'])('%s is neither', (colour) =>
    expect([accepts('IEC', colour), accepts('NFPA', colour)]).toEqual([false, false]),
  );
  it('F026 green-yellow is for the protective conductor alone', () =>
    expect([accepts('IEC', 'GNYE'), accepts('NFPA', 'GNYE')]).toEqual([false, false]));
});

/** The colour codes of IEC 60757, in the order of its table (F006 to F020). */
const CODES = 'BK BN RD OG YE GN BU VT GY WH PK GD TQ SR GNYE'.split(' ');

describe('Machines: colour codes (2.1, 2.2)', () => {
  const problemsOf = (colour: string) =>
    analyseTexts(
      new Map([
        [
          'bench.machine.yaml',
          `machine: Bench\nwiring:\n  - { link: a.1 -> b.1, wire: 1 mm2 ${colour}, length: 1 m }\n`,
        ],
      ]),
    ).findings.filter(({ code }) => code === 'unit/not-a-quantity').length;

  it.each(CODES)('%s is read', (code) => expect(problemsOf(code)).toBe(0));
  it('F021 several colours of one conductor stand together', () => expect(problemsOf('RDBU')).toBe(0));
  it('F023 small letters mean the same', () => expect(problemsOf('bk')).toBe(0));
  it.each(['BL', 'BR', 'GR', 'YL', 'RE', 'PU'])('F025 %s is refused (common practice, no source)', (code) =>
    expect(problemsOf(code)).toBe(1),
  );
});

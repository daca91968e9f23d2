import { CRITICAL_SPEED_SHARE, nutTopSpeed } from '../../server/core/motion/feed.ts';
import { barInertia } from '../../server/core/motion/inertia.ts';
import {
  collarTorque,
  type Ends,
  leadAngle,
  loweringTorque,
  raisingTorque,
  STEEL,
  screwBucklingLoad,
  screwCriticalSpeed,
  screwEfficiency,
  screwStressLoad,
} from '../../server/core/motion/screw.ts';
import { loadTorque } from '../../server/core/motion/torque.ts';
import { checkRows } from './rows.ts';
import { DEG, INCH, KGF, LBF, MM, POUND, RPM, TURN } from './units.ts';

const memory = 'from memory';
const derived = 'worked out here';

/** Speed in min-1 that a catalogue permits, for millimetres. */
const permitted = (root: number, length: number, ends: Ends) =>
  (CRITICAL_SPEED_SHARE * screwCriticalSpeed(root * MM, length * MM, ends)) / RPM;
/** The catalogue's factor of the permitted speed g × root / length² × 10^7. */
const speedFactor = (ends: Ends) => permitted(1, 1, ends) / 1e7;
const hertz = (ends: Ends) => screwCriticalSpeed(1 * INCH, 100 * INCH, ends) / TURN;
const inchConstant = [2e-3, 'the inch formula folds another steel into 4.76e6'] as const;
const printedFixedFixed =
  2.23 / (screwCriticalSpeed(1, 1, 'fixed-fixed') / screwCriticalSpeed(1, 1, 'supported-supported'));

checkRows(
  'Critical speed of a screw (5.1, 5.2)',
  [
    {
      id: 'N268',
      source: 'MIS',
      what: 'min-1, fixed-supported, root 12.5, length 790, by the printed factor 15.1',
      value: permitted(12.5, 790, 'fixed-supported') * (15.1 / speedFactor('fixed-supported')),
      published: '3024',
      recomputed: 3024.355,
    },
    {
      id: 'N270',
      source: 'WP',
      what: 'Hz, fixed-fixed by the printed factor 2.23, root 1 in, length 100 in',
      value: hertz('fixed-fixed') * printedFixedFixed,
      published: '18',
      recomputed: 17.69133,
      within: inchConstant,
    },
    {
      id: 'N271',
      source: 'WP',
      what: 'Hz, supported-supported',
      value: hertz('supported-supported'),
      published: '8',
      recomputed: 7.933333,
      within: inchConstant,
    },
    {
      id: 'N272',
      source: 'MIS',
      what: 'factor, supported-supported',
      value: speedFactor('supported-supported'),
      published: '9.7',
      recomputed: 9.686958,
    },
    {
      id: 'N274',
      source: 'MIS',
      what: 'factor, fixed-fixed',
      value: speedFactor('fixed-fixed'),
      published: '21.9',
      recomputed: 21.95887,
      truncated: true,
    },
    {
      id: 'N275',
      source: 'MIS',
      what: 'factor, fixed-free',
      value: speedFactor('fixed-free'),
      published: '3.4',
      recomputed: 3.450565,
      truncated: true,
    },
  ],
  6,
);

/** The catalogue's factor of the permitted load m × root^4 / length² × 10^4. */
const loadFactor = (ends: Ends) => screwBucklingLoad(1 * MM, 1 * MM, ends) / 1e4;
const kgfSteel = { ...STEEL, stiffness: (2.1e4 * KGF) / MM ** 2 };
const kgfFactor = (ends: Ends) => screwBucklingLoad(1 * MM, 1 * MM, ends, kgfSteel) / KGF / 1e3;

checkRows(
  'Buckling of a screw (5.3)',
  [
    {
      id: 'N276',
      source: 'MIS',
      what: 'N, root 12.5, length 820, by the printed factor 10',
      value: screwBucklingLoad(12.5 * MM, 820 * MM, 'fixed-supported') * (10 / loadFactor('fixed-supported')),
      published: '3630',
      recomputed: 3630.884,
      truncated: true,
    },
    {
      id: 'N278',
      source: 'THK',
      what: 'factor, fixed-fixed',
      value: loadFactor('fixed-fixed'),
      published: '20',
      recomputed: 19.96029,
    },
    {
      id: 'N279',
      source: 'THK',
      what: 'factor, fixed-free',
      value: loadFactor('fixed-free'),
      published: '1.3',
      recomputed: 1.247518,
      truncated: true,
    },
    {
      id: 'N281',
      source: 'HSK',
      what: 'factor in kgf, fixed-supported',
      value: kgfFactor('fixed-supported'),
      published: '10.2',
      recomputed: 10.17393,
    },
    {
      id: 'N282',
      source: 'HSK',
      what: 'factor in kgf, fixed-fixed',
      value: kgfFactor('fixed-fixed'),
      published: '20.3',
      recomputed: 20.34787,
    },
    {
      id: 'N284',
      source: 'THK',
      what: 'N per mm2 of root diameter squared',
      value: screwStressLoad(1 * MM),
      published: '116',
      recomputed: 115.4535,
      truncated: true,
    },
    {
      id: 'F064a',
      source: 'THK',
      what: 'column factor, fixed-free to supported-supported',
      value: loadFactor('fixed-free') / loadFactor('supported-supported'),
      published: '0.25',
    },
    {
      id: 'F064b',
      source: 'THK',
      what: 'column factor, fixed-supported',
      value: loadFactor('fixed-supported') / loadFactor('supported-supported'),
      published: '2',
    },
    {
      id: 'F064c',
      source: 'THK',
      what: 'column factor, fixed-fixed',
      value: loadFactor('fixed-fixed') / loadFactor('supported-supported'),
      published: '4',
    },
  ],
  9,
);

const relative = (ends: Ends) => speedFactor(ends) / speedFactor('supported-supported');
const catalogue = [0.11, 'catalogues differ from theory by up to 11 %'] as const;

checkRows(
  'End factors of the critical speed (5.8)',
  [
    { id: 'F060a', source: 'MIS', what: 'fixed-free', value: relative('fixed-free'), published: '0.356' },
    {
      id: 'F060b',
      source: 'MIS',
      what: 'fixed-supported',
      value: relative('fixed-supported'),
      published: '1.562',
      truncated: true,
    },
    { id: 'F060c', source: 'MIS', what: 'fixed-fixed', value: relative('fixed-fixed'), published: '2.267' },
    { id: 'F062a', source: 'NOOK', what: 'fixed-free', value: relative('fixed-free'), published: '0.36' },
    {
      id: 'F062b',
      source: 'NOOK',
      what: 'fixed-supported',
      value: relative('fixed-supported'),
      recomputed: 1.47,
      within: catalogue,
    },
    {
      id: 'F062c',
      source: 'NOOK',
      what: 'fixed-fixed',
      value: relative('fixed-fixed'),
      recomputed: 2.23,
      within: catalogue,
    },
    {
      id: 'F063a',
      source: 'ROT',
      what: 'fixed-free',
      value: relative('fixed-free'),
      recomputed: 0.32,
      within: [0.12, catalogue[1]],
    },
    {
      id: 'F063b',
      source: 'ROT',
      what: 'fixed-supported',
      value: relative('fixed-supported'),
      recomputed: 1.55,
      within: catalogue,
    },
    {
      id: 'F063c',
      source: 'ROT',
      what: 'fixed-fixed',
      value: relative('fixed-fixed'),
      recomputed: 2.24,
      within: catalogue,
    },
  ],
  9,
);

// n = DN / d is the same in d as in n, so the function that gives the speed for a diameter gives the diameter for a speed.
const speedOfInchBall = (dn: number) => nutTopSpeed(dn * INCH * RPM, 1 * MM) / RPM;

checkRows(
  'DN of a nut (5.4)',
  [
    {
      id: 'N285',
      source: 'DEN',
      what: 'mm ball circle at 3000 rpm, DN 70 000',
      value: nutTopSpeed(70e3 * MM * RPM, 3000 * RPM) / MM,
      published: '23.3',
      recomputed: 23.33333,
    },
    {
      id: 'N287',
      source: 'EE',
      what: 'DN 5250 in rpm in mm rpm',
      value: speedOfInchBall(5250),
      published: '133300',
      recomputed: 133350,
      differs: 'printed rounded down',
    },
    {
      id: 'N288',
      source: 'EE',
      what: 'DN 5510 in rpm in mm rpm',
      value: speedOfInchBall(5510),
      published: '140000',
      recomputed: 139954,
      differs: 'printed rounded',
    },
  ],
  3,
);

const acme = { meanDiameter: 0.9 * INCH, lead: 0.2 * INCH, friction: 0.15, halfAngle: 14.5 * DEG };
const square = { meanDiameter: 30 * MM, lead: 8 * MM, friction: 0.08, halfAngle: 0 };
const squareCollar = collarTorque(6400, 0.08, 40 * MM);
const pound = LBF * INCH;

checkRows(
  'Torque of a power screw (5.5)',
  [
    {
      id: 'N289',
      source: 'EP',
      what: 'N.m, 20 kN, lead 10 mm, 70 %',
      value: loadTorque(20e3, 10 * MM, 0.7, 1),
      published: '45.5',
      recomputed: 45.47284,
    },
    {
      id: 'N291',
      source: 'CB',
      what: 'lbf in to raise 1000 lbf, collar 60 lbf in',
      value: raisingTorque(1000 * LBF, acme) / pound + 60,
      published: '162.68',
      recomputed: 162.677,
    },
    {
      id: 'N292',
      source: 'CB',
      what: 'lbf in to lower 1000 lbf, collar 60 lbf in',
      value: loweringTorque(1000 * LBF, acme) / pound + 60,
      published: '97.48',
      recomputed: 97.47903,
    },
    {
      id: 'N294',
      source: 'CB',
      what: 'deg, lead 0.2 in, 0.9 in',
      value: leadAngle(acme.lead, acme.meanDiameter) / DEG,
      published: '4.05',
      recomputed: 4.046108,
    },
    {
      id: 'N295',
      source: 'CB',
      what: 'deg, lead 0.5 in, 1 in',
      value: leadAngle(0.5 * INCH, 1 * INCH) / DEG,
      published: '9.04',
      recomputed: 9.043061,
    },
    {
      id: 'N297',
      source: 'MEM',
      what: 'N.m to lower 6.4 kN (Shigley, example 8-1)',
      value: loweringTorque(6400, square) + squareCollar,
      published: '9.77',
      recomputed: 9.774428,
      standing: memory,
    },
    {
      id: 'N298',
      source: 'MEM',
      what: 'efficiency (Shigley, example 8-1)',
      value: screwEfficiency(6400, square.lead, raisingTorque(6400, square) + squareCollar),
      published: '0.311',
      recomputed: 0.3112942,
      standing: memory,
    },
  ],
  7,
);

const lbIn2 = POUND * INCH ** 2;
const lbPerIn3 = POUND / INCH ** 3;

checkRows(
  'Inertia of a round bar (5.6)',
  [
    {
      id: 'N299',
      source: 'NOV',
      what: 'lb in2, coupling 1 in x 1 in, 0.0975 lb/in3',
      value: barInertia(0.0975 * lbPerIn3, 1 * INCH, 1 * INCH) / lbIn2,
      published: '0.00957',
      recomputed: 0.00957204,
    },
    {
      id: 'N301',
      source: 'NOV',
      what: 'lb in2, shaft 0.25 in x 12 in, 0.283 lb/in3',
      value: barInertia(0.283 * lbPerIn3, 12 * INCH, 0.25 * INCH) / lbIn2,
      recomputed: 0.00130235,
      standing: derived,
    },
    {
      id: 'N302',
      source: 'SMM',
      what: 'g/m3, constant of steel',
      value: barInertia(7830, 1, 1) * 1e3,
      published: '7.7e5',
      recomputed: 768708.5,
    },
  ],
  3,
);

import { say } from '../language/say.ts';
import { shorten } from './number.ts';
import { readQuantity } from './quantity.ts';
import { type Expectation, type Reading, type Repair, refuse } from './reading.ts';

/** The copper section of a conductor. */
export interface Section {
  /** In m2. */
  readonly area: number;
  /** As the trade names it: `0.75 mm2` or `20 AWG`. */
  readonly gauge: string;
}

/** From hair-thin signal strands to supply cables no small machine outgrows (common practice, no source). */
const SECTION: Expectation = { dimension: 'area', units: ['mm2'], plausible: ['0.01 mm2', '120 mm2'] };

/** What a message says was expected where a wire is meant. */
export function expectedWire(): { readonly expected: string; readonly units: string } {
  return { expected: say`a wire such as 0.5 mm2, 20 AWG or 4 x 0.75 mm2 screened`, units: 'mm2, AWG' };
}

/** The thinnest size for which the formula is of use here. */
const LAST_GAUGE = 40;

/**
 * Diameter in metres of a solid wire of an American wire gauge number; 0, -1, -2, -3 are the sizes 1/0 to 4/0.
 * d = 0.127 mm x 92^((36 - n) / 39), ASTM B258.
 */
export function awgDiameter(gauge: number): number {
  return 0.127e-3 * 92 ** ((36 - gauge) / 39);
}

/** Copper section in m2 of a solid wire of an American wire gauge number. */
export function awgArea(gauge: number): number {
  return (Math.PI / 4) * awgDiameter(gauge) ** 2;
}

/** Reads `0.75 mm2`, `20 AWG` (also `AWG 20`) or `2/0 AWG`. */
export function readSection(text: string): Reading<Section> {
  if (/awg/i.test(text)) return readGauge(text);
  const { value, problems } = readQuantity(text, SECTION);
  if (value !== undefined) {
    const gauge = `${text.slice(...value.numberAt)} ${value.unit.symbol}`;
    return { value: { area: value.value, gauge }, problems };
  }
  return {
    problems: problems.map((problem) => {
      const data = { ...problem.data, ...expectedWire() };
      return problem.code === 'unit/missing'
        ? { ...problem, data, repairs: addGauge(text, problem) }
        : { ...problem, data };
    }),
  };
}

function readGauge(text: string): Reading<Section> {
  const digits = /^(?:AWG\s*([1-4]\/0|\d{1,2})|([1-4]\/0|\d{1,2})\s*AWG)$/i.exec(text);
  const typed = digits?.[1] ?? digits?.[2] ?? '';
  const number = typed.endsWith('/0') ? 1 - Number(typed[0]) : Number(typed);
  if (typed === '' || number > LAST_GAUGE) {
    const data = { ...expectedWire(), reason: 'no-gauge', typed: shorten(text) };
    return refuse('unit/not-a-quantity', [0, text.length], data);
  }
  return { value: { area: awgArea(number), gauge: `${typed} AWG` }, problems: [] };
}

/** A bare whole number may have been meant as a gauge number. */
function addGauge(text: string, problem: { to: number; repairs: readonly Repair[] }): readonly Repair[] {
  const { to, repairs } = problem;
  if (!/^\d{1,2}$/.test(text) || Number(text) > LAST_GAUGE) return repairs;
  const repair: Repair = { from: to, to, text: ' AWG', label: `${text} AWG` };
  // On a small machine sections of 8 mm2 and more are rare, and so are gauge numbers below 8.
  return Number(text) >= 8 ? [repair, ...repairs] : [...repairs, repair];
}

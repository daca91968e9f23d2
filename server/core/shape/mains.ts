import { type Quantity, type Reading, readQuantity, shiftProblem } from '../units/index.ts';

/** The supply network of a machine. */
export interface Mains {
  readonly phases: 1 | 3;
  /** In volts: between live and neutral, or between two of three phases. */
  readonly voltage: Quantity;
  /** In hertz. */
  readonly frequency: Quantity;
}

// Public networks have 100 V to 690 V at 50 Hz or 60 Hz (IEC 60038); 24 V and 400 Hz occur in workshops and vehicles.
const VOLTAGE = { dimension: 'voltage', units: ['V', 'kV'], plausible: ['20 V', '1000 V'] } as const;
const FREQUENCY = { dimension: 'frequency', units: ['Hz'], plausible: ['10 Hz', '500 Hz'] } as const;

const LONGEST_TEXT = 60;

/**
 * Reads a supply network: `230 V 50 Hz`, or with three phases `3 x 400 V 50 Hz`. Both figures are needed; each that
 * is wrong is reported as any quantity is. Undefined for a text of another form.
 */
export function readMains(text: string): Reading<Mains> | undefined {
  const match =
    text.length > LONGEST_TEXT
      ? null
      : /^(\s*(?:([13])\s*[x×]\s*)?)([+-]?[\d.,]+\s*[^\s\dx×]*)(\s+)([+-]?[\d.].*)$/.exec(text);
  if (!match) return undefined;
  const [, before = '', phases = '1', left = '', blank = '', right = ''] = match;
  const voltage = readQuantity(left, VOLTAGE);
  const frequencyFrom = before.length + left.length + blank.length;
  const frequency = readQuantity(right, FREQUENCY);
  const problems = [
    ...voltage.problems.map((problem) => shiftProblem(problem, before.length)),
    ...frequency.problems.map((problem) => shiftProblem(problem, frequencyFrom)),
  ];
  if (voltage.value === undefined || frequency.value === undefined) return { problems };
  const value: Mains = {
    phases: phases === '3' ? 3 : 1,
    voltage: voltage.value,
    frequency: frequency.value,
  };
  return { value, problems };
}

import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import type { Feed } from '../../../circuits/supply.ts';
import { later, say } from '../../../language/say.ts';
import { usualTopVoltage } from '../../../motion/winding.ts';
import { formatBest, formatNumber } from '../../../units/index.ts';
import { axisParts } from '../../../values/axis-parts.ts';
import { windingFigure } from '../../../values/current.ts';
import type { Input } from '../../../values/derived.ts';
import { supplyVoltage } from '../../../values/supply.ts';
import { isFaulty } from '../../common/held-back.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'power/rule-of-thumb',
  severity: 'hint',
  title: later`A motor supply is far from the usual voltage for its motor`,
  find: findFar,
  say: (data) =>
    say`${word(data, 'supply')} gives ${word(data, 'voltage')}; for ${word(data, 'motor')} with ${word(data, 'inductance')} up to ${word(data, 'usual')} is usual (32 × √mH, common practice). ${data.side === 'above' ? 'More heats motor and drive and gains little.' : 'With less than half of that the torque falls early: what the motor could do at speed is not used.'}`,
};

/** Between half of the usual voltage and a quarter above it nothing is said (common practice, no source). */
const [LOW, HIGH] = [0.5, 1.25];

/** Of several motors on one supply the one that is farthest off stands for all. */
function* findFar(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  const worst = new Map<string, Far>();
  for (const far of listFar(analysis)) {
    const name = far.feed.supply.part.name;
    const known = worst.get(name);
    if (!known || distance(far.ratio) > distance(known.ratio)) worst.set(name, far);
  }
  for (const { feed, motor, inductance, voltage, ratio } of worst.values()) {
    yield {
      at: feed.supply.part.key,
      data: {
        supply: feed.supply.part.name,
        voltage: formatBest(voltage.value, 'voltage'),
        motor,
        inductance: inductance.shown,
        usual: `${formatNumber(usualTopVoltage(inductance.value), 2)} V`,
        side: ratio > 1 ? 'above' : 'below',
      },
    };
  }
}

interface Far {
  readonly feed: Feed;
  readonly motor: string;
  readonly inductance: Input;
  readonly voltage: Input;
  readonly ratio: number;
}

function* listFar(analysis: MachineAnalysis): Iterable<Far> {
  const { machine, feeds } = analysis;
  for (const axis of machine.axes.values()) {
    for (const { drive, motor } of axisParts(machine, axis).actuators) {
      const feed = feeds.find(({ load }) => load.part === drive);
      const inductance = motor && windingFigure(later`inductance`, motor, 'inductance');
      const voltage = feed && supplyVoltage(machine, feed);
      if (!feed || !motor || !inductance || !voltage) continue;
      if ([inductance, voltage].some(({ at }) => at && isFaulty(analysis, at))) continue;
      const ratio = voltage.value / usualTopVoltage(inductance.value);
      if (ratio < LOW || ratio > HIGH) yield { feed, motor: motor.name, inductance, voltage, ratio };
    }
  }
}

function distance(ratio: number): number {
  return Math.abs(Math.log(ratio));
}

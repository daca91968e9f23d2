import { later, said, say } from '../language/say.ts';
import type { Machine } from '../model/resolve.ts';
import { CRITICAL_SPEED_SHARE, feedAtCriticalSpeed, feedAtMotorSpeed } from '../motion/feed.ts';
import { BUCKLING_SHARE, type Ends, screwBucklingLoad, screwCriticalSpeed } from '../motion/screw.ts';
import type { Carrier } from './axis-carrier.ts';
import type { AxisParts } from './axis-parts.ts';
import { type Collector, constantInput, figureInput, listNeeds } from './collect.ts';
import type { Derived, Input } from './derived.ts';
import { inputFrom } from './input.ts';

const ENDS: readonly string[] = ['fixed-free', 'supported-supported', 'fixed-supported', 'fixed-fixed'];
const SOURCE = later`textbook and makers’ ball screw catalogues, for steel`;

/** The critical speed and the buckling load of a screw, and the feeds that whip and nut allow. Nothing on other carriers. */
export function deriveScrew(
  machine: Machine,
  { axis }: AxisParts,
  { travel }: Carrier,
  out: Collector,
): Derived[] {
  const screw = axis.fields.child('screw');
  if (!screw.node) return [];
  const base = `axes.${axis.name}`;
  const root = figureInput(later`root diameter`, screw, 'root', machine.file);
  const length = figureInput(later`screw length`, screw, 'length', machine.file);
  const ends = endsOf(screw.text('ends')?.value);
  const critical = root && length && ends ? deriveStrength(base, root, length, ends, out) : undefined;
  if (!critical) {
    const needs = listNeeds([
      [root, say`the screw's root diameter`],
      [length, say`the screw's length`],
      [ends, say`how the screw's ends are held`],
    ]);
    for (const name of ['screw-critical-speed', 'screw-buckling-load', 'feed-limit.critical-speed'])
      if (needs !== '') out.lack(`${base}.${name}`, needs);
  }
  const limits: (Derived | undefined)[] = [];
  if (critical && travel) {
    const whip = inputFrom(critical, later`critical speed`);
    limits.push(
      out.add({
        address: `${base}.feed-limit.critical-speed`,
        unit: 'mm/min',
        formula: `${CRITICAL_SPEED_SHARE * 100} % × {critical speed} × {${travel.name}}`,
        inputs: [whip, travel],
        si: feedAtCriticalSpeed(whip.value, travel.value),
        source: say`makers’ ball screw catalogues: 80 % of the critical speed may be used`,
        limit: later`critical speed`,
      }),
    );
  }
  const nut = figureInput(later`nut's top speed`, screw, 'nut-speed', machine.file);
  if (nut && travel) {
    limits.push(
      out.add({
        address: `${base}.feed-limit.nut-speed`,
        unit: 'mm/min',
        formula: `{${nut.name}} × {${travel.name}}`,
        inputs: [nut, travel],
        si: feedAtMotorSpeed(nut.value, travel.value, 1),
        source: say`datasheet of the nut`,
        limit: later`nut speed`,
      }),
    );
  } else if (!nut) out.lack(`${base}.feed-limit.nut-speed`, say`the nut's top speed`);
  return limits.filter((limit) => limit !== undefined);
}

function deriveStrength(
  base: string,
  root: Input,
  length: Input,
  ends: Ends,
  out: Collector,
): Derived | undefined {
  const held = constantInput(later`end factor`, 0, ends);
  out.add({
    address: `${base}.screw-buckling-load`,
    unit: 'N',
    formula: `${BUCKLING_SHARE * 100} % × n({end factor}) × π² × E × π/64 × {root diameter}⁴ / {screw length}²`,
    inputs: [held, root, length],
    si: screwBucklingLoad(root.value, length.value, ends),
    source: say`Euler’s column; ${said(SOURCE)}; half of Euler’s load is allowed`,
  });
  return out.add({
    address: `${base}.screw-critical-speed`,
    unit: 'rpm',
    formula: 'λ²({end factor}) × {root diameter} × √(E/ρ) / (4 × {screw length}²)',
    inputs: [held, root, length],
    si: screwCriticalSpeed(root.value, length.value, ends),
    source: SOURCE,
  });
}

function endsOf(text: string | undefined): Ends | undefined {
  return text !== undefined && ENDS.includes(text) ? (text as Ends) : undefined;
}

import type { MachineAnalysis } from '../../analysis.ts';
import { loadTorque } from '../../motion/torque.ts';
import type { Derived, Input } from '../../values/derived.ts';

/**
 * The figure of an axis that takes the most of the torque that its motors need: the acceleration, the cutting force (or
 * torque), or the mass that is lifted and rubs. Where no feed is low enough, that is where to look.
 */
export function heaviestFigure(analysis: MachineAnalysis, needed: Derived): Input | undefined {
  const input = (name: string) => needed.inputs.find((each) => each.name === name);
  const [acceleration, efficiency, gearing] = ['acceleration', 'efficiency', 'gearing'].map(input);
  const travel = needed.inputs[needed.inputs.findIndex(({ name }) => name === 'gearing') - 1];
  const steady = input('thrust') ?? input('cutting torque');
  const push =
    steady && travel && efficiency && gearing
      ? loadTorque(steady.value, travel.value, efficiency.value, gearing.value)
      : 0;
  const shares = [
    { figure: acceleration, torque: needed.si - push },
    ...pushesOf(analysis, steady).map(({ figure, share }) => ({ figure, torque: push * share })),
  ];
  return shares.sort((a, b) => b.torque - a.torque).find(({ figure }) => figure?.at)?.figure;
}

/** What a thrust is made of, with its shares. */
function pushesOf(
  { values }: MachineAnalysis,
  steady: Input | undefined,
): { figure: Input; share: number }[] {
  if (!steady) return [];
  const thrust = values.byAddress.get(steady.address ?? '');
  if (!thrust) return [{ figure: steady, share: 1 }];
  const force = thrust.inputs.find(({ name }) => name === 'cutting force');
  const mass = thrust.inputs.find(({ name }) => name === 'moved mass');
  const cutting = force ? force.value / thrust.si : 0;
  return [
    ...(force ? [{ figure: force, share: cutting }] : []),
    ...(mass ? [{ figure: mass, share: 1 - cutting }] : []),
  ];
}

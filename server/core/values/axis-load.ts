import { later, say } from '../language/say.ts';
import type { Machine } from '../model/resolve.ts';
import { motorSpeed } from '../motion/feed.ts';
import { barInertia, inertiaAtMotor, massInertia } from '../motion/inertia.ts';
import { STEEL } from '../motion/screw.ts';
import { accelerationTorque, loadTorque, thrust } from '../motion/torque.ts';
import type { Carrier } from './axis-carrier.ts';
import type { AxisParts } from './axis-parts.ts';
import { type Collector, constantInput, factInput, figureInput, listNeeds } from './collect.ts';
import type { Derived, Input } from './derived.ts';
import { inputFrom } from './input.ts';

/** What an axis asks of its motors: the force or torque at steady feed, the inertia, and the torque of both. */
export function deriveLoad(
  machine: Machine,
  parts: AxisParts,
  carrier: Carrier,
  out: Collector,
): Derived | undefined {
  const figure = (name: string, key: string) => figureInput(name, parts.axis.fields, key, machine.file);
  const steady = parts.rotary
    ? figure(later`cutting torque`, 'torque')
    : inputOrNothing(deriveThrust(machine, parts, out), 'thrust');
  const inertia = deriveInertia(machine, parts, carrier, out);
  const acceleration = figure('acceleration', 'acceleration');
  const { travel, gearing, efficiency } = carrier;
  if (!parts.rotary) deriveSteady(machine, parts, carrier, out);
  const address = `axes.${parts.axis.name}.torque-needed`;
  // Without a cutting torque a rotary axis only has to be sped up; a linear one always has to be pushed.
  const isPushed = steady !== undefined || !parts.rotary;
  if (!inertia || !acceleration || !travel || (isPushed && (!steady || !efficiency))) {
    out.lack(
      address,
      listNeeds([
        [isPushed ? steady : 0, say`the thrust`],
        [isPushed ? efficiency : 0, say`the efficiency of the ${carrier.name}`],
        [inertia, say`the inertia`],
        [acceleration, say`the acceleration`],
        [travel, say`a screw, belt, rack or worm`],
      ]),
    );
    return undefined;
  }
  const total = inputFrom(inertia, later`inertia`);
  const angular = motorSpeed(acceleration.value, travel.value, gearing.value);
  const speedingUp = `{inertia} × {acceleration} × 2π × {gearing} / {${travel.name}}`;
  const push = steady && efficiency ? { steady, efficiency } : undefined;
  return out.add({
    address,
    unit: 'N.m',
    formula: push
      ? `{${push.steady.name}} × {${travel.name}} / (2π × {efficiency} × {gearing}) + ${speedingUp}`
      : speedingUp,
    inputs: [
      ...(push ? [push.steady, { ...push.efficiency, name: later`efficiency` }] : []),
      travel,
      gearing,
      total,
      acceleration,
    ],
    si:
      (push ? loadTorque(push.steady.value, travel.value, push.efficiency.value, gearing.value) : 0) +
      accelerationTorque(total.value, angular),
    source: say`makers’ catalogues of screws and servo motors; Newton’s second law`,
  });
}

/** The axis is taken to go uphill, since it has to do that too. */
function deriveThrust(machine: Machine, { axis }: AxisParts, out: Collector): Derived | undefined {
  const figure = (name: string, key: string) => figureInput(name, axis.fields, key, machine.file);
  const address = `axes.${axis.name}.thrust`;
  const mass = figure(later`moved mass`, 'mass');
  const friction = figure('friction', 'friction');
  if (!mass || !friction) {
    out.lack(
      address,
      listNeeds([
        [mass, say`the moved mass`],
        [friction, say`the friction of the guides`],
      ]),
    );
    return undefined;
  }
  const given = figure('incline', 'incline');
  const incline = given && { ...given, value: Math.abs(given.value), shown: given.shown.replace(/^-/, '') };
  const force = figure(later`cutting force`, 'force');
  const slope = incline ? '(sin {incline} + {friction} × cos {incline})' : '{friction}';
  return out.add({
    address,
    unit: 'N',
    formula: `{moved mass} × g × ${slope}${force ? ' + {cutting force}' : ''}`,
    inputs: [mass, friction, ...(incline ? [incline] : []), ...(force ? [force] : [])],
    si: thrust(mass.value, incline?.value ?? 0, friction.value, force?.value ?? 0),
    source: say`textbook, inclined plane; g = 9.80665 m/s² (3rd CGPM, 1901)`,
  });
}

/** What it takes to move a linear axis slowly and without cutting: its weight uphill, and its friction. */
function deriveSteady(
  machine: Machine,
  { axis }: AxisParts,
  { travel, gearing, efficiency }: Carrier,
  out: Collector,
): void {
  const thrust = out.get(`axes.${axis.name}.thrust`);
  if (!thrust || !travel || !efficiency) return;
  const force = figureInput(later`cutting force`, axis.fields, 'force', machine.file);
  const push = inputFrom(thrust, later`thrust`);
  const idle = force ? `({thrust} − {${force.name}})` : '{thrust}';
  out.add({
    address: `axes.${axis.name}.steady-torque`,
    unit: 'N.m',
    formula: `${idle} × {${travel.name}} / (2π × {efficiency} × {gearing})`,
    inputs: [push, ...(force ? [force] : []), travel, { ...efficiency, name: later`efficiency` }, gearing],
    si: loadTorque(push.value - (force?.value ?? 0), travel.value, efficiency.value, gearing.value),
    source: say`makers’ catalogues of screws and servo motors`,
  });
}

/** All inertia at the motors' shafts: rotors, screws, and what the axis moves. Pulleys and couplings are not counted. */
function deriveInertia(
  machine: Machine,
  parts: AxisParts,
  { travel, gearing }: Carrier,
  out: Collector,
): Derived | undefined {
  const { axis, rotary, actuators } = parts;
  const rotors = actuators.map(({ motor }) =>
    factInput(say`rotor of ${motor?.name ?? '?'}`, motor, 'inertia'),
  );
  const known = rotors.filter((rotor) => rotor !== undefined);
  const screw = screwOf(machine, parts);
  const moved = rotary
    ? figureInput(later`inertia of the table`, axis.fields, 'inertia', machine.file)
    : figureInput(later`moved mass`, axis.fields, 'mass', machine.file);
  const hasRotors = known.length > 0 && known.length === rotors.length;
  if (!hasRotors || screw === 'unknown' || !moved || !travel) {
    out.lack(
      `axes.${axis.name}.inertia`,
      listNeeds([
        [hasRotors ? 0 : undefined, say`the motor's inertia`],
        [screw === 'unknown' ? undefined : 0, say`the screw's root diameter and length`],
        [moved, rotary ? say`the inertia of the table` : say`the moved mass`],
        [travel, say`a screw, belt, rack or worm`],
      ]),
    );
    return undefined;
  }
  const bars =
    screw === 'none' ? 0 : actuators.length * barInertia(STEEL.density, screw.length.value, screw.root.value);
  const count = actuators.length > 1 ? `${actuators.length} × ` : '';
  const bar = screw === 'none' ? '' : `${count}π/32 × {density} × {screw length} × {root diameter}⁴ + `;
  const density = constantInput(later`density`, STEEL.density, `${STEEL.density} kg/m³`);
  return out.add({
    address: `axes.${axis.name}.inertia`,
    unit: 'kg.m2',
    formula: `${known.map(({ name }) => `{${name}}`).join(' + ')} + (${bar}{${moved.name}} × ({${travel.name}} / 2π)²) / {gearing}²`,
    inputs: [
      ...known,
      ...(screw === 'none' ? [] : [density, screw.length, screw.root]),
      moved,
      travel,
      gearing,
    ],
    si: inertiaAtMotor(
      known.reduce((sum, { value }) => sum + value, 0),
      bars + massInertia(moved.value, travel.value),
      gearing.value,
    ),
    source: say`textbook, kinetic energy; pulleys and couplings are not counted`,
  });
}

/** Each motor of an axis with screws turns one of them. */
function screwOf(machine: Machine, { axis }: AxisParts): { root: Input; length: Input } | 'none' | 'unknown' {
  const screw = axis.fields.child('screw');
  if (!screw.node) return 'none';
  const root = figureInput(later`root diameter`, screw, 'root', machine.file);
  const length = figureInput(later`screw length`, screw, 'length', machine.file);
  return root && length ? { root, length } : 'unknown';
}

function inputOrNothing(derived: Derived | undefined, name: string): Input | undefined {
  return derived && inputFrom(derived, name);
}

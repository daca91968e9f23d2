import { later, said, say } from '../language/say.ts';
import type { Machine } from '../model/resolve.ts';
import { motorSpeed } from '../motion/feed.ts';
import { torqueAtSpeed, torqueMargin, USUAL_TORQUE_FACTOR, usableSpeed } from '../motion/torque.ts';
import type { Carrier } from './axis-carrier.ts';
import type { AxisMotor } from './axis-motor.ts';
import type { AxisParts } from './axis-parts.ts';
import { type Collector, figureInput, listNeeds } from './collect.ts';
import type { Derived } from './derived.ts';
import { inputFrom } from './input.ts';

const FALLING = later`common practice: torque is flat to the corner speed and then falls as corner speed / speed`;

/** The torque that is there at the wanted feed, how many times the one needed, and the speed up to which it is enough. */
export function deriveTorque(
  machine: Machine,
  parts: AxisParts,
  carrier: Carrier,
  motor: AxisMotor,
  needed: Derived | undefined,
  out: Collector,
): Derived | undefined {
  const base = `axes.${parts.axis.name}`;
  const available = deriveAvailable(machine, parts, carrier, motor, out);
  if (available && needed) {
    const [there, load] = [
      inputFrom(available, later`torque available`),
      inputFrom(needed, later`torque needed`),
    ];
    out.add({
      address: `${base}.torque-margin`,
      unit: '1',
      formula: '{torque available} / {torque needed}',
      inputs: [there, load],
      si: torqueMargin(there.value, load.value),
      source: say`definition; a factor of 2 is usual for open-loop steppers (common practice)`,
    });
  } else
    out.lack(
      `${base}.torque-margin`,
      listNeeds([
        [available, say`the torque available`],
        [needed, say`the torque needed`],
      ]),
    );
  return deriveUsable(base, motor, needed, out);
}

function deriveAvailable(
  machine: Machine,
  { axis }: AxisParts,
  { travel, gearing }: Carrier,
  { standstill, corner }: AxisMotor,
  out: Collector,
): Derived | undefined {
  const base = `axes.${axis.name}`;
  const feed = figureInput(later`wanted feed`, axis.fields, 'feed', machine.file);
  const speed =
    feed && travel
      ? out.add({
          address: `${base}.motor-speed`,
          unit: 'rpm',
          formula: `{wanted feed} × {gearing} / {${travel.name}}`,
          inputs: [feed, gearing, travel],
          si: motorSpeed(feed.value, travel.value, gearing.value),
          source: say`arithmetic of the drive train`,
        })
      : undefined;
  if (!speed)
    out.lack(
      `${base}.motor-speed`,
      listNeeds([
        [feed, say`the feed that you want`],
        [travel, say`a screw, belt, rack or worm`],
      ]),
    );
  if (!speed || !standstill || !corner) {
    out.lack(
      `${base}.torque-available`,
      listNeeds([
        [standstill, say`the torque at standstill`],
        [corner, say`the motor's corner speed`],
        [speed, say`the motor's speed at the wanted feed`],
      ]),
    );
    return undefined;
  }
  const inputs = [
    inputFrom(standstill, later`torque at standstill`),
    inputFrom(corner, later`corner speed`),
    inputFrom(speed, later`motor speed`),
  ];
  const isFlat = speed.si <= corner.si;
  return out.add({
    address: `${base}.torque-available`,
    unit: 'N.m',
    formula: isFlat ? '{torque at standstill}' : '{torque at standstill} × {corner speed} / {motor speed}',
    inputs,
    si: torqueAtSpeed(standstill.si, corner.si, speed.si),
    source: FALLING,
  });
}

function deriveUsable(
  base: string,
  { standstill, corner }: AxisMotor,
  needed: Derived | undefined,
  out: Collector,
): Derived | undefined {
  const address = `${base}.usable-speed`;
  if (!standstill || !corner || !needed) {
    out.lack(
      address,
      listNeeds([
        [standstill, say`the torque at standstill`],
        [corner, say`the motor's corner speed`],
        [needed, say`the torque needed`],
      ]),
    );
    return undefined;
  }
  const inputs = [
    inputFrom(corner, later`corner speed`),
    inputFrom(standstill, later`torque at standstill`),
    inputFrom(needed, later`torque needed`),
  ];
  const si = usableSpeed(standstill.si, corner.si, needed.si);
  return out.add({
    address,
    unit: 'rpm',
    formula:
      si > 0
        ? `{corner speed} × {torque at standstill} / (${USUAL_TORQUE_FACTOR} × {torque needed})`
        : say`none, since {torque at standstill} is less than ${USUAL_TORQUE_FACTOR} × {torque needed}`,
    inputs,
    si,
    source: say`${said(FALLING)}; ${USUAL_TORQUE_FACTOR} times the torque needed is usual for open-loop steppers`,
  });
}

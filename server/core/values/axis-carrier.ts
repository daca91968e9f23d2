import { later } from '../language/say.ts';
import { beltTravel, rackTravel, screwLead, wormTravel } from '../motion/pulses.ts';
import type { Fields } from '../shape/fields.ts';
import type { AxisParts } from './axis-parts.ts';
import { constantInput, figureInput, inputOf } from './collect.ts';
import type { Input } from './derived.ts';

const TURN = 2 * Math.PI;

/** What turns the motor's rotation into the motion of the axis. */
export interface Carrier {
  /** How far the axis moves in one turn of what is driven: m, or rad for a rotary axis; absent when not known. */
  readonly travel: Input | undefined;
  /** Motor turns for one turn of what is driven. */
  readonly gearing: Input;
  /** How much of the power arrives, of carrier and gearing together; absent when nobody has said. */
  readonly efficiency: Input | undefined;
  /** What the efficiency is of, for people. */
  readonly name: string;
}

/** Reads the carrier and the gearing of an axis. */
export function readCarrier(parts: AxisParts, file: string): Carrier {
  const { fields } = parts.axis;
  const gearing = gearingOf(fields, file);
  const name = (['screw', 'belt', 'rack', 'worm'] as const).find((key) => hasKey(fields, key));
  const holder = parts.rotary ? fields : fields.child(name ?? 'screw');
  const direct = parts.rotary && name === undefined && gearing.value === 1;
  return {
    travel: travelPerTurn(parts, file),
    gearing,
    efficiency:
      figureInput(later`efficiency`, holder, 'efficiency', file) ??
      (direct ? constantInput(later`efficiency without a gear`, 1, '1') : undefined),
    name: name ?? (parts.rotary ? 'gearing' : 'carrier'),
  };
}

function hasKey(fields: Fields, key: string): boolean {
  return fields.child(key).node !== undefined || fields.text(key) !== undefined;
}

function travelPerTurn({ axis, rotary }: AxisParts, file: string): Input | undefined {
  const { fields } = axis;
  const worm = fields.ratio('worm');
  if (worm) {
    const value = wormTravel(worm.value.left / worm.value.right);
    const input = inputOf(later`360° / worm ratio`, { ...worm, value }, file);
    return { ...input, shown: `(360 deg / ${worm.text})` };
  }
  if (rotary) return constantInput(later`one turn`, TURN, '360 deg');
  return screwTravel(fields.child('screw'), file) ?? toothedTravel(fields, file);
}

function screwTravel(screw: Fields, file: string): Input | undefined {
  const lead = figureInput(later`screw lead`, screw, 'lead', file);
  if (lead) return lead;
  const pitch = figureInput(later`pitch`, screw, 'pitch', file);
  const starts = figureInput(later`starts`, screw, 'starts', file);
  const value = pitch && screwLead(pitch.value, starts?.value ?? 1);
  return pitch && made(later`screw lead`, value, `(${pitch.shown} × ${starts?.shown ?? 1})`, pitch);
}

function toothedTravel(fields: Fields, file: string): Input | undefined {
  const figure = (of: string, key: string) => figureInput(key, fields.child(of), key, file);
  const [pitch, beltTeeth] = [figure('belt', 'pitch'), figure('belt', 'teeth')];
  if (pitch && beltTeeth) {
    const value = beltTravel(pitch.value, beltTeeth.value);
    return made(later`belt pitch × teeth`, value, `(${pitch.shown} × ${beltTeeth.shown})`, pitch);
  }
  const [module, rackTeeth] = [figure('rack', 'module'), figure('rack', 'teeth')];
  if (module && rackTeeth) {
    const value = rackTravel(module.value, rackTeeth.value);
    return made(later`π × module × teeth`, value, `(π × ${module.shown} × ${rackTeeth.shown})`, module);
  }
  return undefined;
}

function made(name: string, value: number | undefined, shown: string, from: Input): Input | undefined {
  return Number.isFinite(value) && value !== undefined ? { ...from, name, value, shown } : undefined;
}

function gearingOf(fields: Fields, file: string): Input {
  const ratio = fields.ratio('gearing');
  if (!ratio) return constantInput(later`gearing`, 1, '1');
  const value = ratio.value.left / ratio.value.right;
  return {
    ...inputOf(later`gearing`, { ...ratio, value }, file),
    shown: ratio.value.right === 1 ? String(ratio.value.left) : `(${ratio.text.replace(/\s*:\s*/, ' / ')})`,
  };
}

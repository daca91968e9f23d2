import type { Machine } from '../model/resolve.ts';
import { deriveAxes } from './axis.ts';
import { deriveBacklash } from './backlash.ts';
import { deriveCircuits } from './circuits.ts';
import type { Values } from './derived.ts';
import { deriveHandwheel } from './handwheel.ts';
import { joinSections } from './piece.ts';
import { deriveRecords } from './records.ts';
import { deriveSettings } from './settings.ts';
import { deriveSpindle } from './spindle.ts';
import { deriveSupplies } from './supply.ts';
import { deriveLoads } from './supply-load.ts';
import { deriveCapacities } from './wire-capacity.ts';
import { deriveLoadDrops } from './wire-drop.ts';
import { deriveShares } from './wire-share.ts';
import { deriveWires } from './wires.ts';

const SECTIONS = [
  deriveSupplies,
  deriveLoads,
  deriveAxes,
  deriveSpindle,
  deriveHandwheel,
  deriveRecords,
  deriveBacklash,
  deriveSettings,
  deriveCircuits,
  deriveWires,
  deriveCapacities,
  deriveLoadDrops,
  deriveShares,
];

/**
 * Computes every derived value of a machine, in the order in which they rest on each other. Never throws: what cannot
 * be computed is listed with what it lacks.
 */
export const deriveValues = (machine: Machine): Values => joinSections(machine, SECTIONS);

import { figure } from '../../circuits/solve/figures.ts';
import { say } from '../../language/say.ts';
import type { Data } from '../../problem.ts';
import { sensorsOf } from '../common/acting.ts';
import type { Diagnosis } from '../common/diagnose.ts';
import { readsOf, showLevel } from '../common/sights.ts';
import { word } from '../common/words.ts';

/** What a finding about a level keeps in mind of an input that is on while its voltage is low, and of its sensor. */
export function dropData({ input }: Diagnosis): Data {
  const { on, below } = readsOf(input) ?? {};
  if (!below || on === undefined) return {};
  const sensors = sensorsOf(input).map(({ element, part }) => ({
    sensor: part.name,
    volts: figure(element.at.circuit, 'drop') ?? 0,
  }));
  const hindered = sensors.find(({ volts }) => volts >= on);
  return {
    isPulledUp: true,
    ...(hindered && { sensor: hindered.sensor, drop: showLevel(hindered.volts, 'V') }),
  };
}

/** What to do where a sensor cannot bring an input down to where it turns on; otherwise what is to be done in general. */
export function adviseOnDrop(data: Data, general: string): string {
  return data.drop === undefined
    ? general
    : say`It is on while its voltage is low, and ${word(data, 'sensor')} by itself leaves ${word(data, 'drop')} while it conducts: another supply voltage would not change that. Use a sensor with a smaller drop, a contact, or an input that turns on at more.`;
}

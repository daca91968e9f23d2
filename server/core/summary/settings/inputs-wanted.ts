import type { MachineAnalysis } from '../../analysis.ts';
import { inputsOf } from '../../circuits/solve/solved.ts';
import { isAnyBlockBroken, partsInDoubt } from '../../findings/common/held-back.ts';
import { readsOf, showLevel } from '../../findings/common/sights.ts';
import { isInputWired } from '../../findings/setting/input-use.ts';
import { say } from '../../language/say.ts';
import type { Part } from '../../model/machine.ts';
import type { Keyed } from '../../model/settings.ts';
import type { Circuit, Setting } from '../../model/sheet.ts';
import type { SettingRow } from './rows.ts';

/** What the wiring asks of the settings of an input: whether it is looked at, and on which level it acts. */
export function inputWanted(
  analysis: MachineAnalysis,
  part: Part,
  setting: Setting,
  keyed: Keyed | undefined,
): Partial<SettingRow> | undefined {
  const circuit = part.sheet?.circuits.get(setting.circuit ?? '');
  if (!circuit || isAnyBlockBroken(analysis) || partsInDoubt(analysis).has(part.name)) return undefined;
  if (setting.is === 'input-use') return useWanted(analysis, part, circuit, keyed);
  return setting.is === 'input-sense' ? senseWanted(analysis, part, circuit, setting, keyed) : undefined;
}

function useWanted(
  analysis: MachineAnalysis,
  part: Part,
  circuit: Circuit,
  keyed: Keyed | undefined,
): Partial<SettingRow> {
  const terminal = circuit.ends[0]?.text ?? '';
  const isWired = isInputWired(analysis, part, circuit);
  return {
    ...standing(keyed, isWired ? 'on' : 'off'),
    why: isWired ? say`${terminal} is wired` : say`nothing is wired to ${terminal}`,
    source: say`the wiring`,
  };
}

/** The function is meant to act when somebody operates what is wired, and at no other time. */
function senseWanted(
  analysis: MachineAnalysis,
  part: Part,
  circuit: Circuit,
  setting: Setting,
  keyed: Keyed | undefined,
): Partial<SettingRow> | undefined {
  const input = inputsOf(analysis.machine).find(
    ({ at }) => at.part.name === part.name && at.circuit.name === circuit.name,
  );
  const operated = input?.operations[0];
  if (!input || !operated || !keyed || input.acts === undefined || operated.acts === undefined)
    return undefined;
  if (input.acts === operated.acts) return undefined;
  const other = setting.choices.find((choice) => choice !== keyed.scalar.text);
  const wanted = operated.acts ? keyed.scalar.text : other;
  if (wanted === undefined) return undefined;
  const unit = readsOf(input)?.unit ?? 'V';
  const level = (value: number | undefined) =>
    value === undefined ? say`not known` : showLevel(value, unit);
  return {
    ...standing(keyed, wanted),
    why: say`at rest ${level(input.rest.value)}, operated ${level(operated.sight.value)}`,
    source: say`the wiring, solved`,
  };
}

function standing(keyed: Keyed | undefined, wanted: string): Pick<SettingRow, 'wanted' | 'state'> {
  if (!keyed) return { wanted, state: 'not-set' };
  return { wanted, state: keyed.scalar.text === wanted ? 'agrees' : 'differs' };
}

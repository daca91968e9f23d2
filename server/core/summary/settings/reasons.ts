import type { MachineAnalysis } from '../../analysis.ts';
import { titleOf } from '../../features/markdown.ts';
import { said, say } from '../../language/say.ts';
import type { Part } from '../../model/machine.ts';
import type { Keyed } from '../../model/settings.ts';
import type { Setting } from '../../model/sheet.ts';
import type { Derived } from '../../values/derived.ts';

/** What asks for the value of a setting, each cause with its figures. */
export function whyWanted({ values }: MachineAnalysis, wanted: Derived): string {
  const own = wanted.address.replace(/\.wanted$/, '.now');
  return wanted.inputs
    .filter(({ address }) => address !== own)
    .map(({ address, name, shown }) => {
      const cause = address === undefined ? undefined : values.byAddress.get(address);
      return cause ? `${titleOf(cause.address)}: ${cause.working}` : `${said(name)}: ${said(shown)}`;
    })
    .join('; ');
}

/** What follows from a setting that nothing asks for, so that nobody takes it for unimportant. */
export function whatFollows(
  analysis: MachineAnalysis,
  part: Part,
  setting: Setting,
  keyed: Keyed | undefined,
): string {
  const users = keyed ? (usersOf(analysis).get(keyed.scalar) ?? []) : [];
  const own = `settings.${part.name}.${setting.name}.now`;
  // A default has as many users as there are parts of its sheet; three tell what is to be said.
  const others = users.slice(0, 4).filter((address) => address !== own);
  if (others.length === 0) return '';
  const [first = '', second, more] = others.map(titleOf);
  const list =
    second === undefined
      ? first
      : more === undefined
        ? say`${first} and ${second}`
        : say`${first}, ${second} and more`;
  return say`Yours to choose; ${list} ${others.length === 1 ? 'follows' : 'follow'} from it.`;
}

const kept = new WeakMap<MachineAnalysis, ReadonlyMap<unknown, readonly string[]>>();

/** The values that use what is written at a place, for all places at once. */
function usersOf(analysis: MachineAnalysis): ReadonlyMap<unknown, readonly string[]> {
  let users = kept.get(analysis);
  if (!users) {
    const found = new Map<unknown, string[]>();
    for (const { address, inputs } of analysis.values.byAddress.values()) {
      for (const at of new Set(inputs.map((input) => input.at))) {
        if (at === undefined) continue;
        const known = found.get(at);
        if (known) known.push(address);
        else found.set(at, [address]);
      }
    }
    users = found;
    kept.set(analysis, users);
  }
  return users;
}

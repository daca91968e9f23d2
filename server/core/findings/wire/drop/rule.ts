import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { factKeys } from '../../../reuse/fact-index.ts';
import { factOver } from '../../../reuse/fact-over.ts';
import { formatNumber } from '../../../units/index.ts';
import { type Derived, showBriefly } from '../../../values/derived.ts';
import { loadWays } from '../../../values/wire-draws.ts';
import { restsOnFault } from '../../common/held-back.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { sizeOf, type WireAt, wireAt, wiresOf } from '../wires.ts';

export const rule: Rule = {
  code: 'wire/drop',
  severity: 'warning',
  title: later`More than 5 % of the supply is lost in the wires`,
  find: findDrops,
  say: (data) =>
    say`${word(data, 'what')} loses ${word(data, 'drop')}, ${word(data, 'share')} of ${word(data, 'voltage')}${data.whole === true ? ', on the way there and back' : ''}. Most of it, ${word(data, 'own')}, is lost in ${word(data, 'wire')} (${word(data, 'size')}, ${word(data, 'length')}). Above 5 % a load may not work when the supply is low. Take a thicker or a shorter wire.`,
};

/** A usual limit of control circuits (common practice, no source). */
const LIMIT = 0.05;

interface Loss {
  readonly blamed: WireAt;
  readonly found: Found;
  readonly share: number;
}

/** Of several loads behind one thin wire the one that loses most stands for all. */
function findDrops(analysis: Analysis): Found[] {
  if (analysis.kind !== 'machine') return [];
  const byPlace = new Map<object, Loss>();
  for (const loss of [...lossesOfLoads(analysis), ...lossesOfWires(analysis)]) {
    if (!loss) continue;
    const { at } = loss.blamed.wire;
    const known = byPlace.get(at);
    if (!known || loss.share > known.share) byPlace.set(at, loss);
  }
  return [...byPlace.values()].map(({ found }) => found);
}

const lossesOfLoads = factOver(
  'analysis',
  ({ machine }: MachineAnalysis) => loadWays(machine),
  (analysis: MachineAnalysis, { load, path }): Loss | undefined => {
    const base = `parts.${load.part.name}`;
    const [drop, share] = ['drop', 'drop-share'].map((name) =>
      analysis.values.byAddress.get(`${base}.${name}`),
    );
    if (!drop || !share || share.si <= LIMIT || restsOnFault(analysis, share)) return undefined;
    const wires = path.flatMap((slot) => wireAt.get(analysis, slot) ?? []);
    const blamed = most(wires);
    return blamed && !wires.some(({ isOverloaded }) => isOverloaded)
      ? makeLoss(blamed, load.part.name, drop, share, true)
      : undefined;
  },
);

/** Wires that no load's way leads through: those of coils, lamps and signals. */
const lossesOfWires = factOver('analysis', wiresOf, (analysis: MachineAnalysis, wire): Loss | undefined => {
  const [drop, share] = [wire.values.drop, wire.values['drop-share']];
  if (!drop || !share || share.si <= LIMIT || wire.isOverloaded) return undefined;
  return isOfLoad.get(analysis, wire.slot)
    ? undefined
    : makeLoss(wire, say`What flows through ${wire.shown}`, drop, share, false);
});

/** By the slot of a way: true where the way of a load leads through it. */
const isOfLoad = factKeys(
  'analysis',
  ({ machine }: MachineAnalysis) => loadWays(machine),
  ({ path }) => path,
);

function most(wires: readonly WireAt[]): WireAt | undefined {
  const lost = (wire: WireAt) => wire.values.drop?.si ?? 0;
  return wires.reduce<WireAt | undefined>((a, b) => (a && lost(a) >= lost(b) ? a : b), undefined);
}

function makeLoss(blamed: WireAt, what: string, drop: Derived, share: Derived, whole: boolean): Loss {
  const own = blamed.values.drop;
  const length = blamed.values.resistance?.inputs[0]?.shown ?? '';
  return {
    blamed,
    share: share.si,
    found: {
      at: blamed.wire.at,
      data: {
        what,
        drop: showBriefly(drop),
        share: `${formatNumber(share.value, 2)} %`,
        voltage: share.inputs[1]?.shown ?? '',
        whole,
        own: own ? showBriefly(own) : '',
        wire: blamed.shown,
        size: sizeOf(blamed),
        length,
      },
      related: [{ at: blamed.link.at, note: say`the link that loses most` }],
    },
  };
}

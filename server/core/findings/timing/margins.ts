import type { Analysis, MachineAnalysis } from '../../analysis.ts';
import { groupBy } from '../../group.ts';
import { said, say } from '../../language/say.ts';
import type { AxisEntry } from '../../model/machine.ts';
import { settingSpan, settingStep } from '../../model/setting-limits.ts';
import { expectationOf } from '../../model/setting-value.ts';
import type { Keyed } from '../../model/settings.ts';
import { raiseToStep } from '../../motion/rounding.ts';
import type { Related } from '../../problem.ts';
import { formatBest, formatNumber } from '../../units/index.ts';
import type { Derived, Input } from '../../values/derived.ts';
import { restsOnFault } from '../common/held-back.ts';
import { changeSetting, keyedAt, type SettingChange } from '../common/setting-edit.ts';
import type { Found } from '../rule.ts';

export type MarginName = 'lead' | 'hold' | 'on' | 'off';

/** Less is left than this share of what the drive asks for: tolerances of both parts can eat it (common practice, no source). */
const SCANT = 0.2;
/** A picosecond: what doubles leave over in differences of microseconds. */
const NOTHING = 1e-12;

interface Margin {
  readonly axis: AxisEntry;
  readonly derived: Derived;
  readonly given: Input;
  /** What the drive asks for, in seconds, with what its inputs lose. */
  readonly asked: number;
  readonly share: number;
}

/** Margins that are negative (`short`) or too small (`scant`): one finding for each figure that the controller gives. */
export function* findMargins(analysis: Analysis, name: MarginName, size: 'short' | 'scant'): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  const margins = [...analysis.machine.axes.values()].flatMap((axis) => marginOf(analysis, axis, name));
  for (const group of groupBy(margins, ({ given, axis }) => given.at ?? axis).values()) {
    const worst = group.reduce((a, b) => (b.share < a.share ? b : a));
    const found = worst.derived.si < -NOTHING ? 'short' : worst.share < SCANT - 1e-9 ? 'scant' : 'enough';
    if (found === size) yield describe(analysis, name, worst, group);
  }
}

function marginOf(analysis: MachineAnalysis, axis: AxisEntry, name: MarginName): Margin[] {
  const derived = analysis.values.byAddress.get(`axes.${axis.name}.timing.${name}-margin`);
  const given = derived?.inputs[0];
  if (!derived || !given || restsOnFault(analysis, derived)) return [];
  // An off-time that is what the top rate leaves over limits the rate, and with it the feed; it is no fault by itself.
  if (name === 'off' && !given.at) return [];
  const share = analysis.values.byAddress.get(`axes.${axis.name}.timing.${name}-share`);
  return share ? [{ axis, derived, given, asked: given.value - derived.si, share: share.si }] : [];
}

function describe(
  analysis: MachineAnalysis,
  name: MarginName,
  worst: Margin,
  group: readonly Margin[],
): Found {
  const { axis, given, derived, asked, share } = worst;
  const isHere = given.at !== undefined && given.file === analysis.file;
  const keyed = given.at && keyedAt(analysis, given.at);
  const change = keyed && raise(analysis, keyed, asked);
  const isShort = derived.si < -NOTHING;
  return {
    at: isHere && given.at ? given.at : axis.key,
    data: {
      name,
      axis: axis.name,
      others: group
        // Of an axis that has a little left it would be wrong to say that it is too little.
        .filter(
          (each) => each !== worst && (isShort ? each.derived.si < -NOTHING : each.share < SCANT - 1e-9),
        )
        .map((each) => each.axis.name),
      given: formatBest(given.value, 'time'),
      asked: formatBest(asked, 'time'),
      drive: axis.drives[0]?.text ?? '',
      margin: formatBest(Math.abs(derived.si), 'time', 3),
      share: formatNumber(Math.round(Math.abs(share) * 100)),
      setting: keyed ? say`${keyed.setting.name} of ${keyed.part.name}` : '',
      wanted: change?.text ?? '',
    },
    related: relatedTo(analysis, worst, isHere),
    fixes: change?.fix ? [change.fix] : [],
  };
}

function relatedTo(analysis: MachineAnalysis, { derived, given, axis }: Margin, isHere: boolean): Related[] {
  const asked = derived.inputs[1];
  const placed = (input: Input | undefined, note: string): Related[] =>
    input?.at
      ? [
          {
            ...(input.file === undefined || input.file === analysis.file ? {} : { file: input.file }),
            at: input.at,
            note,
          },
        ]
      : [];
  return [
    ...placed(asked, say`${axis.drives[0]?.text ?? 'the drive'} asks for ${asked?.shown}`),
    ...(isHere
      ? [{ at: axis.key, note: say`axis ${axis.name}` }]
      : placed(given, `${said(given.name)}: ${given.shown}`)),
  ];
}

/** The next step of a setting that leaves the whole margin; undefined where it does not go so far. */
function raise(analysis: MachineAnalysis, keyed: Keyed, asked: number): SettingChange | undefined {
  const expected = expectationOf(keyed.setting);
  if (expected === undefined || expected === 'count') return undefined;
  const least = asked * (1 + SCANT);
  const step = settingStep(keyed.setting, expected)?.size;
  const wanted = step === undefined ? least : raiseToStep(least, step);
  const span = settingSpan(keyed.setting, expected);
  return span && wanted > span.most.value * (1 + 1e-12) ? undefined : changeSetting(analysis, keyed, wanted);
}

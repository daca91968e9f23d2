import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import type { Data, Fix } from '../../../problem.ts';
import { formatNumber, formatQuantity } from '../../../units/index.ts';
import { unitShown } from '../../../values/derived.ts';
import { isFaulty } from '../../common/held-back.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { type DisputedLead, disputedLead, ROUNDING } from '../disputed-lead.ts';

export const rule: Rule = {
  code: 'motion/two-leads',
  severity: 'error',
  title: later`The lead of a screw is not what its pitch and starts make`,
  find: findDisputed,
  say: (data) => {
    const [axis, lead, pitch] = [word(data, 'axis'), word(data, 'lead'), word(data, 'pitch')];
    const fault =
      data.starts === undefined
        ? say`The screw of ${axis} has a lead of ${lead}, which no number of starts makes of a pitch of ${pitch}`
        : say`The screw of ${axis} has a lead of ${lead}, but a pitch of ${pitch} with ${word(data, 'starts')} ${data.starts === 1 ? 'start' : 'starts'} makes ${word(data, 'made')}`;
    return say`${fault}${sayPulses(data)}. Turn it once, measure how far the nut moves, and keep what is right.`;
  },
};

/** What the one and the other come to. */
function sayPulses(data: Data): string {
  return data.byLead === undefined
    ? ''
    : say`: by the lead the axis takes ${word(data, 'byLead')}, by the other ${word(data, 'byPitch')}, and every move is wrong by that`;
}

function* findDisputed(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const axis of analysis.machine.axes.values()) {
    const disputed = disputedLead(axis);
    if (!disputed) continue;
    const { lead, pitch, starts } = disputed;
    const places = [lead.at, pitch.at, ...(starts ? [starts.at] : [])];
    if (places.some((at) => isFaulty(analysis, at))) continue;
    yield {
      at: lead.at,
      data: {
        axis: axis.name,
        lead: lead.text,
        pitch: pitch.text,
        ...(starts && { starts: starts.value, made: showMade(disputed) }),
        ...pulsesOf(analysis, axis.name, disputed),
      },
      related: [
        { at: pitch.at, note: say`pitch ${pitch.text}` },
        ...(starts ? [{ at: starts.at, note: say`starts: ${starts.text}` }] : []),
      ],
      fixes: fixesOf(disputed),
    };
  }
}

/** How many pulses go to a unit of length by the one and by the other. */
function pulsesOf({ values }: MachineAnalysis, axis: string, { lead, starts, made }: DisputedLead): Data {
  const pulses = values.byAddress.get(`axes.${axis}.pulses-per-length`);
  if (!pulses || !starts) return {};
  const show = (value: number) => `${formatNumber(value)} ${unitShown(pulses)}`;
  return { byLead: show(pulses.value), byPitch: show((pulses.value * lead.value.value) / made) };
}

function fixesOf(disputed: DisputedLead): Fix[] {
  const { lead, pitch, starts } = disputed;
  if (!starts) return [];
  const fixes = [
    { title: say`Change the lead to ${showMade(disputed)}`, at: lead.at, text: showMade(disputed) },
  ];
  const ratio = lead.value.value / pitch.value.value;
  const whole = Math.round(ratio);
  if (whole >= 1 && Math.abs(ratio / whole - 1) <= ROUNDING)
    fixes.push({ title: say`Change the starts to ${whole}`, at: starts.at, text: String(whole) });
  return fixes.map(({ title, at, text }) => ({ title, edits: [{ at, text }], safe: false }));
}

function showMade({ lead, made }: DisputedLead): string {
  return formatQuantity(made, lead.value.unit.symbol);
}

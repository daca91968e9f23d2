import type { Analysis } from '../analysis.ts';
import { restsOnFault } from '../findings/common/held-back.ts';
import { pick } from '../pick.ts';
import { type Derived, dependantsOf, type Values } from '../values/derived.ts';

/** Escapes text of the user's for Markdown, so that a name never becomes formatting, a link or an image. */
export function escapeMarkdown(text: string): string {
  return text
    .replace(/[\r\n]+/g, ' ')
    .replace(/[\\`*_[\]<>~|&@]/g, '\\$&')
    .replace(/:(?=\/\/)|(?<=\bwww)\./g, '\\$&') // bare addresses would become links
    .replace(/^(\s*)([-+#=])/, '$1\\$2') // some marks mean something at the start of a line only
    .replace(/^(\s*\d+)([.)])/, '$1\\$2');
}

/** Text in a code span, whatever backticks it holds. */
export function codeSpan(text: string): string {
  const longest = Math.max(0, ...[...text.matchAll(/`+/g)].map(([ticks]) => ticks.length));
  const fence = '`'.repeat(longest + 1);
  const pad = longest > 0 ? ' ' : '';
  return `${fence}${pad}${text.replace(/[\r\n]+/g, ' ')}${pad}${fence}`;
}

/** Names of values that do not read well as their address spells them. */
const TITLES: Readonly<Record<string, string>> = {
  'pulse-rate-limit': 'highest pulse rate',
  'feed-limit.pulse-rate': 'feed limit by pulse rate',
  'timing.lead-margin': 'lead margin',
  'timing.hold-margin': 'hold margin',
  'timing.on-margin': 'on-time margin',
  'timing.off-margin': 'off-time margin',
  'timing.lead-share': 'lead margin in percent',
  'timing.hold-share': 'hold margin in percent',
  'timing.on-share': 'on-time margin in percent',
  'timing.off-share': 'off-time margin in percent',
  'feed-limit.motor-speed': 'feed limit by the motor’s speed',
  'feed-limit.critical-speed': 'feed limit by the critical speed of the screw',
  'feed-limit.nut-speed': 'feed limit by the speed of the nut',
  'motor-corner-speed': 'speed from which the torque falls',
  'motor-speed': 'motor speed at the wanted feed',
  'usable-speed': 'motor speed with torque enough',
  'standstill-torque': 'torque at standstill',
  inertia: 'inertia at the motor',
  'microstep-torque': 'torque within one microstep',
  'torque-available': 'torque available at the wanted feed',
  'stopping-distance': 'stopping distance from the wanted feed',
  'homing-overrun': 'overrun when homing',
  'screw-critical-speed': 'critical speed of the screw',
  'screw-buckling-load': 'buckling load of the screw',
  'corrected-backlash': 'backlash to make up for',
  'measured-error': 'measured error of the travel',
  'load-share': 'share of the supply’s current',
  load: 'current fed by the supply',
  'volts-per-1000rpm': 'volts for 1000 rpm',
  'speed-step': 'smallest change of speed',
  'reading-error': 'worst error of the measured speeds',
  'reading-error-left': 'error left once the top speed is corrected',
  'confirmed-top-speed': 'top speed confirmed by the readings',
  'loading-error': 'loss of the speed signal',
  'steady-torque': 'torque to move without cutting',
  signal: 'speed signal',
  'signal-count': 'count of the speed signal',
  'move-time': 'time of a move',
  'move-peak': 'highest speed of a move',
  'wait-margin': 'time to spare of the wait',
  'wait-share': 'time to spare of the wait in percent',
  'rounding-error': 'rounding error',
  'rounding-drift': 'drift over the travel as keyed in',
};

/** An address in words: `axes.X.pulses-per-length` is the `pulses per length of X`. */
export function titleOf(address: string): string {
  const [section = '', owner = '', ...rest] = address.split('.');
  // What follows ` at ` is a figure, whose point divides nothing.
  if (section === 'spindle' || rest.length === 0)
    return `${nameIn([owner, ...rest].join('.'))} of the ${section}`;
  const name = rest.join('.');
  if (section === 'settings') return `${rest.slice(0, -1).join('.')} of ${owner}, ${rest.at(-1)}`;
  return `${nameIn(name)} of ${owner}`;
}

function nameIn(name: string): string {
  const [start = '', ...figure] = name.split(/(?= at )/);
  const title = pick(TITLES, start) ?? start.replaceAll(/[-.]/g, ' ');
  return title + figure.join('');
}

/** A limit with its article; some are called `the controller's top rate` already. */
export function nameLimit(limit: string): string {
  return limit.startsWith('the ') || /^\d/.test(limit) ? limit : `the ${limit}`;
}

/** One level down: the workings of the values that a value rests on, so that no figure comes out of nowhere. */
function whereFrom(value: Derived, values: Values): string[] {
  const lines = value.inputs.flatMap(({ address }) => {
    const inner = address === undefined ? undefined : values.byAddress.get(address);
    return inner ? [`where ${escapeMarkdown(titleOf(inner.address))}: ${codeSpan(inner.working)}`] : [];
  });
  return lines.length > 0 ? ['', lines.slice(0, MOST_WORKINGS).join('  \n')] : [];
}

const MOST_WORKINGS = 4;

/** Said of a value that rests on a figure which a finding rejects. */
export const DOUBTFUL = 'It rests on a figure that is at fault, so it means nothing yet.';

/** A derived value with its working, its source and what depends on it. */
export function describeDerived(value: Derived, analysis: Analysis): string {
  const { values } = analysis;
  const limit = value.limit === undefined ? '' : `, limited by ${nameLimit(value.limit)}`;
  const lines = [
    `**${escapeMarkdown(titleOf(value.address))}**: ${codeSpan(value.shown)}${escapeMarkdown(limit)}`,
    '',
    ...(restsOnFault(analysis, value) ? [DOUBTFUL, ''] : []),
    `${escapeMarkdown(value.formula)}  `,
    codeSpan(value.working),
    ...whereFrom(value, values),
    '',
    `Source: ${escapeMarkdown(value.source)}.`,
  ];
  const users = dependantsOf(values, value.address);
  if (users.length > 0)
    lines.push('', `Used for ${users.map((address) => escapeMarkdown(titleOf(address))).join(', ')}.`);
  return lines.join('\n');
}

import type { Analysis } from '../analysis.ts';
import { restsOnFault } from '../findings/common/held-back.ts';
import { later, said, say } from '../language/say.ts';
import { pick } from '../pick.ts';
import type { Derived, Values } from '../values/derived.ts';
import { usersOf } from '../values/uses.ts';

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
  'pulse-rate-limit': later`highest pulse rate`,
  'feed-limit.pulse-rate': later`feed limit by pulse rate`,
  'timing.lead-margin': later`lead margin`,
  'timing.hold-margin': later`hold margin`,
  'timing.on-margin': later`on-time margin`,
  'timing.off-margin': later`off-time margin`,
  'timing.lead-share': later`lead margin in percent`,
  'timing.hold-share': later`hold margin in percent`,
  'timing.on-share': later`on-time margin in percent`,
  'timing.off-share': later`off-time margin in percent`,
  'feed-limit.motor-speed': later`feed limit by the motor’s speed`,
  'feed-limit.critical-speed': later`feed limit by the critical speed of the screw`,
  'feed-limit.nut-speed': later`feed limit by the speed of the nut`,
  'motor-corner-speed': later`speed from which the torque falls`,
  'motor-speed': later`motor speed at the wanted feed`,
  'usable-speed': later`motor speed with torque enough`,
  'standstill-torque': later`torque at standstill`,
  inertia: later`inertia at the motor`,
  'microstep-torque': later`torque within one microstep`,
  'torque-available': later`torque available at the wanted feed`,
  'stopping-distance': later`stopping distance from the wanted feed`,
  'homing-overrun': later`overrun when homing`,
  'screw-critical-speed': later`critical speed of the screw`,
  'screw-buckling-load': later`buckling load of the screw`,
  'corrected-backlash': later`backlash to make up for`,
  'measured-error': later`measured error of the travel`,
  'load-share': later`share of the supply’s current`,
  load: later`current fed by the supply`,
  'volts-per-1000rpm': later`volts for 1000 rpm`,
  'speed-step': later`smallest change of speed`,
  'reading-error': later`worst error of the measured speeds`,
  'reading-error-left': later`error left once the top speed is corrected`,
  'confirmed-top-speed': later`top speed confirmed by the readings`,
  'loading-error': later`loss of the speed signal`,
  'steady-torque': later`torque to move without cutting`,
  signal: later`speed signal`,
  'signal-count': later`count of the speed signal`,
  'move-time': later`time of a move`,
  'move-peak': later`highest speed of a move`,
  'wait-margin': later`time to spare of the wait`,
  'wait-share': later`time to spare of the wait in percent`,
  'rounding-error': later`rounding error`,
  'rounding-drift': later`drift over the travel as keyed in`,
  'pulses-per-length': later`pulses per length`,
  'pulses-per-turn': later`pulses per turn`,
  'ramp-distance': later`ramp distance`,
  'ramp-time': later`ramp time`,
  resolution: later`resolution`,
  thrust: later`thrust`,
  'top-feed': later`top feed`,
  'torque-margin': later`torque margin`,
  'torque-needed': later`torque needed`,
  'corrected-pulses-per-length': later`corrected pulses per length`,
  'confirmed-pulses-per-length': later`confirmed pulses per length`,
  drop: later`drop`,
  'drop-share': later`drop share`,
  'supply-voltage': later`supply voltage`,
  'corrected-top-speed': later`corrected top speed`,
  'reading-gain': later`reading gain`,
  'reading-offset': later`reading offset`,
  slip: later`slip`,
  'synchronous-speed': later`synchronous speed`,
  'top-speed': later`top speed`,
  capacity: later`capacity`,
  current: later`current`,
  resistance: later`resistance`,
  inrush: later`inrush`,
  'feed-at-1': later`feed at 1`,
  'feed-at-10': later`feed at 10`,
  'feed-at-100': later`feed at 100`,
  'confirmed-backlash': later`confirmed backlash`,
};

/** What is said of one circuit or output of a part, behind its name. */
const OF_ONE: Readonly<Record<string, string>> = {
  rest: later`rest`,
  operated: later`operated`,
  'broken-wire': later`broken wire`,
  margin: later`margin`,
  load: later`load`,
  'load-share': later`load share`,
};

/** An address in words: `axes.X.pulses-per-length` is the `pulses per length of X`. */
export function titleOf(address: string): string {
  const [section = '', owner = '', ...rest] = address.split('.');
  // What follows ` at ` is a figure, whose point divides nothing.
  if (section === 'spindle' || rest.length === 0)
    return say`${nameIn([owner, ...rest].join('.'))} of the ${section}`;
  const name = rest.join('.');
  // A wire without a label is called by its ends.
  if (section === 'wires')
    return say`${nameIn(rest.at(-1) ?? '')} of ${[owner, ...rest.slice(0, -1)].join('.')}`;
  if (section === 'settings') return say`${rest.slice(0, -1).join('.')} of ${owner}, ${rest.at(-1)}`;
  return say`${nameIn(name)} of ${owner}`;
}

function nameIn(name: string): string {
  const [start = '', ...figure] = name.split(/(?= at )/);
  return sayName(start) + figure.join('');
}

/** Of parts with several outputs and of circuits, the name of that stands before the value's. */
function sayName(name: string): string {
  const title = pick(TITLES, name);
  if (title !== undefined) return said(title);
  const words = (text: string) => text.replaceAll(/[-.]/g, ' ');
  const [start = '', ...rest] = name.split('.');
  const last = pick(OF_ONE, rest.join('.'));
  return last === undefined ? words(name) : say`${words(start)} ${said(last)}`;
}

/** A limit with its article; some are called `the controller's top rate` already. */
export function nameLimit(limit: string): string {
  return limit.startsWith('the ') || /^\d/.test(limit) ? said(limit) : say`the ${limit}`;
}

/** One level down: the workings of the values that a value rests on, so that no figure comes out of nowhere. */
function whereFrom(value: Derived, values: Values): string[] {
  const lines = value.inputs.flatMap(({ address }) => {
    const inner = address === undefined ? undefined : values.byAddress.get(address);
    return inner ? [say`where ${escapeMarkdown(titleOf(inner.address))}: ${codeSpan(inner.working)}`] : [];
  });
  return lines.length > 0 ? ['', lines.slice(0, MOST_WORKINGS).join('  \n')] : [];
}

const MOST_WORKINGS = 4;

/** Said of a value that rests on a figure which a finding rejects. */
export const DOUBTFUL = later`It rests on a figure that is at fault, so it means nothing yet.`;

/** Derived values, each with its working, its source and what depends on it. */
export function describeDerived(derived: readonly Derived[], analysis: Analysis): string[] {
  const users = usersOf(
    analysis.values,
    derived.map(({ address }) => address),
  );
  return derived.map((value) => describeOne(value, analysis, users.get(value.address) ?? []));
}

function describeOne(value: Derived, analysis: Analysis, users: readonly Derived[]): string {
  const { values } = analysis;
  const limit = value.limit === undefined ? '' : say`, limited by ${nameLimit(value.limit)}`;
  const lines = [
    `**${escapeMarkdown(titleOf(value.address))}**: ${codeSpan(value.shown)}${escapeMarkdown(limit)}`,
    '',
    ...(restsOnFault(analysis, value) ? [said(DOUBTFUL), ''] : []),
    `${escapeMarkdown(value.formula)}  `,
    codeSpan(value.working),
    ...whereFrom(value, values),
    '',
    say`Source: ${escapeMarkdown(value.source)}.`,
  ];
  if (users.length > 0)
    lines.push('', say`Used for ${users.map(({ address }) => escapeMarkdown(titleOf(address))).join(', ')}.`);
  return lines.join('\n');
}

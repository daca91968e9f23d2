import { type Analysis, analyse } from '../analysis.ts';
import { findAll } from '../findings/find.ts';
import type { Finding } from '../findings/rule.ts';
import { createTrees } from '../model/trees.ts';
import type { Derived } from '../values/derived.ts';
import { setAt } from './edit-path.ts';
import { titleOf } from './markdown.ts';

/** A value to be tried at a path of the text. */
export interface Change {
  readonly path: string;
  readonly value: string;
}

/** A value before and after; undefined where it is not computed. */
export interface ChangedValue {
  readonly address: string;
  readonly before: Derived | undefined;
  readonly after: Derived | undefined;
}

/** What some changes would do, or why they cannot be tried. */
export type WhatIf =
  | {
      readonly kind: 'tried';
      /** The analysis of the changed text. */
      readonly after: Analysis;
      readonly changes: readonly (Change & { readonly before: string | undefined })[];
      readonly values: readonly ChangedValue[];
      readonly appeared: readonly Finding[];
      readonly gone: readonly Finding[];
    }
  | { readonly kind: 'refused'; readonly why: string };

/**
 * Tries changes without touching the text: edits a copy, one value after the other, and compares what follows. The
 * values are all those that differ, in the order in which they are computed.
 */
export function whatIf(analysis: Analysis, changes: readonly Change[]): WhatIf {
  // Trees of its own, so that what is kept of the real text stays.
  const trees = createTrees();
  let after = analysis;
  const tried: (Change & { before: string | undefined })[] = [];
  for (const change of changes) {
    const edited = setAt(after, change.path, change.value);
    if (edited.kind === 'refused') return edited;
    tried.push({ ...change, before: edited.before });
    after = analyse(analysis.file, edited.text, analysis.world, trees);
  }
  return {
    kind: 'tried',
    after,
    changes: tried,
    values: compareValues(analysis, after),
    ...compareFindings(findAll(analysis), findAll(after)),
  };
}

function compareValues(before: Analysis, after: Analysis): ChangedValue[] {
  const [old, now] = [before.values.byAddress, after.values.byAddress];
  return [...new Set([...old.keys(), ...now.keys()])]
    .map((address) => ({ address, before: old.get(address), after: now.get(address) }))
    .filter((each) => show(each.before) !== show(each.after));
}

/** Findings are the same when they say the same. */
function compareFindings(before: readonly Finding[], after: readonly Finding[]) {
  const says = ({ code, message }: Finding) => `${code} ${message}`;
  const [old, now] = [new Set(before.map(says)), new Set(after.map(says))];
  return {
    appeared: after.filter((finding) => !old.has(says(finding))),
    gone: before.filter((finding) => !now.has(says(finding))),
  };
}

/** What a change does, in plain lines: the value that was asked for with its working, and whatever else changes. */
export function describeWhatIf(tried: Extract<WhatIf, { kind: 'tried' }>, address?: string): string[] {
  const others = tried.values.filter((value) => value.address !== address && isHeadline(value.address));
  return [
    ...tried.changes.map(
      ({ path, value, before }) =>
        `With ${path} ${value}${before === undefined ? '' : ` in place of ${before}`}`,
    ),
    ...(address === undefined ? [] : ['', ...describeAsked(tried, address)]),
    ...section(address === undefined ? 'What changes:' : 'What else changes:', others.map(describeChange)),
    ...section('Findings that come:', tried.appeared.map(describeFinding)),
    ...section('Findings that go:', tried.gone.map(describeFinding)),
    ...(tried.values.length + tried.appeared.length + tried.gone.length === 0
      ? ['', 'Nothing that is computed changes.']
      : []),
  ];
}

function describeAsked({ values, after }: Extract<WhatIf, { kind: 'tried' }>, address: string): string[] {
  const changed = values.find((value) => value.address === address);
  if (!changed) return [`${titleOf(address)}: ${show(after.values.byAddress.get(address))}, as before`];
  return [
    describeChange(changed),
    ...(changed.before ? [`  before: ${changed.before.working}`] : []),
    ...(changed.after ? [`  after:  ${changed.after.working}`] : []),
  ];
}

function describeChange({ address, before, after }: ChangedValue): string {
  return `${titleOf(address)}: ${show(before)} → ${show(after)}`;
}

function describeFinding({ severity, code, message }: Finding): string {
  return `${severity} ${code}: ${message}`;
}

function section(title: string, lines: readonly string[]): string[] {
  return lines.length > 0 ? ['', title, ...lines.map((line) => `  ${line}`)] : [];
}

function show(value: Derived | undefined): string {
  if (!value) return 'not computed';
  return value.limit === undefined ? value.shown : `${value.shown} (${value.limit})`;
}

/** Values that people ask for; the others are steps on the way to them, and `explain` shows those. */
const HEADLINES: Readonly<Record<string, RegExp>> = {
  axes: /\.(?:pulses-per-(?:turn|length)|resolution|top-feed|torque-margin|pulse-rate-limit|timing\.[a-z-]+|microstep-torque|rounding-drift|ramp-time|stopping-distance|homing-overrun|screw-buckling-load|corrected-pulses-per-length)$/,
  parts: /\.(?:supply-voltage|load|load-share)$/,
  spindle:
    /\.(?:top-speed|volts-per-1000rpm|speed-step|ramp-time|wait-margin|reading-error|corrected-top-speed)$/,
  handwheel: /./,
  settings: /\.wanted$/,
  circuits: /\.(?:rest|operated|margin)$/,
  wires: /\.(?:drop|drop-share|current)$/,
};

/** True for values that a headline shows, rather than a step on the way to one. */
function isHeadline(address: string): boolean {
  const section = address.slice(0, address.indexOf('.'));
  return Object.hasOwn(HEADLINES, section) && (HEADLINES[section]?.test(address) ?? false);
}

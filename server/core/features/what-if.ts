import { type Analysis, analyse } from '../analysis.ts';
import { compareFindings } from '../changes/findings.ts';
import { type ChangedValue, compareValues, isHeadline, showValue } from '../changes/values.ts';
import { findAll } from '../findings/find.ts';
import type { Finding } from '../findings/rule.ts';
import { sayGravity } from '../findings/severity.ts';
import { say } from '../language/say.ts';
import { createTrees } from '../model/trees.ts';
import type { Derived } from '../values/derived.ts';
import { setAt } from './edit-path.ts';
import { titleOf } from './markdown.ts';

/** A value to be tried at a path of the text. */
export interface Change {
  readonly path: string;
  readonly value: string;
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

/** What a change does, in plain lines: the value that was asked for with its working, and whatever else changes. */
export function describeWhatIf(tried: Extract<WhatIf, { kind: 'tried' }>, address?: string): string[] {
  const others = tried.values.filter((value) => value.id !== address && isHeadline(value.id));
  return [
    ...tried.changes.map(
      ({ path, value, before }) =>
        say`With ${path} ${value}${before === undefined ? '' : say` in place of ${before}`}`,
    ),
    ...(address === undefined ? [] : ['', ...describeAsked(tried, address)]),
    ...section(
      address === undefined ? say`What changes:` : say`What else changes:`,
      others.map(describeChange),
    ),
    ...section(say`Findings that come:`, tried.appeared.map(describeFinding)),
    ...section(say`Findings that go:`, tried.gone.map(describeFinding)),
    ...(tried.values.length + tried.appeared.length + tried.gone.length === 0
      ? ['', say`Nothing that is computed changes.`]
      : []),
  ];
}

function describeAsked({ values, after }: Extract<WhatIf, { kind: 'tried' }>, address: string): string[] {
  const changed = values.find((value) => value.id === address);
  if (!changed) return [say`${titleOf(address)}: ${show(after.values.byAddress.get(address))}, as before`];
  return [
    describeChange(changed),
    ...(changed.before ? [say`  before: ${changed.before.working}`] : []),
    ...(changed.after ? [say`  after:  ${changed.after.working}`] : []),
  ];
}

function describeChange({ id, before, after }: ChangedValue): string {
  return `${titleOf(id)}: ${show(before)} → ${show(after)}`;
}

function describeFinding({ severity, code, message }: Finding): string {
  return `${sayGravity(severity)} ${code}: ${message}`;
}

function section(title: string, lines: readonly string[]): string[] {
  return lines.length > 0 ? ['', title, ...lines.map((line) => `  ${line}`)] : [];
}

function show(value: Derived | undefined): string {
  return value ? showValue(value) : say`not computed`;
}

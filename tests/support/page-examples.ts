import fs from 'node:fs';
import path from 'node:path';
import type { Rule } from '../../server/core/findings/rule.ts';
import { ROOT } from './lsp-client.ts';
import { splitFiles, type Texts } from './marked.ts';

/** A small machine of a finding's page, which has the finding or is cured of it. */
export interface PageExample {
  readonly kind: 'wrong' | 'right';
  readonly texts: Texts;
}

/** Reads the examples of a finding's page, in their order. */
export function readPageExamples({ code }: Pick<Rule, 'code'>): PageExample[] {
  const page = fs.readFileSync(path.join(ROOT, 'server/core/findings', code, 'page.md'), 'utf8');
  return [...page.matchAll(/^```yaml (wrong|right)\n([\s\S]*?)^```$/gm)].map(([, kind, text = '']) => ({
    kind: kind as PageExample['kind'],
    texts: splitFiles(text, 'example.machine.yaml'),
  }));
}

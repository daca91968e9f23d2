import axe from 'axe-core';
import type { Page } from 'playwright-core';

interface Violation {
  readonly id: string;
  readonly nodes: readonly { readonly html: string; readonly failureSummary: string }[];
}

/** What the checker finds on the page as it stands, in few words. */
export async function violations(page: Page, rules?: readonly string[]): Promise<string[]> {
  await page.evaluate(axe.source);
  const options = {
    resultTypes: ['violations'],
    ...(rules && { runOnly: { type: 'rule', values: rules } }),
  };
  const found = await page.evaluate(
    async (given) => (await Reflect.get(globalThis, 'axe').run(document, given)).violations,
    options,
  );
  return (found as Violation[]).map(
    ({ id, nodes }) => `${id} (${nodes.length}): ${nodes[0]?.html.slice(0, 200)} ${nodes[0]?.failureSummary}`,
  );
}

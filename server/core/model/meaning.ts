import { MEANINGS } from '../../../schemas/index.ts';
import { said } from '../language/say.ts';

/** What a setting means by the word of the format that stands under its `is`; undefined for none of them. */
export function sayMeaning(is: string | undefined): string | undefined {
  const meaning = MEANINGS[is as keyof typeof MEANINGS] as string | undefined;
  return meaning === undefined ? undefined : said(meaning);
}

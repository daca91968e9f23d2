import { pictureView } from './pictures/picture-view.ts';
import type { SummaryItem } from './summary.ts';
import { tableView } from './tables/table-view.ts';
import type { ViewElement } from './view.ts';

/** What an item looks like; undefined for a drawing, which must be laid out first. Page and report show this alike. */
export function itemView(item: SummaryItem): ViewElement | undefined {
  switch (item.kind) {
    case 'view':
      return item.view;
    case 'table':
      return tableView(item.table);
    case 'picture':
      return pictureView(item.picture);
    case 'drawing':
      return undefined;
  }
}

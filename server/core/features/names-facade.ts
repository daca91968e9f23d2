import { findLinkedPlaces } from './linked-places.ts';
import { findHighlights, findReferences } from './references.ts';
import { prepareRename, rename } from './rename/rename.ts';
import { fixPaths, listSheetLinks } from './sheet-links.ts';
import { findBefore, findNext, findStations } from './signal-way.ts';
import { findWorkspaceSymbols } from './workspace-symbols.ts';

/** Everything that starts from a name: where it stands, what it may become, and where its signal goes. */
export const NAMES = {
  /** Every place of some texts that names the thing at an offset. */
  references: findReferences,
  highlights: findHighlights,
  /** The places that change together while one is typed. */
  linkedPlaces: findLinkedPlaces,
  prepareRename,
  rename,
  /** Definitions of the workspace by some of their letters. */
  workspaceSymbols: findWorkspaceSymbols,
  /** The places of a machine that name a sheet, and what has to be written there when files are moved. */
  sheetLinks: listSheetLinks,
  fixPaths,
  /** The circuits at an offset through which a signal goes, what a circuit's signal reaches next, and where it comes from. */
  stations: findStations,
  signalFrom: findNext,
  signalInto: findBefore,
} as const;

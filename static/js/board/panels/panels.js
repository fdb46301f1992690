// All panels of the board, and what each of them is told.
import { createActions } from "./actions.js";
import { createDiscarding } from "./discarding.js";
import { createFigures } from "./figures.js";
import { createFindings } from "./findings.js";
import { openOnWide } from "./fold.js";
import { createKeeping } from "./keeping.js";
import { createKey } from "./key.js";
import { createLayersPanel } from "./layers.js";
import { createMoved } from "./moved.js";
import { createSitePoints } from "./site_points.js";
import { createState } from "./state.js";
import { createSums } from "./sums.js";
import { rememberLayers } from "../shown_layers.js";

export function createPanels({ byId, store, board, data, ask, autosave, say }) {
  const go = (url) => globalThis.location.assign(url);
  const keep = createKeeping({ ask, url: data.urls.keep, autosave, frozen: data.frozen, go, say });
  const state = createState(byId("board-state"));
  const actions = createActions({
    section: byId("board-actions"),
    store,
    urls: data.urls,
    keep: () => keep(actions.busy),
    discard: createDiscarding({ ask, url: data.urls.discard, autosave, go }),
    say,
  });
  const findings = createFindings({
    section: byId("board-findings"),
    count: byId("board-findings-count"),
    store,
    board,
  });
  const layers = createLayersPanel({ section: byId("board-layers"), board, remember: rememberLayers });
  const reported = [
    findings,
    createMoved(byId("board-moved")),
    createSums({ section: byId("board-sums"), store, board }),
    createFigures({ section: byId("board-figures"), store }),
  ];
  createSitePoints({ section: byId("board-layers"), data, board, say });
  createKey(byId("board-layers"));
  openOnWide([...byId("board-side").querySelectorAll("details")]);

  return {
    showReport(report) {
      if (report) for (const panel of reported) panel.show(report);
    },
    tellCheck: findings.tell,
    tellSaving: state.tell,
    showWetting: layers.showWetting,
  };
}

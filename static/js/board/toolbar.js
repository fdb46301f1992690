// Puts the tools together: the bar, the strip, the typed form, the fields of what is selected, and the keys.

import { createProperties } from "./panels/properties.js";
import { meaningOf, ownsItsKeys } from "./shortcuts.js";
import { createTools } from "./tools/all.js";
import { createBar } from "./tools/bar.js";
import { createCornerMenu } from "./tools/corner_menu.js";
import { createCross } from "./tools/cross.js";
import { createKeyList } from "./tools/key_list.js";
import { createRemembered } from "./tools/remembered.js";
import { createActions } from "./tools/select_actions.js";
import { createStrip } from "./tools/strip.js";
import { createTyped } from "./typed.js";

const byId = (id) => document.getElementById(id);

export function createToolbar({ store, board, data, ask, say }) {
  const [host, middle, map] = [byId("board-tools"), byId("board-middle"), byId("board-map")];
  let current = null;

  const context = {
    store, board, data, ask, say,
    choices: createRemembered(),
    cross: createCross(),
    leave: () => use("select"),
    toTools: () => bar.focus(),
    editField: (name) => properties.focusField(name),
  };
  context.typed = createTyped(byId("board-typed"), { ...context, press: (keys) => obeyOnMap(keys) });
  context.menu = createCornerMenu(middle);
  context.actions = createActions(context);
  context.strip = createStrip(middle, {
    run(command) {
      current.commands?.[command]();
      board.focus();
    },
    type: () => current.typeFigures?.(),
  });
  const properties = createProperties(byId("board-properties"), context);
  const tools = createTools(context);
  const showKeys = createKeyList(tools);
  const bar = createBar(host, tools, { use: chosen, help: showKeys });

  function use(name) {
    const next = tools.find((tool) => tool.name === name);
    if (next === current) return;
    current?.disable();
    context.typed.close();
    current = next;
    bar.press(name);
    say(next.help);
    context.strip.show(next);
    next.enable();
  }

  // From the bar the hands go on to the plan.
  function chosen(name) {
    use(name);
    board.focus();
  }

  const commands = {
    undo: () => say(store.canUndo ? `Undone: ${undoing(store.undoName, store.undo)}` : "Nothing to undo."),
    redo: () => say(store.canRedo ? `Done again: ${undoing(store.redoName, store.redo)}` : "Nothing to do again."),
    copy: () => context.actions.copy(),
    paste: () => context.actions.paste(),
    all: () => context.actions.all(),
    everything: () => board.zoomAll(),
    help: showKeys,
  };

  function undoing(name, act) {
    act();
    return `${name}.`;
  }

  function obey(event) {
    const meaning = meaningOf(event, tools);
    if (!meaning) return false;
    if (meaning.command) commands[meaning.command]();
    else chosen(meaning.tool);
    return true;
  }

  // Plain keys draw only where the plan or the bar has the focus; undo and redo work in the whole board.
  function onKey(event) {
    if (event.defaultPrevented || ownsItsKeys(event.target)) return;
    const undoes = (event.ctrlKey || event.metaKey) && /^[zy]$/i.test(event.key);
    const taken = event.target === map ? obeyOnMap(event) : (undoes || host.contains(event.target)) && obey(event);
    if (taken) event.preventDefault();
  }

  const obeyOnMap = (event) => current.onKey?.(event) || obey(event);

  document.addEventListener("keydown", onKey);
  use("select");
  if (document.activeElement === document.body) board.focus();

  return { use: chosen, get current() { return current.name; } };
}

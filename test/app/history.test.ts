import { describe, expect, test } from "vitest";
import {
  addStep,
  beginHistory,
  canRedo,
  canUndo,
  present,
  redo,
  redoLabel,
  undo,
  undoLabel,
} from "../../src/app/state/history.ts";

const step = (text: string, at = 0, joins?: string) => ({
  text,
  label: `to ${text}`,
  at,
  ...(joins === undefined ? {} : { joins }),
});

describe("the history of texts", () => {
  // law: undo takes back exactly one step, redo does exactly that step again, however many there are
  test("walks a thousand steps back and forth", () => {
    let history = beginHistory("0", "open");
    for (let n = 1; n <= 1000; n++) history = addStep(history, step(String(n), n * 10_000));
    for (let n = 999; n >= 0; n--) {
      history = undo(history);
      expect(present(history).text).toBe(String(n));
    }
    expect(canUndo(history)).toBe(false);
    expect(undo(history)).toBe(history);
    for (let n = 1; n <= 1000; n++) history = redo(history);
    expect(present(history).text).toBe("1000");
    expect(canRedo(history)).toBe(false);
  });

  test("forgets what was undone when something else is done", () => {
    const history = addStep(undo(addStep(beginHistory("a", "open"), step("b"))), step("c", 1));
    expect(canRedo(history)).toBe(false);
    expect(present(undo(history)).text).toBe("a");
  });

  test("joins the presses of a held key into one step, and parts them after a rest", () => {
    let history = beginHistory("a", "open");
    for (let n = 0; n < 5; n++) history = addStep(history, step(`b${n}`, 100 + n * 200, "nudge"));
    expect(present(undo(history)).text).toBe("a");
    history = addStep(history, step("c", 10_000, "nudge"));
    expect(present(undo(history)).text).toBe("b4");
  });

  test("makes no step of a text that is the same", () => {
    const history = beginHistory("a", "open");
    expect(addStep(history, step("a"))).toBe(history);
  });

  test("says what undo and redo would do", () => {
    const history = addStep(beginHistory("a", "open"), step("b"));
    expect(undoLabel(history)).toBe("to b");
    expect(redoLabel(undo(history))).toBe("to b");
    expect(undoLabel(undo(history))).toBeUndefined();
  });
});

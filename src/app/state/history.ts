/** Texts, one after another, without limit: undo walks back, redo forward. Immutable. */

export interface Step {
  readonly text: string;
  /** What was done to arrive here, e.g. `Change secondary, turns`. */
  readonly label: string;
  /** Steps with one key that follow each other quickly are one step: a held arrow key is one gesture. */
  readonly joins?: string;
  /** [ms] of the caller's clock. */
  readonly at: number;
}

export interface History {
  readonly steps: readonly Step[];
  readonly index: number;
}

const joinWithin = 1200;

/** A history that begins with one text. */
export const beginHistory = (text: string, label: string): History => ({ steps: [{ text, label, at: 0 }], index: 0 });

export const present = ({ steps, index }: History): Step => steps[index] as Step;

export const canUndo = ({ index }: History) => index > 0;
export const canRedo = ({ steps, index }: History) => index < steps.length - 1;

/** What undo would take back, and what redo would do again. */
export const undoLabel = (history: History) => (canUndo(history) ? present(history).label : undefined);
export const redoLabel = ({ steps, index }: History) => steps[index + 1]?.label;

/** The history with one more step; what was undone before it is forgotten. */
export function addStep(history: History, step: Step): History {
  const now = present(history);
  if (step.text === now.text) return history;
  const joined =
    step.joins !== undefined && step.joins === now.joins && step.at - now.at < joinWithin && history.index > 0;
  const kept = history.steps.slice(0, history.index + (joined ? 0 : 1));
  return { steps: [...kept, step], index: kept.length };
}

export const undo = (history: History): History =>
  canUndo(history) ? { ...history, index: history.index - 1 } : history;
export const redo = (history: History): History =>
  canRedo(history) ? { ...history, index: history.index + 1 } : history;

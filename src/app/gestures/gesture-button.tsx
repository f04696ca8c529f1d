/** A button of a registered gesture: its label, key and state come from the registry. */
import { type GestureId, gesture, shownKey } from "./registry.ts";

const forReaders = (key: string) => key.replace(/[a-z]$/, (letter) => letter.toUpperCase());

export function GestureButton({ id, onDone }: { readonly id: GestureId; readonly onDone?: () => void }) {
  const { label, keys, detail, enabled, run } = gesture(id);
  const disabled = !(enabled?.() ?? true);
  const more = detail?.();
  const title = [more === undefined ? label : `${label}: ${more}`, keys[0] && `(${shownKey(keys[0])})`]
    .filter(Boolean)
    .join(" ");
  return (
    <button
      type="button"
      class="plain"
      data-gesture={id}
      aria-disabled={disabled}
      aria-keyshortcuts={keys.map(forReaders).join(" ") || undefined}
      title={title}
      onClick={() => {
        if (!disabled) run();
        onDone?.();
      }}
    >
      {label}
    </button>
  );
}

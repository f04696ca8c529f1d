/** A room whose inside is fetched when it is first opened. */
import { signal } from "@preact/signals";
import type { FunctionComponent } from "preact";
import { useEffect } from "preact/hooks";

export function lazyRoom(fetchInside: () => Promise<FunctionComponent>): FunctionComponent {
  const inside = signal<FunctionComponent | undefined>(undefined);
  const trouble = signal(false);
  const enter = async (): Promise<void> => {
    if (inside.peek() !== undefined) return;
    trouble.value = false;
    try {
      inside.value = await fetchInside();
    } catch {
      trouble.value = true;
    }
  };
  return function LazyRoom() {
    useEffect(() => void enter(), []);
    const View = inside.value;
    if (View !== undefined) return <View />;
    return (
      <div class="room">
        <p class="empty">{trouble.value ? "This room could not be fetched. Load the page again." : "One moment."}</p>
      </div>
    );
  };
}

/** The door of the room Bench: what is behind it is fetched when it is first opened. */
import { signal } from "@preact/signals";
import type { FunctionComponent } from "preact";
import { useEffect } from "preact/hooks";

const inside = signal<FunctionComponent | undefined>(undefined);
const trouble = signal(false);

async function fetchRoom(): Promise<void> {
  if (inside.peek() !== undefined) return;
  try {
    const { BenchRoom } = await import("./bench-room.tsx");
    inside.value = BenchRoom;
  } catch {
    trouble.value = true;
  }
}

export function BenchDoor() {
  useEffect(() => void fetchRoom(), []);
  const View = inside.value;
  if (View !== undefined) return <View />;
  return (
    <div class="room">
      <p class="empty">{trouble.value ? "This room could not be fetched. Load the page again." : "One moment."}</p>
    </div>
  );
}

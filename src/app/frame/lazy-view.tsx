/** A part of the page whose code is fetched when it is first shown. */
import { signal } from "@preact/signals";
import type { FunctionComponent } from "preact";
import { useEffect } from "preact/hooks";

/** @param Meanwhile  shown until the inside is there; `failed` where it could not be fetched */
export function lazyView(
  fetchInside: () => Promise<FunctionComponent>,
  Meanwhile: FunctionComponent<{ readonly failed: boolean }>,
): FunctionComponent {
  const inside = signal<FunctionComponent | undefined>(undefined);
  const failed = signal(false);
  const enter = async (): Promise<void> => {
    if (inside.peek() !== undefined) return;
    failed.value = false;
    try {
      inside.value = await fetchInside();
    } catch {
      failed.value = true;
    }
  };
  return function LazyView() {
    useEffect(() => void enter(), []);
    const View = inside.value;
    return View === undefined ? <Meanwhile failed={failed.value} /> : <View />;
  };
}

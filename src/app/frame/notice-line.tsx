/** One sentence about the last gesture; it goes by itself. */
import { useEffect } from "preact/hooks";
import { notice } from "../state/view.ts";
import { Words } from "./words.tsx";

const stays = 7000;

export function NoticeLine() {
  const words = notice.value;
  useEffect(() => {
    if (words === "") return;
    const timer = setTimeout(() => {
      notice.value = "";
    }, stays);
    return () => clearTimeout(timer);
  }, [words]);
  return (
    <p class="notice" role="status" aria-live="polite" data-empty={words === "" || undefined}>
      <Words text={words} />
    </p>
  );
}

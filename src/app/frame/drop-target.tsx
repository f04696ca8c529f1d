/** The whole page takes a coil file that is dragged in; a room may take files of its own. */
import { useEffect } from "preact/hooks";
import { openPicked } from "../state/filing.ts";
import { dropTaker } from "../state/view.ts";

const isCoilFile = ({ name }: File) => /\.ya?ml$/i.test(name);

const mark = (over: boolean) => {
  document.documentElement.toggleAttribute("data-over", over);
};

export function DropTarget() {
  useEffect(() => {
    const over = (event: DragEvent) => {
      event.preventDefault();
      mark(true);
    };
    const leave = () => mark(false);
    const drop = (event: DragEvent) => {
      event.preventDefault();
      mark(false);
      const files = [...(event.dataTransfer?.files ?? [])];
      const taken = files.filter((one) => !isCoilFile(one));
      if (dropTaker.value !== undefined && taken.length > 0) return dropTaker.value(taken, event.target);
      const file = files[0];
      if (file !== undefined) void file.text().then((text) => openPicked({ name: file.name, text }));
    };
    document.addEventListener("dragover", over);
    document.addEventListener("dragleave", leave);
    document.addEventListener("drop", drop);
    return () => {
      document.removeEventListener("dragover", over);
      document.removeEventListener("dragleave", leave);
      document.removeEventListener("drop", drop);
    };
  }, []);
  return null;
}

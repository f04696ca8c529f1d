/** What a painted layer must know of the page to keep its numbers off the words. */
import type { PageSize } from "../../views/drawing-fit.ts";
import type { PageBox } from "../../views/drawing-layout.ts";
import type { Projection } from "../../views/drawing-path.ts";

export interface LayerPage {
  readonly projection: Projection;
  readonly page: PageSize;
  readonly taken: readonly PageBox[];
  readonly character: number;
}

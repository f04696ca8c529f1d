/** Remedies that move more than one part, so that the drawing stays together. */
import type { Edit, Remedy } from "../catalogue/finding.ts";
import type { Metre } from "../units/si.ts";
import { topLoadPath } from "./measures.ts";
import type { Context } from "./rule.ts";
import { quantityText } from "./words.ts";

const at = (context: Context, path: string, value: Metre): Edit => ({
  path,
  value: quantityText(context, { path, value, dimension: "length", digits: 4 }),
});

function loadsMoved(context: Context, by: Metre): readonly Edit[] {
  return context.coil.topload.map((load, index) => {
    const [size] = Object.values(load) as readonly { readonly height: Metre }[];
    return at(context, topLoadPath(context.coil, index, "height"), (size?.height ?? 0) + by);
  });
}

/** Another length of the winding, with the top load kept where it sits on it. */
export function windingOfLength(context: Context, length: Metre): Remedy {
  const path = "secondary.length";
  const value = quantityText(context, { path, value: length, dimension: "length", toward: "up" });
  const edits = [{ path, value }, ...loadsMoved(context, length - context.coil.secondary.length)];
  return { says: `${path}: ${value}${edits.length > 1 ? ", and the top load as much higher" : ""}`, edits };
}

/** The top load moved up or down on the winding. */
export function topLoadMoved(context: Context, by: Metre): Remedy {
  const edits = loadsMoved(context, by);
  return { says: edits.map(({ path, value }) => `${path}: ${value}`).join(" and "), edits };
}

/** The whole coil lifted, so that its lowest turn stands at `baseHeight`. */
export function coilLiftedTo(context: Context, baseHeight: Metre): Remedy {
  const { secondary, primary } = context.coil;
  const by = baseHeight - secondary.baseHeight;
  const edits = [
    at(context, "secondary.baseHeight", baseHeight),
    ...loadsMoved(context, by),
    ...(primary ? [at(context, "primary.baseHeight", primary.baseHeight + by)] : []),
    ...(primary?.strikeRing ? [at(context, "primary.strikeRing.height", primary.strikeRing.height + by)] : []),
  ];
  return { says: `secondary.baseHeight: ${edits[0]?.value}, and everything else as much higher`, edits };
}
